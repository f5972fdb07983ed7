// What a worked-out procedure says, as one text without places: equal texts are equal pages.

import type { ResolvedProcedure, Variant } from '../model/resolved.js';
import { sha256 } from './sha256.js';

/** Keys that hold places, or what the author wrote, whose meaning stands in the other keys. */
const places: ReadonlySet<string> = new Set(['source', 'at', 'limitsAt', 'start', 'end', 'tight']);

/** Digests of procedures that others run, so that each is written out once. */
export type Digests = WeakMap<ResolvedProcedure, string>;

/** Everything that a variant says: its procedure, those that it runs, and those that its ends run. */
export function contentOf(variant: Pick<Variant, 'procedure' | 'ends'>, digests: Digests): string {
  const ends = [...variant.ends].map(([end, procedure]) => `${end} ${digestOf(procedure, digests)}`).sort();
  return `${write(variant.procedure, digests)}${ends.join('')}`;
}

function digestOf(procedure: ResolvedProcedure, digests: Digests): string {
  const known = digests.get(procedure);
  if (known !== undefined) return known;
  const digest = sha256(write(procedure, digests));
  digests.set(procedure, digest);
  return digest;
}

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
  if ('symbol' in value && 'factor' in value)
    return `unit ${JSON.stringify(value.symbol)}${'offset' in value ? ' point' : ''}`;
  const entries = Object.entries(value).filter(([key, part]) => !places.has(key) && part !== undefined);
  const parts = entries.map(([key, part]) =>
    key === 'run' ? `run:${digestOf(part as ResolvedProcedure, digests)}` : `${key}:${write(part, digests)}`,
  );
  return `{${parts.sort().join()}}`;
}
