// The waivers of a file, wherever they stand: each holds for the map that it stands in.

import type { Waiver } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import type { YamlNode } from '../tree.js';
import { located } from './part.js';

/** Every waiver of a tree. One at the top holds for `whole`, the prose of a procedure included. */
export function waiversOf(top: YamlNode, whole: Span): readonly Waiver[] {
  return gather(top, whole);
}

function gather(node: YamlNode, within: Span): readonly Waiver[] {
  if (node.kind === 'scalar') return [];
  if (node.kind === 'list') return node.items.flatMap((item) => gather(item, item.at));
  const list = entryWith(node, 'waive')?.value;
  const own = list?.kind === 'list' ? list.items.flatMap((item) => waiverOf(item, within)) : [];
  // the key belongs to the map behind it: a fault of the whole map is shown there
  const inner = node.entries
    .filter(({ key }) => key.text.value !== 'waive')
    .flatMap(({ key, value }) => gather(value, { ...value.at, start: key.at.start }));
  return [...own, ...inner];
}

function waiverOf(node: YamlNode, within: Span): readonly Waiver[] {
  if (node.kind !== 'map') return [];
  const code = located(entryWith(node, 'code')?.value);
  const because = entryWith(node, 'because')?.value;
  if (!code || because?.kind !== 'scalar') return [];
  return [{ code, because: because.text, within, at: node.at }];
}
