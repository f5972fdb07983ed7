// What the tests of reading share: a tree as plain values, the text under a diagnostic, and fixes put to work.

import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import type { YamlNode } from '../../src/read/tree.js';
import { readYaml } from '../../src/read/yaml.js';

/** Maps as objects, scalars by the core schema where they are plain. */
export function plain(node: YamlNode | undefined): unknown {
  if (node === undefined) return undefined;
  if (node.kind === 'map')
    return Object.fromEntries(node.entries.map(({ key, value }) => [key.text.value, plain(value)]));
  if (node.kind === 'list') return node.items.map(plain);
  return node.style === 'plain' && typeof node.core !== 'string' ? node.core : node.text.value;
}

export interface Read {
  readonly value: unknown;
  readonly diagnostics: readonly Diagnostic[];
  /** `code "underlined text"` of each. */
  readonly faults: readonly string[];
}

export function read(text: string): Read {
  const { value, diagnostics } = readYaml({ path: 'a.yaml', text });
  const faults = diagnostics.map(({ code, at }) => `${code} ${JSON.stringify(text.slice(at.start, at.end))}`);
  return { value: plain(value), diagnostics, faults };
}

/** The text after the first fix of each diagnostic. */
export function mend(text: string, diagnostics: readonly Diagnostic[]): string {
  const edits = diagnostics.flatMap(({ fixes }) => fixes?.[0]?.edits ?? []).sort((a, b) => b.at.start - a.at.start);
  return edits.reduce((mended, { at, text: put }) => mended.slice(0, at.start) + put + mended.slice(at.end), text);
}
