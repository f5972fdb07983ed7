// YAML text into our plain tree, with the exact place of everything, and every fault in it as a diagnostic.
// Takes YAML 1.2's core schema only. Gives no meaning to what it reads.

import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, parseDocument, type Scalar } from 'yaml';
import { type Diagnostic, diagnose, type Findings } from '../diagnostic/diagnostic.js';
import type { SourceFile, Span } from '../text/source.js';
import type { Range } from './front-matter.js';
import { type ScalarForm, scalarText } from './scalar-text.js';
import type { YamlEntry, YamlList, YamlMap, YamlNode, YamlScalar } from './tree.js';

export { splitFrontMatter } from './front-matter.js';

/**
 * Reads a file, or the part of it in `range`, as YAML. The tree is missing only where nothing is written there; with
 * errors it holds what could still be read.
 */
export function readYaml(file: SourceFile, range?: Range): Findings<YamlNode | undefined> {
  const whole = range ?? { start: 0, end: file.text.length };
  const document = parseDocument(file.text.slice(whole.start, whole.end), {
    version: '1.2',
    schema: 'core',
    merge: false,
    uniqueKeys: false,
    prettyErrors: false,
    logLevel: 'silent',
  });
  const reader: Reader = { file, base: whole.start, diagnostics: [] };
  for (const error of document.errors) {
    reader.diagnostics.push(
      diagnose({
        code: 'yaml-syntax',
        severity: 'error',
        message: error.message,
        at: spanOf(reader, error.pos[0], error.pos[1]),
      }),
    );
  }
  const value = document.contents ? nodeOf(reader, document.contents as Node) : undefined;
  return { value, diagnostics: reader.diagnostics };
}

interface Reader {
  readonly file: SourceFile;
  readonly base: number;
  readonly diagnostics: Diagnostic[];
}

function spanOf(reader: Reader, start: number, end: number): Span {
  return { file: reader.file.path, start: reader.base + start, end: reader.base + end };
}

function nodeOf(reader: Reader, node: Node): YamlNode {
  const [start, end] = node.range ?? [0, 0];
  const at = spanOf(reader, start, end);
  if (isMap(node)) {
    const entries: YamlEntry[] = [];
    for (const pair of node.items as Pair[]) {
      const key = pair.key as Node;
      if (!isScalar(key)) continue;
      const keyNode = scalarOf(reader, key as Scalar);
      const value = pair.value as Node | null;
      entries.push({ key: keyNode, value: value ? nodeOf(reader, value) : emptyAt(keyNode.at) });
    }
    return { kind: 'map', entries, at } satisfies YamlMap;
  }
  if (isSeq(node)) {
    return { kind: 'list', items: (node.items as Node[]).map((item) => nodeOf(reader, item)), at } satisfies YamlList;
  }
  if (isAlias(node)) return emptyAt(at);
  return scalarOf(reader, node as Scalar);
}

function emptyAt(at: Span): YamlScalar {
  const place = { file: at.file, start: at.end, end: at.end };
  return { kind: 'scalar', text: { value: '', at: place }, style: 'plain', core: null, at: place };
}

const forms: Readonly<Record<string, ScalarForm>> = {
  PLAIN: 'plain',
  QUOTE_SINGLE: 'single',
  QUOTE_DOUBLE: 'double',
  BLOCK_FOLDED: 'block',
  BLOCK_LITERAL: 'block',
};

function scalarOf(reader: Reader, node: Scalar): YamlScalar {
  const [start, end] = node.range ?? [0, 0];
  const at = spanOf(reader, start, end);
  const form = forms[node.type ?? 'PLAIN'] ?? 'plain';
  const value = form === 'plain' ? (node.source ?? '') : String(node.value);
  const style = form === 'plain' ? 'plain' : form === 'block' ? 'block' : 'quoted';
  const text = scalarText(reader.file.text, at, { form, value });
  return { kind: 'scalar', text, style, core: node.value as YamlScalar['core'], at };
}
