// `for-each: { side: [left, right] }`: parts with `{side}` are repeated before they are read, each copy with its own words
// and every place still where it was written. Knows no meaning beyond which keys hold ids.

import type { Procedure } from '../../model/procedure.js';
import type { SourceText } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import type { YamlNode, YamlScalar } from '../tree.js';
import { childOf, idsOf, located, type Part, wordsBehind } from './part.js';
import type { Reading } from './reading.js';

/** What `for-each` goes through. */
export type ForEach = NonNullable<Procedure['forEach']>;

/** One copy of a repeated part. */
export interface Repeated {
  readonly variable: string;
  readonly value: string;
  readonly words: ForEach['words'];
  /** Ids without `{side}` that are repeated, and what they are called in this copy: `turn` is `turn-left`. */
  readonly renamed: ReadonlyMap<string, string>;
}

/** What stands behind `for-each`. */
export function forEachOf(reading: Reading, part: Part): ForEach | undefined {
  const outer = childOf(reading, part, 'for-each');
  const entry = outer?.node.kind === 'map' ? outer.node.entries[0] : undefined;
  const variable = entry?.key.text.value;
  const list = variable === undefined ? undefined : childOf(reading, outer, variable);
  if (!outer || variable === undefined || !list) return undefined;
  const ids = list.node.kind === 'map' ? list.node.entries.map(({ key }) => key) : itemsIn(list.node);
  const words = new Map<string, ReadonlyMap<string, string>>();
  for (const language of reading.languages) {
    const isMain = language === reading.languages[0];
    words.set(language, sideWords(isMain ? list.node : list.words.get(language), language, list.node));
  }
  for (const { value } of idsOf(ids)) wordsBehind(reading, list.words, value);
  return { variable, values: idsOf(ids), words, at: outer.node.at };
}

function itemsIn(node: YamlNode): readonly YamlNode[] {
  return node.kind === 'list' ? node.items : [];
}

/** `own` is what the language's own file says; the original may give every language. */
function sideWords(own: YamlNode | undefined, language: string, original: YamlNode): ReadonlyMap<string, string> {
  const words = new Map<string, string>();
  for (const map of new Set([original, own])) {
    for (const { key, value } of map?.kind === 'map' ? map.entries : []) {
      const inner = value.kind === 'map' ? entryWith(value, language)?.value : map === own ? value : undefined;
      const text = inner && located(inner);
      if (text) words.set(key.text.value, text.value);
    }
  }
  return words;
}

/** Whether `{side}` stands anywhere in a part, keys included. */
export function mentions(node: YamlNode, variable: string): boolean {
  if (node.kind === 'scalar') return placeholderOf(variable).test(node.text.value);
  if (node.kind === 'list') return node.items.some((item) => mentions(item, variable));
  return node.entries.some(({ key, value }) => mentions(key, variable) || mentions(value, variable));
}

/** Whether any of these ids stands behind one of these keys of a map. */
export function refersTo(node: YamlNode, keys: readonly string[], ids: ReadonlySet<string>): boolean {
  return keys.some((key) => {
    const value = node.kind === 'map' ? entryWith(node, key)?.value : undefined;
    const items = value?.kind === 'list' ? value.items : value ? [value] : [];
    return idsOf(items).some((id) => ids.has(id.value));
  });
}

// `{{side}}` is a brace in the text, not a placeholder
function placeholderOf(variable: string): RegExp {
  return new RegExp(`(?<!\\{)\\{ *${variable} *\\}(?!\\})|(?<=[\\w.-])\\{ *${variable} *\\}`);
}

/** A part with `{side}` put in and the repeated ids renamed, in one language. */
export function fillPart(node: YamlNode, repeated: Repeated, language: string): YamlNode {
  return fillNode(node, { repeated, language, key: '' });
}

interface Filling {
  readonly repeated: Repeated;
  readonly language: string;
  /** The key that the part stands behind: says whether it is an id or words. */
  readonly key: string;
}

function fillNode(node: YamlNode, filling: Filling): YamlNode {
  if (node.kind === 'scalar') return fillScalar(node, filling);
  if (node.kind === 'list') return { ...node, items: node.items.map((item) => fillNode(item, filling)) };
  return {
    ...node,
    entries: node.entries.map(({ key, value }) => ({
      key: fillKey(key, filling),
      value: fillNode(value, { ...filling, key: isBranch(filling.key, key) ? 'go' : key.text.value }),
    })),
  };
}

