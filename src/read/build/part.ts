// A part of a file together with the same part of its translations, and the plain things that a part may be: an id, a
// list of ids, a number, a flag. What is not of the right kind was reported by the schema and is left out here.

import type { Located } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import type { YamlNode, YamlScalar } from '../tree.js';
import { markUsed, type Reading } from './reading.js';

export interface Part {
  readonly node: YamlNode;
  /** The key that it stands behind; missing in a list. */
  readonly key?: YamlScalar;
  /** The same part in the translation files, by language. */
  readonly words: ReadonlyMap<string, YamlNode>;
}

const noWords: ReadonlyMap<string, YamlNode> = new Map();

/** A part without translations. */
export function partOf(node: YamlNode, key?: YamlScalar): Part {
  return key ? { node, key, words: noWords } : { node, words: noWords };
}

/** The part behind a key; missing where the key is, or where nothing stands behind it. */
export function childOf(reading: Reading, part: Part | undefined, key: string): Part | undefined {
  const entry = part?.node.kind === 'map' ? entryWith(part.node, key) : undefined;
  if (!part || !entry || isBlank(entry.value)) return undefined;
  return { node: entry.value, key: entry.key, words: wordsBehind(reading, part.words, key) };
}

/** What translations have behind a key, by language. */
export function wordsBehind(
  reading: Reading,
  words: ReadonlyMap<string, YamlNode>,
  key: string,
): ReadonlyMap<string, YamlNode> {
  const found = new Map<string, YamlNode>();
  for (const [language, node] of words) {
    const entry = node.kind === 'map' ? entryWith(node, key) : undefined;
    if (!entry) continue;
    markUsed(reading, entry.key);
    if (!isBlank(entry.value)) found.set(language, entry.value);
  }
  return found;
}

/** The entries of a map, each with its translations; none where it is no map. `waive` is no entry of a map of ids. */
export function entriesOf(reading: Reading, part: Part | undefined): readonly (Part & { readonly key: YamlScalar })[] {
  if (part?.node.kind !== 'map') return [];
  return part.node.entries
    .filter(({ key, value }) => !isBlank(value) && !isWaiver(key, value))
    .map(({ key, value }) => ({ node: value, key, words: wordsBehind(reading, part.words, key.text.value) }));
}

function isWaiver(key: YamlScalar, value: YamlNode): boolean {
  return key.text.value === 'waive' && value.kind === 'list';
}

/** The items of a list; one that stands without brackets is a list of itself; none where there is nothing. */
export function itemsOf(part: Part | undefined): readonly YamlNode[] {
  if (!part || part.node.kind === 'map') return [];
  return part.node.kind === 'list' ? part.node.items : [part.node];
}

/** Whether nothing is written there. */
export function isBlank(node: YamlNode): boolean {
  return node.kind === 'scalar' && node.core === null && node.style === 'plain';
}

/** Whether `none` is written there. */
export function isNone(part: Part | undefined): boolean {
  return part?.node.kind === 'scalar' && part.node.text.value === 'none';
}

/** A scalar's text with its place; missing where it is a list or a map. */
export function located(node: YamlNode | undefined): Located<string> | undefined {
  if (node?.kind !== 'scalar' || isBlank(node) || node.text.value === '') return undefined;
  return { value: node.text.value, at: node.at };
}

/** The id behind a key. */
export function idBehind(reading: Reading, part: Part | undefined, key: string): Located<string> | undefined {
  return located(childOf(reading, part, key)?.node);
}

/** One id or a list of them; `none` is no id. */
export function idsBehind(reading: Reading, part: Part | undefined, key: string): readonly Located<string>[] {
  const child = childOf(reading, part, key);
  if (isNone(child)) return [];
  return idsOf(itemsOf(child));
}

/** The ids of a list. */
export function idsOf(nodes: readonly YamlNode[]): readonly Located<string>[] {
  return nodes.flatMap((node) => located(node) ?? []);
}

/** One of some words behind a key; another word was reported by the schema. */
export function wordBehind<W extends string>(
  reading: Reading,
  place: { readonly part: Part | undefined; readonly key: string },
  words: readonly W[],
): Located<W> | undefined {
  const found = idBehind(reading, place.part, place.key);
  const value = words.find((word) => word === found?.value);
  return found && value !== undefined ? { value, at: found.at } : undefined;
}

/** The whole number behind a key. */
export function countBehind(reading: Reading, part: Part | undefined, key: string): Located<number> | undefined {
  const node = childOf(reading, part, key)?.node;
  if (node?.kind !== 'scalar' || typeof node.core !== 'number' || !Number.isInteger(node.core)) return undefined;
  return { value: node.core, at: node.at };
}

/** The flag behind a key; `false` where it is missing. */
export function isSetBehind(reading: Reading, part: Part | undefined, key: string): boolean {
  const node = childOf(reading, part, key)?.node;
  return node?.kind === 'scalar' && node.core === true;
}
