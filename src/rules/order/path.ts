// The path to a fault as places in order, each with what happens there.

import type { Book } from '../../model/book.js';
import type { Taken, TraceEntry, Violation } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import { code, isSo, listed, stateWords, stepIdAt, stepName, valueWords } from './words.js';

/** The path as related places, in its order. A last step of which nothing is to be said is left to the fault itself. */
export function pathOf({ trace, phase }: Violation, book: Book): { message: string; at: Span }[] {
  const stood = new Map<number, string>();
  const start = book.states.get('person')?.start?.value;
  return trace.flatMap((entry, i) => {
    const here = entry.stands.join(' ');
    const comes = entry.moved && here !== (stood.get(entry.by) ?? start);
    if (entry.stands.length > 0) stood.set(entry.by, here);
    const isLast = i === trace.length - 1;
    const parts = entryParts(entry, { comes, fails: isLast && phase === 'failed' });
    if (isLast && parts.length === 0) return [];
    const message = `${stepName(entry.place)}${parts.length > 0 ? `: ${parts.join('; ')}` : ''}`;
    return [{ message, at: stepIdAt(entry.place, book) }];
  });
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
