// A file opened: cut, read as YAML, held against its schema. Nothing is built from a file that YAML could not read whole.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Keep } from '../../text/keep.js';
import type { SourceFile, Span } from '../../text/source.js';
import type { Range } from '../front-matter.js';
import { splitFrontMatter } from '../front-matter.js';
import { checkShape } from '../schema-check.js';
import type { FileKind } from '../schemas.js';
import type { YamlNode } from '../tree.js';
import { readYaml } from '../yaml.js';

/** A file as far as it could be opened. */
export interface Opened {
  readonly file: SourceFile;
  /** Missing where nothing is to be built from it. */
  readonly node?: YamlNode;
  /** The prose of a procedure. */
  readonly body?: Range;
  readonly diagnostics: readonly Diagnostic[];
  /** Whether a part of it could not be understood. */
  readonly hasGaps: boolean;
}

// these may be left empty: they then declare nothing
const mayBeEmpty: readonly FileKind[] = [
  'instruments',
  'tools',
  'crops',
  'states',
  'safety',
  'terms',
  'fleet',
  'issued',
];

/** Opens a file of a kind; one whose text is the same as before is not read again. */
export function openFile(file: SourceFile, kind: FileKind, keep: Keep): Opened {
  return keep(`open ${file.path}`, [kind, file.text], () => openAnew(file, kind));
}

function openAnew(file: SourceFile, kind: FileKind): Opened {
  if (kind !== 'procedure' && kind !== 'translation') return openYaml(file, kind);
  const { value, diagnostics } = splitFrontMatter(file);
  if (!value) return { file, diagnostics, hasGaps: true };
  return { ...openYaml(file, kind, value.front), body: value.body };
}

function openYaml(file: SourceFile, kind: FileKind, range?: Range): Opened {
  const { value: node, diagnostics } = readYaml(file, range);
  const gaps = diagnostics.filter(leavesGap);
  // of a key given twice the first is kept: the rest of the file is as whole as ever
  if (gaps.some(({ code }) => code !== 'duplicate-key')) return { file, diagnostics, hasGaps: true };
  if (!node) {
    if (mayBeEmpty.includes(kind) || diagnostics.length > 0)
      return { file, diagnostics, hasGaps: diagnostics.length > 0 };
    return { file, diagnostics: [nothingIn(file, range)], hasGaps: true };
  }
  // a text that YAML took for something else is of the wrong type only because of that
  const shape = checkShape(file, node, kind).filter(
    (fault) => !diagnostics.some(({ at }) => isOverlapping(at, fault.at)),
  );
  return { file, node, diagnostics: [...diagnostics, ...shape], hasGaps: gaps.length + shape.length > 0 };
}

/** A text that YAML would cut is read as it was meant, and comes with its fix; after any other fault parts may be lost. */
function leavesGap({ severity, fixes }: Diagnostic): boolean {
  return severity === 'error' && (fixes ?? []).length === 0;
}

function isOverlapping(a: Span, b: Span): boolean {
  return a.start < b.end && b.start < a.end;
}

function nothingIn(file: SourceFile, range: Range | undefined): Diagnostic {
  const start = range ? 0 : Math.max(0, file.text.search(/\S/));
  const end = range ? 3 : Math.max(start, file.text.trimEnd().length);
  return diagnose({
    code: 'empty-file',
    severity: 'error',
    message: range ? 'Nothing stands between the `---` lines' : `Nothing is written in \`${file.path}\``,
    at: { file: file.path, start, end: Math.min(end, file.text.length) },
    help: 'Write it, or delete the file. `stepgauge new` makes one to begin with.',
  });
}