// behind these keys, and behind an answer, a branch may stand as a single id
function isBranch(outer: string, key: YamlScalar): boolean {
  return outer === 'answers' || branchKeys.has(key.text.value);
}
const branchKeys = new Set(['outside', 'low', 'high', 'unsure', 'fault', 'then', 'otherwise', 'else']);

/** A key with `{side}` put in; an id that is repeated takes its name in this copy where `moves` names it. */
export function fillKey(key: YamlScalar, filling: Pick<Filling, 'repeated'> & { readonly key?: string }): YamlScalar {
  const { repeated } = filling;
  const renamed = filling.key === 'moves' ? repeated.renamed.get(key.text.value) : undefined;
  const text =
    renamed === undefined ? putIn(key.text, repeated.variable, () => repeated.value) : rename(key.text, renamed);
  return { ...key, text, core: text.value };
}

const idKeys = new Set(['id', 'go', 'measure', 'write', 'adjust', 'stale', 'watch']);
const expressionKeys = new Set(['from', 'limits', 'inside', 'nominal']);

function fillScalar(node: YamlScalar, { repeated, language, key }: Filling): YamlScalar {
  const renamed = idKeys.has(key) ? repeated.renamed.get(node.text.value) : undefined;
  if (renamed !== undefined) return withText(node, rename(node.text, renamed));
  const isId = idKeys.has(key) || !/\s/.test(node.text.value.trim());
  const word = repeated.words.get(language)?.get(repeated.value) ?? repeated.value;
  const text = putIn(node.text, repeated.variable, (before) =>
    isId || /[\w.{]$/.test(before) ? repeated.value : word,
  );
  return withText(node, renameNames(text, repeated, expressionKeys.has(key)));
}

function withText(node: YamlScalar, text: SourceText): YamlScalar {
  return text === node.text ? node : { ...node, text, core: typeof node.core === 'string' ? text.value : node.core };
}

function rename(text: SourceText, name: string): SourceText {
  return replaceParts(text, [{ start: 0, end: text.value.length, by: name }]);
}

function putIn(text: SourceText, variable: string, word: (before: string) => string): SourceText {
  const pattern = new RegExp(placeholderOf(variable).source, 'g');
  const parts = [...text.value.matchAll(pattern)].map((found) => ({
    start: found.index,
    end: found.index + found[0].length,
    by: word(text.value.slice(0, found.index)),
  }));
  return replaceParts(text, parts);
}

/** `{on_ground}` in words, and `on_ground` in an expression, where that value is repeated without `{side}` in its id. */
function renameNames(text: SourceText, repeated: Repeated, isExpression: boolean): SourceText {
  if (repeated.renamed.size === 0) return text;
  const pattern = isExpression ? /(?<![\w.])[a-z]\w*(?![\w.(])/g : /(?<=\{ *)[a-z]\w*(?= *[.}])/g;
  const parts = [...text.value.matchAll(pattern)].flatMap((found) => {
    const by = repeated.renamed.get(found[0]);
    return by === undefined ? [] : [{ start: found.index, end: found.index + found[0].length, by }];
  });
  return replaceParts(text, parts);
}

interface Replacement {
  readonly start: number;
  readonly end: number;
  readonly by: string;
}

/** A text with parts replaced; each new letter leads back to the place of the part that it stands for. */
export function replaceParts(text: SourceText, parts: readonly Replacement[]): SourceText {
  if (parts.length === 0) return text;
  const placeOf = (i: number): number => text.offsets?.[i] ?? text.at.start + i;
  const offsets: number[] = [];
  let value = '';
  let done = 0;
  const keep = (end: number): void => {
    for (let i = done; i < end; i += 1) offsets.push(placeOf(i));
    value += text.value.slice(done, end);
  };
  for (const { start, end, by } of parts) {
    keep(start);
    for (let i = 0; i < by.length; i += 1) offsets.push(placeOf(Math.max(start, Math.min(start + i, end - 1))));
    value += by;
    done = end;
  }
  keep(text.value.length);
  offsets.push(placeOf(text.value.length));
  return { value, at: text.at, offsets };
}
