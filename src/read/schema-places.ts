// A YAML tree as the plain value that a schema is held against, and the way back from a place in that value to the tree.

import type { YamlEntry, YamlMap, YamlNode, YamlScalar } from './tree.js';

/** The value under YAML 1.2: what any editor with the same schema sees. Of keys that stand twice the first counts. */
export function plainValue(node: YamlNode): unknown {
  if (node.kind === 'scalar') return node.core;
  if (node.kind === 'list') return node.items.map(plainValue);
  // a map without prototype: `__proto__` and `constructor` are keys like any other
  const value: Record<string, unknown> = Object.create(null);
  for (const { key, value: child } of node.entries) {
    if (!(key.text.value in value)) value[key.text.value] = plainValue(child);
  }
  return value;
}

/** A node, and how it is reached from the top: keys and indices, and the key right before it. */
export interface Place {
  readonly node: YamlNode;
  readonly path: readonly string[];
  /** The key that it stands behind; missing at the top and in a list. */
  readonly key?: YamlScalar;
  /** The map or list that it stands in. */
  readonly parent?: Place;
}

/** The place that a JSON pointer leads to. Throws where there is none: the pointer came from this very tree. */
export function placeAt(top: YamlNode, pointer: string): Place {
  let place: Place = { node: top, path: [] };
  for (const step of pointer.split('/').slice(1)) {
    place = stepInto(place, step.replaceAll('~1', '/').replaceAll('~0', '~'));
  }
  return place;
}

function stepInto(parent: Place, step: string): Place {
  const { node } = parent;
  const path = [...parent.path, step];
  if (node.kind === 'list') {
    const item = node.items[Number(step)];
    if (item) return { node: item, path, parent };
  }
  const entry = node.kind === 'map' ? entryWith(node, step) : undefined;
  if (!entry) throw new Error(`No place ${path.join('/')} in the tree that was checked`);
  return { node: entry.value, path, key: entry.key, parent };
}

/** The first entry of a map with this key. */
export function entryWith(map: YamlMap, key: string): YamlEntry | undefined {
  return map.entries.find((entry) => entry.key.text.value === key);
}

/** What a place is called in a message: `` `title` ``, `` an entry of `headers` ``, `the file`. */
export function nameOf(place: Place): string {
  if (place.key) return `\`${place.key.text.value}\``;
  if (!place.parent) return 'the whole';
  return place.parent.key ? `an entry of \`${place.parent.key.text.value}\`` : 'an entry of the list';
}
