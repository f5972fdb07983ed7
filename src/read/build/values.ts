// Check values, adjusters and worksheets of a procedure.

import type { Adjuster, CheckValue, Worksheet, WorksheetColumn, WorksheetResult } from '../../model/procedure.js';
import type { YamlScalar } from '../tree.js';
import { appliesBehind } from './applies.js';
import { choiceOf } from './choice.js';
import { checkName } from './names.js';
import { effectChoice, expressionBehind, limitsBehind, numbersBehind } from './numbers.js';
import { childOf, entriesOf, idBehind, itemsOf, located, type Part, wordBehind, wordsBehind } from './part.js';
import { filled, type Reading } from './reading.js';
import { choiceText, labelOf, textBehind } from './texts.js';

/** A part of a map of ids. */
export type Entry = Part & { readonly key: YamlScalar };

/** A check value. */
export function checkValueOf(reading: Reading, entry: Entry): CheckValue {
  checkName(reading, entry.key);
  return filled({
    id: entry.key.text.value,
    idAt: entry.key.at,
    label: labelOf(reading, entry),
    quantity: idBehind(reading, entry, 'quantity'),
    unit: idBehind(reading, entry, 'unit'),
    limits: numbersBehind(reading, entry, 'limits'),
    nominal: numbersBehind(reading, entry, 'nominal'),
    inside: numbersBehind(reading, entry, 'inside'),
    readWith: choiceOf(childOf(reading, entry, 'read-with')?.node, ({ value, at }) => ({ value, at })),
    readAt: idBehind(reading, entry, 'read-at'),
    from: expressionBehind(reading, entry, 'from'),
    decision: wordBehind(reading, { part: entry, key: 'decision' }, ['simple', 'guarded', 'three-zone']),
    origin: textBehind(reading, entry, 'source', 'may-stay'),
    only: appliesBehind(reading, entry, 'only'),
    at: entry.node.at,
  });
}

/** An adjuster; missing without `range`, which the schema has reported. */
export function adjusterOf(reading: Reading, entry: Entry): Adjuster | undefined {
  checkName(reading, entry.key);
  const range = numbersBehind(reading, entry, 'range');
  const moves = entriesOf(reading, childOf(reading, entry, 'moves')).flatMap((move) => {
    const value = located(move.key);
    const effect = effectChoice(reading, move.node);
    return value && effect ? [{ value, effect, at: move.node.at }] : [];
  });
  const adjuster = {
    id: entry.key.text.value,
    idAt: entry.key.at,
    label: labelOf(reading, entry),
    smallest: numbersBehind(reading, entry, 'smallest'),
    positive: textBehind(reading, entry, 'positive'),
    moves,
    watch: idBehind(reading, entry, 'watch'),
    only: appliesBehind(reading, entry, 'only'),
    at: entry.node.at,
  };
  return range && filled({ ...adjuster, range });
}

/** A worksheet; missing without `rows`, which the schema has reported. */
export function worksheetOf(reading: Reading, entry: Entry): Worksheet | undefined {
  checkName(reading, entry.key);
  const rows = limitsBehind(reading, entry, 'rows');
  const columns = entriesOf(reading, childOf(reading, entry, 'columns')).map((column) => columnOf(reading, column));
  const results = entriesOf(reading, childOf(reading, entry, 'results')).flatMap(
    (result) => resultOf(reading, result) ?? [],
  );
  const label = textBehind(reading, entry, 'label');
  const { text, at: idAt } = entry.key;
  return rows && filled({ id: text.value, idAt, label, rows, columns, results, at: entry.node.at });
}

function columnOf(reading: Reading, entry: Entry): WorksheetColumn {
  checkName(reading, entry.key);
  const choices = choicesOf(reading, childOf(reading, entry, 'choices'));
  return filled({
    id: entry.key.text.value,
    label: labelOf(reading, entry),
    unit: idBehind(reading, entry, 'unit'),
    choices: choices.length > 0 ? choices : undefined,
    readWith: idBehind(reading, entry, 'read-with'),
    from: expressionBehind(reading, entry, 'from'),
    limits: numbersBehind(reading, entry, 'limits'),
    at: entry.node.at,
  });
}

/** The words to choose from: a list of them, or a map from each to what pages call it. */
function choicesOf(reading: Reading, part: Part | undefined): NonNullable<WorksheetColumn['choices']> {
  const keyed =
    part?.node.kind === 'map'
      ? part.node.entries.map(({ key, value }) => ({ key, own: value }))
      : itemsOf(part).flatMap((key) => (key.kind === 'scalar' ? [{ key, own: undefined }] : []));
  return keyed.flatMap(({ key, own }) => {
    const id = located(key);
    if (!id || !part) return [];
    const words = wordsBehind(reading, part.words, id.value);
    return [{ id, label: choiceText(reading, key, { own, words }) }];
  });
}

function resultOf(reading: Reading, entry: Entry): WorksheetResult | undefined {
  checkName(reading, entry.key);
  const from = expressionBehind(reading, entry, 'from');
  const parts = {
    id: entry.key.text.value,
    label: labelOf(reading, entry),
    unit: idBehind(reading, entry, 'unit'),
    limits: numbersBehind(reading, entry, 'limits'),
    at: entry.node.at,
  };
  return from && filled({ ...parts, from });
}
