// What a worked-out procedure says, as one text without places: equal texts are equal pages.

import type { Variant } from '../model/resolved.js';
import { sha256 } from '../text/sha256.js';

/** Keys that hold places, or what the author wrote, whose meaning stands in the other keys. */
const places: ReadonlySet<string> = new Set(['source', 'at', 'limitsAt', 'start', 'end', 'tight']);

/** Digests of parts that several procedures or rigs share, so that each is written out once. */
export type Digests = WeakMap<object, string>;

/** Everything that a variant says: its procedure, those that it runs, and those that its ends run. */
export function contentOf(variant: Pick<Variant, 'procedure' | 'ends'>, digests: Digests): string {
  const ends = [...variant.ends].map(([end, procedure]) => `${end} ${digestOf(procedure, digests)}`).sort();
  return `${digestOf(variant.procedure, digests)} ${ends.join(' ')}`;
}

function digestOf(part: object, digests: Digests): string {
  const known = digests.get(part);
  if (known !== undefined) return known;
  const digest = sha256(writeObject(part, digests));
  digests.set(part, digest);
  return digest;
}

// what is worked out once for several rigs is one object for all of them: steps, values, conditions
const shared: ReadonlySet<string> = new Set(['adjusters', 'prose', 'requires', 'run', 'steps', 'values', 'worksheets']);

function write(value: unknown, digests: Digests): string {
  switch (typeof value) {
    case 'string':
      return JSON.stringify(value);
    case 'number':
    case 'boolean':
      return String(value);
    case 'bigint':
      return `${value}n`;
    case 'object':
      return value === null ? 'null' : writeObject(value, digests);
    default:
      return '';
  }
}

function writeObject(value: object, digests: Digests): string {
  if (Array.isArray(value)) return `[${value.map((part) => write(part, digests)).join()}]`;
  if (value instanceof Map) {
    const entries = [...value].map(([key, part]) => `${write(key, digests)}:${write(part, digests)}`);
    return `<${entries.sort().join()}>`;
  }
  if ('symbol' in value && 'factor' in value) {
    return `unit ${JSON.stringify(value.symbol)}${'offset' in value ? ' point' : ''}`;
  }
  let text = '{';
  for (const [key, part] of Object.entries(value)) {
    if (places.has(key) || part === undefined) continue;
    text += `${key}:${shared.has(key) ? writeShared(part, digests) : write(part, digests)},`;
  }
  return `${text}}`;
}

function writeShared(value: unknown, digests: Digests): string {
  if (typeof value !== 'object' || value === null || value instanceof Map) return write(value, digests);
  if (Array.isArray(value)) return value.map((part) => writeShared(part, digests)).join();
  return digestOf(value, digests);
}
