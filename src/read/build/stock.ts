// instruments.yaml, tools.yaml and crops.yaml into the model.

import type { Crop, Instrument, Tool } from '../../model/book.js';
import { entryWith } from '../schema-places.js';
import { choiceOf } from './choice.js';
import { conditionsBehind } from './conditions.js';
import { expressionBehind, numbersBehind } from './numbers.js';
import { childOf, countBehind, entriesOf, idBehind, isSetBehind, type Part } from './part.js';
import { filled, type Reading } from './reading.js';
import { labelFrom, labelOf, textBehind, textOf } from './texts.js';
import type { Entry } from './values.js';

/** Instruments by id. */
export function instrumentsOf(reading: Reading, part: Part): ReadonlyMap<string, Instrument> {
  return byId(reading, part, instrumentOf);
}

/** Tools by id. */
export function toolsOf(reading: Reading, part: Part): ReadonlyMap<string, Tool> {
  return byId(reading, part, (_, entry) => {
    const { node, key } = entry;
    const isMap = node.kind === 'map' && entryWith(node, 'label') !== undefined;
    const label = isMap ? textBehind(reading, entry, 'label') : textOf(reading, entry);
    return { id: key.text.value, label: label ?? labelFrom(reading, key), at: node.at };
  });
}

/** Crops by id. */
export function cropsOf(reading: Reading, part: Part): ReadonlyMap<string, Crop> {
  return byId(reading, part, (_, entry) =>
    filled({
      id: entry.key.text.value,
      label: labelOf(reading, entry),
      mass: expressionBehind(reading, entry, 'mass'),
      baseMoisture: expressionBehind(reading, entry, 'base-moisture'),
      origin: textBehind(reading, entry, 'source', 'may-stay'),
      at: entry.node.at,
    }),
  );
}

function byId<T>(
  reading: Reading,
  part: Part,
  make: (reading: Reading, entry: Entry) => T | undefined,
): ReadonlyMap<string, T> {
  const made = new Map<string, T>();
  for (const entry of entriesOf(reading, part)) {
    const thing = make(reading, entry);
    if (thing) made.set(entry.key.text.value, thing);
  }
  return made;
}

function instrumentOf(reading: Reading, entry: Entry): Instrument | undefined {
  const quantity = idBehind(reading, entry, 'quantity');
  const rest = {
    id: entry.key.text.value,
    label: labelOf(reading, entry),
    range: numbersBehind(reading, entry, 'range'),
    resolution: numbersBehind(reading, entry, 'resolution'),
    counts: countBehind(reading, entry, 'counts'),
    accuracy: choiceOf(childOf(reading, entry, 'accuracy')?.node, (text) => text),
    builtIn: isSetBehind(reading, entry, 'built-in'),
    readAt: idBehind(reading, entry, 'read-at'),
    needs: conditionsBehind(reading, entry, 'needs'),
    at: entry.node.at,
  };
  return quantity && filled({ quantity, ...rest });
}
