// The parser's nodes into our plain tree: every place brought back to the file, and what a book may not hold refused
// (copied parts, tags, keys that are no text, a key given twice, numbers where text is meant).

import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type Scalar } from 'yaml';
import { type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import type { Span } from '../text/source.js';
import type { Mended } from './mended.js';
import { type ScalarForm, scalarText } from './scalar-text.js';
import { isAlwaysText, readAsNumber } from './text-keys.js';
import type { YamlEntry, YamlNode, YamlScalar } from './tree.js';

/** What the tree is built from, and what was found on the way. */
export interface TreeReader {
  readonly file: string;
  readonly mended: Mended;
  readonly diagnostics: Diagnostic[];
  /** Whether the parser refused something: an empty key may then only follow from that. */
  readonly isFaulty: boolean;
}

/** Turns a parsed node, and all below it, into our tree. `textOnly`: a book always means text there. */
export function treeOf(reader: TreeReader, node: Node, textOnly = false): YamlNode {
  refuseExtras(reader, node);
  if (isAlias(node)) return emptyAt(placeOf(reader, node));
  if (isMap(node)) return mapOf(reader, node.items as Pair[], { at: placeOf(reader, node), textOnly });
  if (isSeq(node)) {
    const items = (node.items as Node[]).map((item) => treeOf(reader, item, textOnly));
    return { kind: 'list', items, at: placeOf(reader, node) };
  }
  const scalar = scalarOf(reader, node as Scalar);
  return textOnly ? readAsText(reader, scalar) : scalar;
}

function mapOf(reader: TreeReader, pairs: readonly Pair[], map: { at: Span; textOnly: boolean }): YamlNode {
  const entries: YamlEntry[] = [];
  const seen = new Map<string, YamlScalar>();
  for (const pair of pairs) {
    const key = keyOf(reader, pair.key as Node | null, map.at);
    if (!key) continue;
    const name = key.text.value;
    const node = pair.value as Node | null;
    const textOnly = map.textOnly || isAlwaysText(name);
    if (name === '<<') {
      reader.diagnostics.push(copiedPart(key.at, '<<'));
      continue;
    }
    const value = node ? treeOf(reader, node, textOnly) : emptyAt(key.at);
    const first = seen.get(name);
    if (first) {
      reader.diagnostics.push(duplicateKey(name, key.at, first.at));
      continue;
    }
    seen.set(name, key);
    entries.push({ key, value });
  }
  return { kind: 'map', entries, at: map.at };
}

function keyOf(reader: TreeReader, node: Node | null, map: Span): YamlScalar | undefined {
  if (node) refuseExtras(reader, node);
  if (node && isScalar(node)) {
    const key = scalarOf(reader, node);
    if (key.text.value !== '') return key;
  }
  if (reader.isFaulty) return undefined;
  const kind = isMap(node) ? 'map' : isSeq(node) ? 'list' : undefined;
  reader.diagnostics.push(
    diagnose({
      code: 'key-not-text',
      severity: 'error',
      message: kind
        ? `Unexpected ${kind} as a key, expected a word`
        : 'No key stands before this colon, expected a word',
      at: node ? placeOf(reader, node) : { ...map, end: map.start },
      help: kind
        ? 'Write one word before the colon, and every key on a line of its own.'
        : 'Write a word before the colon. Put all of it in quotes if it is meant as a text.',
    }),
  );
  return undefined;
}

function placeOf(reader: TreeReader, node: Node): Span {
  const [start, end] = node.range ?? [0, 0];
  const { mended, file } = reader;
  const from = mended.originOf(start);
  return { file, start: from, end: Math.max(from, mended.originOf(end)) };
}

/** An empty value stands right behind its key. */
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

function scalarOf(reader: TreeReader, node: Scalar): YamlScalar {
  const [start, end] = node.range ?? [0, 0];
  const form = forms[node.type ?? 'PLAIN'] ?? 'plain';
  const value = form === 'plain' ? (node.source ?? '') : String(node.value);
  const style = form === 'plain' ? 'plain' : form === 'block' ? 'block' : 'quoted';
  const text = scalarText(reader, { start, end }, { form, value });
  const core = coreOf(node.value);
  return { kind: 'scalar', text, style, core, at: placeOf(reader, node) };
}

function coreOf(value: unknown): YamlScalar['core'] {
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return value;
  return value === null || value === undefined ? null : String(value);
}

/** A scalar where a book always means text: a number there is reported and read as the text it was written as. */
function readAsText(reader: TreeReader, scalar: YamlScalar): YamlScalar {
  if (scalar.style !== 'plain' || typeof scalar.core === 'string' || scalar.text.value === '') return scalar;
  reader.diagnostics.push(readAsNumber(scalar));
  return { ...scalar, style: 'quoted', core: scalar.text.value };
}

const lastAnchor = /&[^\s,[\]{}]+(?=(?:\s+!\S*)?\s*$)/;
const lastTag = /(?<=^|[\s,[{])![^\s,[\]{}]*(?=(?:\s+&\S*)?\s*$)/;

function refuseExtras(reader: TreeReader, node: Node): void {
  if (isAlias(node)) {
    reader.diagnostics.push(copiedPart(placeOf(reader, node), `*${node.source}`));
    return;
  }
  const start = node.range?.[0] ?? 0;
  const anchor = (node as { anchor?: string }).anchor;
  if (anchor !== undefined) {
    reader.diagnostics.push(copiedPart(propertyBefore(reader, start, lastAnchor), `&${anchor}`));
  }
  const explicit = isScalar(node) || isMap(node) || isSeq(node) ? node.tag : undefined;
  if (explicit) reader.diagnostics.push(refusedTag(propertyBefore(reader, start, lastTag), explicit));
}

/** Where an anchor or tag stands: right before the node that it belongs to. */
function propertyBefore(reader: TreeReader, start: number, property: RegExp): Span {
  const { text, originOf } = reader.mended;
  const before = text.slice(Math.max(0, start - 500), start);
  const found = property.exec(before);
  const first = start - before.length + (found?.index ?? before.length);
  return { file: reader.file, start: originOf(first), end: originOf(first + (found?.[0].length ?? 0)) };
}

function copiedPart(at: Span, written: string): Diagnostic {
  return diagnose({
    code: 'copied-part',
    severity: 'error',
    message: `Unexpected \`${written}\`, YAML's way to copy a part: a copied part has no place of its own in the file`,
    at,
    help: 'Write the part out where it is needed. If it is a text, put it in quotes.',
    note: 'Every number and word of a book is checked, and shown, at the place where it was written.',
  });
}

function refusedTag(at: Span, tag: string): Diagnostic {
  const name = tag.replace('tag:yaml.org,2002:', '!!');
  return diagnose({
    code: 'yaml-tag',
    severity: 'error',
    message: `Unexpected tag \`${name}\`: a book says by its keys what a value is`,
    at,
    help: `Delete \`${name}\`. If it is a text, put the whole text in quotes.`,
  });
}

function duplicateKey(name: string, at: Span, first: Span): Diagnostic {
  return diagnose({
    code: 'duplicate-key',
    severity: 'error',
    message: `\`${name}\` is given twice here; only one can hold`,
    at,
    related: [{ message: `\`${name}\` stands here first`, at: first }],
    help: 'Delete one of the two, or put both contents under one key.',
  });
}
