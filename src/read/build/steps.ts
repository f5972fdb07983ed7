// The steps of a procedure, one by one. Ids stay as written: whether they name anything is looked at later.

import type { Figure, Step } from '../../model/procedure.js';
import { appliesBehind } from './applies.js';
import { answersOf, branchBehind, branchesOfReading } from './branches.js';
import { conditionsBehind, effectsBehind } from './conditions.js';
import type { Repeated } from './for-each.js';
import { checkStepId } from './names.js';
import { numbersBehind } from './numbers.js';
import { childOf, countBehind, idBehind, idsBehind, type Part, wordBehind } from './part.js';
import { filled, type Reading } from './reading.js';
import { isTrue, secondPersonWords } from './second-person.js';
import { textBehind, textOf } from './texts.js';

/** One step; missing where it has no id, which the schema has reported. */
export function stepOf(reading: Reading, part: Part, repeated?: Repeated): Step | undefined {
  const id = idBehind(reading, part, 'id');
  if (!id) return undefined;
  checkStepId(reading, id);
  const text = (key: string) => textBehind(reading, part, key);
  const ids = (key: string) => idsBehind(reading, part, key);
  const marks = ids('mark');
  return filled({
    id,
    at: part.node.at,
    do: text('do'),
    card: text('card'),
    ask: text('ask'),
    note: text('note'),
    expect: text('expect'),
    figure: figureBehind(reading, part, 'figure'),
    hazards: ids('hazard'),
    skill: wordBehind(reading, { part, key: 'skill' }, ['operator', 'technician']),
    by: countBehind(reading, part, 'by'),
    place: idBehind(reading, part, 'at'),
    needs: conditionsBehind(reading, part, 'needs'),
    sets: effectsBehind(reading, part, 'sets'),
    measure: ids('measure'),
    write: ids('write'),
    adjust: ids('adjust'),
    stale: ids('stale'),
    mark: marks.length > 0 ? marks : undefined,
    photo: idBehind(reading, part, 'photo'),
    hold: numbersBehind(reading, part, 'hold'),
    wait: numbersBehind(reading, part, 'wait'),
    run: idBehind(reading, part, 'run'),
    only: appliesBehind(reading, part, 'only'),
    energized: energizedOf(reading, childOf(reading, part, 'energized')),
    otherwise: branchBehind(reading, part, 'otherwise'),
    when: branchesOfReading(reading, part),
    answers: answersOf(reading, part),
    then: branchBehind(reading, part, 'then'),
    repeated: repeated && { variable: repeated.variable, value: repeated.value },
  });
}

/** A picture with its words; missing where one of the two is. */
export function figureBehind(reading: Reading, part: Part | undefined, key: string): Figure | undefined {
  const child = childOf(reading, part, key);
  const file = idBehind(reading, child, 'file');
  const alt = textBehind(reading, child, 'alt');
  return child && file && alt ? { file, alt, at: child.node.at } : undefined;
}

function energizedOf(reading: Reading, part: Part | undefined): Step['energized'] {
  const why = textBehind(reading, part, 'why');
  if (!part || !why) return undefined;
  const second = childOf(reading, part, 'second-person');
  const secondPerson =
    second && (isTrue(second.node) ? secondPersonWords(reading, second.node) : textOf(reading, second));
  return filled({ why, keepAway: textBehind(reading, part, 'keep-away'), secondPerson, at: part.node.at });
}
