// states.yaml into the model: state variables, events, and what follows from what.

import type { Book } from '../../model/book.js';
import type { StateVariable } from '../../model/conditions.js';
import type { YamlNode, YamlScalar } from '../tree.js';
import { conditionsBehind, effectsBehind } from './conditions.js';
import { childOf, entriesOf, idBehind, isBlank, isSetBehind, itemsOf, located, type Part, partOf } from './part.js';
import { filled, type Reading } from './reading.js';
import { labelFrom, textBehind, textOf } from './texts.js';
import type { Entry } from './values.js';

/** Which states have words for values and which a quantity: known before anything that tests a state is read. */
export function stateKindsOf(reading: Reading, part: Part | undefined): Reading['stateKinds'] {
  return new Map(
    entriesOf(reading, childOf(reading, part, 'states')).map((entry) => {
      const isQuantity = childOf(reading, entry, 'quantity') !== undefined && !childOf(reading, entry, 'is');
      return [entry.key.text.value, isQuantity ? 'quantity' : 'words'] as const;
    }),
  );
}

/** The whole of states.yaml. */
export function statesOf(reading: Reading, part: Part): Pick<Book, 'states' | 'events' | 'physics'> {
  const states = new Map(
    entriesOf(reading, childOf(reading, part, 'states')).map((entry) => [
      entry.key.text.value,
      stateOf(reading, entry),
    ]),
  );
  const events = new Map(
    entriesOf(reading, childOf(reading, part, 'events')).map((entry) => {
      const label = textOf(reading, entry) ?? labelFrom(reading, entry.key);
      return [entry.key.text.value, { id: entry.key.text.value, label, at: entry.node.at }] as const;
    }),
  );
  const physics = itemsOf(childOf(reading, part, 'physics')).flatMap((node) => {
    const law = partOf(node);
    const when = conditionsBehind(reading, law, 'when');
    const then = effectsBehind(reading, law, 'then');
    return when && then ? [{ when, then, at: node.at }] : [];
  });
  return { states, events, physics };
}

function stateOf(reading: Reading, entry: Entry): StateVariable {
  const is = childOf(reading, entry, 'is');
  const values = valuesOf(reading, is);
  return filled({
    id: entry.key.text.value,
    label: textBehind(reading, entry, 'label'),
    values,
    quantity: idBehind(reading, entry, 'quantity'),
    start: idBehind(reading, entry, 'start'),
    restore: isSetBehind(reading, entry, 'restore'),
    safe: idBehind(reading, entry, 'safe'),
    movesWhen: conditionsBehind(reading, entry, 'moves-when'),
    at: entry.node.at,
  });
}

/** The values of a state: ids, each alone or with its own words, in a list or as the keys of a map. */
function valuesOf(reading: Reading, is: Part | undefined): StateVariable['values'] {
  const entries = itemsIn(is?.node);
  return entries.flatMap(({ key, value }) => {
    const id = located(key);
    if (!id) return [];
    return [filled({ id, label: value && !isBlank(value) ? textOf(reading, partOf(value, key)) : undefined })];
  });
}

function itemsIn(node: YamlNode | undefined): readonly { readonly key: YamlScalar; readonly value?: YamlNode }[] {
  if (node?.kind === 'map') return node.entries;
  if (node?.kind !== 'list') return [];
  return node.items.flatMap((item) => (item.kind === 'scalar' ? [{ key: item }] : itemsIn(item)));
}
