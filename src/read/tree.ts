// YAML as a plain tree with places: what the model is built from. Holds no meaning of its own.

import type { SourceText, Span } from '../text/source.js';

/** A scalar. `text.value` is always text as written (`3.60` stays `3.60`), whatever YAML would make of it. */
export interface YamlScalar {
  readonly kind: 'scalar';
  readonly text: SourceText;
  /** How it was written: a quoted `"12"` is text, a plain `12` a number. */
  readonly style: 'plain' | 'quoted' | 'block';
  /** The value under YAML 1.2's core schema. */
  readonly core: string | number | boolean | null;
  readonly at: Span;
}

export interface YamlEntry {
  readonly key: YamlScalar;
  readonly value: YamlNode;
}

export interface YamlMap {
  readonly kind: 'map';
  readonly entries: readonly YamlEntry[];
  readonly at: Span;
}

export interface YamlList {
  readonly kind: 'list';
  readonly items: readonly YamlNode[];
  readonly at: Span;
}

export type YamlNode = YamlScalar | YamlMap | YamlList;

/** The value behind a key of a map; missing where the node is no map or lacks the key. */
export function entryOf(node: YamlNode | undefined, key: string): YamlEntry | undefined {
  return node?.kind === 'map' ? node.entries.find((entry) => entry.key.text.value === key) : undefined;
}
