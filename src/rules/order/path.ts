// The path to a fault as places in order, each with what happens there.

import type { Related } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Taken, TraceEntry, Violation } from '../../order/result.js';
import { code, isSo, listed, stateWords, stepIdAt, stepName, valueWords } from './words.js';

type PathPlace = Related & { readonly onPath: true };

/** The path as related places, in its order. A last step of which there is nothing to say is left to the fault itself. */
export function pathOf({ trace, phase }: Violation, book: Book): readonly PathPlace[] {
  const stood = new Map<number, string>();
  const start = book.states.get('person')?.start?.value;
  const places = trace.flatMap((entry, i): readonly PathPlace[] => {
    const here = entry.stands.join(' ');
    const comes = entry.moved && here !== (stood.get(entry.by) ?? start);
    if (entry.stands.length > 0) stood.set(entry.by, here);
    const isLast = i === trace.length - 1;
    const fails = isLast && phase === 'failed';
    const parts = entryParts(entry, { comes: comes && !(isLast && phase === 'before'), fails });
    if (isLast && !fails && saysNothing(entry, { parts: parts.length, isOnly: i === 0 })) return [];
    const message = `${stepName(entry.place)}${parts.length > 0 ? `: ${parts.join('; ')}` : ''}`;
    return [{ message, at: stepIdAt(entry.place, book), onPath: true }];
  });
  // One step of which nothing is to be told is no path.
  return places.length === 1 && !places[0]?.message.includes(': ') ? [] : withoutRounds(places);
}

// Whether the frame of the fault, which points into this last step, says as much.
function saysNothing({ taken, physics }: TraceEntry, { parts, isOnly }: { parts: number; isOnly: boolean }): boolean {
  if (parts === 0 || (parts === 1 && taken?.branch === 'run')) return true;
  return isOnly && taken === undefined && physics.length === 0;
}

/** Rounds of more steps than this are not looked for. */
const longestRound = 40;

// A path may go round many times before a count is used up: the first round stands for those that are like it.
function withoutRounds(places: readonly PathPlace[]): readonly PathPlace[] {
  const told: PathPlace[] = [];
  for (let at = 0; at < places.length; ) {
    const { length, times } = roundAt(places, at);
    told.push(...places.slice(at, at + length));
    const first = places[at];
    if (first && times > 1)
      told.push({
        message: `the last ${length > 1 ? `${length} steps` : 'step'} ${times - 1} times more`,
        at: first.at,
        onPath: true,
      });
    at += length * times;
  }
  return told;
}

// The shortest round that is done three times or more from here on; a single place where there is none.
function roundAt(places: readonly PathPlace[], from: number): { length: number; times: number } {
  for (let length = 1; length <= longestRound; length += 1) {
    const isLike = (at: number): boolean =>
      places[at] !== undefined && places[at]?.message === places[at - length]?.message;
    let end = from + length;
    while (isLike(end)) end += 1;
    const times = Math.floor((end - from) / length);
    if (times >= 3) return { length, times };
  }
  return { length: 1, times: 1 };
}

function entryParts(entry: TraceEntry, { comes, fails }: { comes: boolean; fails: boolean }): readonly string[] {
  const { by, stands, sets, means, physics, measured, adjusted, taken } = entry;
  const failed = fails || taken?.branch === 'otherwise';
  return [
    comes ? `${by > 1 ? `person ${by}` : 'the person'} goes to ${valueWords(stands)}` : '',
    fails ? 'it fails' : '',
    sets.length > 0 && !failed ? `sets ${listed(sets.map(stateWords), 'and')}` : '',
    measured.length > 0 ? `reads ${listed(measured.map(code), 'and')}` : '',
    adjusted.length > 0 ? `turns ${listed(adjusted.map(code), 'and')}` : '',
    physics.length > 0 ? `by \`physics\` ${isSo(physics)}` : '',
    takenWords(taken),
    means.length > 0 ? `then ${isSo(means)}` : '',
  ].filter((part) => part !== '');
}

function takenWords(taken: Taken | undefined): string {
  if (!taken || taken.branch === 'next' || taken.branch === 'returned') return '';
  if (taken.branch === 'run') return `runs ${code(taken.go)}`;
  const why: Record<Exclude<Taken['branch'], 'next' | 'run' | 'returned'>, string> = {
    then: '',
    otherwise: 'it fails, ',
    outside: 'the reading is outside, ',
    low: 'the reading is too low, ',
    high: 'the reading is too high, ',
    unsure: 'the reading is too close to call, ',
    fault: 'the reading is outside what can be, ',
    answer: `the answer is ${code(taken.answer ?? '')}, `,
  };
  const used = taken.elses > 0 ? 'the count is used up, ' : '';
  return `${why[taken.branch]}${used}on to ${code(taken.go)}`;
}
