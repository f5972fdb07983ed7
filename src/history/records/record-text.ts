// What a file that came from a phone is, by its text alone. Whether a record has the shape of one is for the caller to check.

import { recordVersion } from '../../model/job-record.js';

/** What the text is: something to be held against its schema, or why it is nothing of the kind. */
export type FileText =
  | { readonly kind: 'record' | 'wrong-pages'; readonly data: unknown }
  | { readonly kind: 'later'; readonly version: string }
  | { readonly kind: 'empty' | 'cut-off' | 'table' | 'other' };

const kinds = { 'stepgauge-record': 'record', 'stepgauge-wrong-pages': 'wrong-pages' } as const;

/** Reads the text of a file; a byte-order mark and blanks around it do not count. */
export function readFileText(text: string): FileText {
  const bare = text.replace(/^\uFEFF/, '').trim();
  if (bare === '') return { kind: 'empty' };
  if (/^order,at,what,/.test(bare)) return { kind: 'table' };
  let data: unknown;
  try {
    data = JSON.parse(bare);
  } catch {
    return { kind: /^\{/.test(bare) ? 'cut-off' : 'other' };
  }
  if (typeof data !== 'object' || data === null) return { kind: 'other' };
  const { format, version } = data as { readonly format?: unknown; readonly version?: unknown };
  const kind = Object.entries(kinds).find(([name]) => name === format)?.[1];
  if (!kind) return { kind: 'other' };
  if (typeof version === 'number' && version > recordVersion) return { kind: 'later', version: String(version) };
  return { kind, data };
}
