// How places, values and choices are put into words and fixes. Knows no fault in particular.

import type { Fix } from '../diagnostic/diagnostic.js';
import { nearestNames } from '../diagnostic/nearest.js';
import type { Span } from '../text/source.js';
import { quoteText } from './mended.js';
import type { FaultySchema } from './schema-fault.js';
import { entryWith, type Place } from './schema-places.js';
import type { YamlNode } from './tree.js';

/** `expected …`, as the schema words it. */
export function expectationOf(schema: FaultySchema): string {
  return schema.errorMessage ?? `expected ${[schema.type ?? 'another value'].flat().join(' or ')}`;
}

/** The example as it would stand in the file, behind its key. */
export function asWritten(place: Place, example: unknown): string {
  return place.key ? `${place.key.text.value}: ${writeFlow(example)}` : writeFlow(example);
}

/** A value as YAML on one line. */
export function writeFlow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(writeFlow).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    const parts = Object.entries(value).map(([key, part]) => `${quoteIfOddWord(key)}: ${writeFlow(part)}`);
    return `{ ${parts.join(', ')} }`;
  }
  return typeof value === 'string' ? quoteIfOdd(value) : String(value);
}

function quoteIfOdd(text: string): string {
  return /^[\p{L}\d±-](?:[^,:#[\]{}"]|:(?! ))*$/u.test(text) &&
    !/^(?:on|off|yes|no|true|false|null|[\d.]+)$/i.test(text)
    ? text
    : quoteText(text);
}

/** A word in quotes where YAML would not take it for one. */
export function quoteIfOddWord(word: string): string {
  return /^(?:on|off|yes|no)$/.test(word) ? `"${word}"` : word;
}

/** What stands there: `number \`12\``, `empty list`. */
export function describeNode(node: YamlNode): string {
  if (node.kind === 'list') return node.items.length === 0 ? 'empty list' : 'list';
  if (node.kind === 'map') return node.entries.length === 0 ? 'empty map' : 'map';
  const { value } = node.text;
  if (typeof node.core === 'number') return `number \`${value}\``;
  if (typeof node.core === 'string') return value === '' ? 'empty text' : `text \`${shorten(value)}\``;
  return `\`${shorten(value)}\``;
}

/** What stands there as text. */
export function textOf(node: YamlNode): string {
  return node.kind === 'scalar' ? node.text.value : describeNode(node);
}

/** A text on one line, cut where it is long. */
export function shorten(text: string): string {
  const flat = text.replace(/\s+/g, ' ');
  return flat.length > 60 ? `${flat.slice(0, 56)} …` : flat;
}

/** The place of a key of a map. */
export function keySpan(node: YamlNode, key: string): Span {
  const entry = node.kind === 'map' ? entryWith(node, key) : undefined;
  return entry?.key.at ?? node.at;
}

/** Names with those first that a wrong one may have been meant to be. */
export function sortedByNearness(word: string, names: readonly string[]): readonly string[] {
  const near = nearestNames(word, names);
  return [...near, ...names.filter((name) => !near.includes(name))];
}

/** `` `a`, `b` or `c` ``; of many only the first dozen. */
export function oneOf(names: readonly string[]): string {
  const quoted = names.map((name) => `\`${name}\``);
  if (quoted.length <= 1) return quoted[0] ?? 'no key';
  if (quoted.length > 12) return `one of ${quoted.slice(0, 12).join(', ')}, …`;
  return `${quoted.slice(0, -1).join(', ')} or ${quoted.at(-1)}`;
}

/** A fix that puts another text in a place. */
export function replaceBy(at: Span, text: string, title: string, safe = false): Fix {
  return { title, edits: [{ at, text }], safe };
}

/** Help where there is any. */
export function helpOf(help: string | undefined | false): { help?: string } {
  return help ? { help } : {};
}
