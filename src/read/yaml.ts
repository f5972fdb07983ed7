// YAML text into our plain tree, with the exact place of everything, and every fault in it as a diagnostic.
// Takes YAML 1.2's core schema only. Gives no meaning to what it reads.

import { type Node, parseDocument } from 'yaml';
import type { Findings } from '../diagnostic/diagnostic.js';
import type { SourceFile } from '../text/source.js';
import { withoutFlood } from './flood.js';
import type { Range } from './front-matter.js';
import { mendText } from './mended.js';
import { findTraps, textOf } from './trap-lines.js';
import type { YamlNode } from './tree.js';
import { findDocument } from './yaml-documents.js';
import { faultsOf } from './yaml-faults.js';
import { type TreeReader, treeOf } from './yaml-tree.js';

export { splitFrontMatter } from './front-matter.js';

/**
 * Reads a file, or the part of it in `range`, as YAML. With errors the tree holds what could still be read: texts that
 * YAML would have cut or split stand in it whole, since what was meant is reported once and needs no second complaint.
 * Missing only where nothing is written, or nothing could be read.
 */
export function readYaml(file: SourceFile, range?: Range): Findings<YamlNode | undefined> {
  const whole = range ?? { start: 0, end: file.text.length };
  const document = findDocument(file, whole);
  const scan = findTraps(file, document.value);
  const diagnostics = [...document.diagnostics, ...scan.traps.map((trap) => trap.diagnostic)];
  if (scan.tooDeep) return { value: undefined, diagnostics: withoutFlood(diagnostics) };
  const mended = mendText(
    textOf(file, document.value.end),
    document.value,
    scan.traps.flatMap((trap) => trap.mends),
  );
  const parsed = parseDocument(mended.text, {
    version: '1.2',
    schema: 'core',
    merge: false,
    uniqueKeys: false,
    prettyErrors: false,
    logLevel: 'silent',
  });
  const faults = faultsOf(file.path, mended, parsed.errors);
  const reader: TreeReader = { file: file.path, mended, diagnostics: [], isFaulty: parsed.errors.length > 0 };
  const value = parsed.contents ? treeOf(reader, parsed.contents as Node) : undefined;
  return { value, diagnostics: withoutFlood([...diagnostics, ...faults, ...reader.diagnostics]) };
}
