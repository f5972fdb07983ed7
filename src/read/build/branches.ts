// Where a step may lead: `then`, `otherwise`, the readings of `when`, the answers to a question.

import type { Branch, ReadingOutcome, Step } from '../../model/procedure.js';
import { meaningBehind } from './conditions.js';
import { childOf, countBehind, entriesOf, idBehind, located, type Part, wordsBehind } from './part.js';
import { filled, type Reading } from './reading.js';
import { textBehind, textOf } from './texts.js';

/** The branch behind a key. */
export function branchBehind(reading: Reading, part: Part | undefined, key: string): Branch | undefined {
  const child = childOf(reading, part, key);
  return child && branchOf(reading, child);
}

function branchOf(reading: Reading, part: Part): Branch | undefined {
  const target = located(part.node);
  if (target) return { go: target, at: part.node.at };
  const go = idBehind(reading, part, 'go');
  if (!go) return undefined;
  return filled({
    go,
    because: textBehind(reading, part, 'because'),
    means: meaningBehind(reading, part, 'means'),
    atMost: countBehind(reading, part, 'at-most'),
    otherwise: branchBehind(reading, part, 'else'),
    at: part.node.at,
  });
}

const outcomes: readonly ReadingOutcome[] = ['outside', 'low', 'high', 'unsure', 'fault'];

/** The branches of a reading that does not pass. */
export function branchesOfReading(reading: Reading, step: Part): Step['when'] {
  const when = childOf(reading, step, 'when');
  return new Map(
    outcomes.flatMap((outcome) => {
      const branch = branchBehind(reading, when, outcome);
      return branch ? [[outcome, branch] as const] : [];
    }),
  );
}

/** The answers to the question of a step, in the order written. */
export function answersOf(reading: Reading, step: Part): Step['answers'] {
  return entriesOf(reading, childOf(reading, step, 'answers')).flatMap((entry) => {
    const key = located(entry.key);
    const branch = branchOf(reading, entry);
    if (!key || !branch) return [];
    return [filled({ key, label: answerLabel(reading, entry), branch })];
  });
}

/** An answer in words: its `label`, or what translations say where the original leaves it at the key. */
function answerLabel(reading: Reading, entry: Part): Step['answers'][number]['label'] {
  const label = textBehind(reading, entry, 'label');
  if (label || !entry.key) return label;
  const inMaps = wordsBehind(reading, entry.words, 'label');
  const words = new Map([...entry.words].filter(([language, node]) => inMaps.has(language) || node.kind === 'scalar'));
  for (const [language, node] of inMaps) words.set(language, node);
  return words.size === 0 ? undefined : textOf(reading, { node: entry.key, words }, 'may-stay');
}
