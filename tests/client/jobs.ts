// Pages and acts for tests of jobs, and a phone whose storage is new.

import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import fc from 'fast-check';
import type { Act, Entry, Job, JobPage, ReadingAct } from '../../site/client/job/journal.js';

/** A page of the demo book. */
export const learnPage: JobPage = {
  code: 'QF72KD',
  procedure: 'learn-height-range',
  title: 'Learn the header height range',
  revision: 3,
  content: 'aaaa',
  path: 'tarn-40/row-12x20/learn-height-range/',
  rig: 'Tarn 40 · 12-row header, 20 in rows',
  language: 'en',
  serials: { stretches: [{ from: { serial: '70-00100', included: true } }], words: 'serial numbers from 70-00100' },
};

/** A reading that passes, unless said otherwise. */
export function reading(value: string, text: string, changes: Partial<ReadingAct> = {}): ReadingAct {
  return {
    kind: 'read',
    step: '2',
    value,
    label: `Reading ${value}`,
    text,
    unit: 'V',
    verdict: 'pass',
    limits: '3.63 to 4.17 V',
    instrument: 'Display reading',
    ...changes,
  };
}

/** Storage that nothing was kept in yet. */
export function newPhone(): void {
  globalThis.indexedDB = new IDBFactory();
  const notes = new Map<string, string>();
  Object.defineProperty(globalThis, 'localStorage', {
    configurable: true,
    value: {
      getItem: (key: string) => notes.get(key) ?? null,
      setItem: (key: string, text: string) => void notes.set(key, text),
      removeItem: (key: string) => void notes.delete(key),
    },
  });
}

/** A step that is left for another, or for an end. */
export function leave(step: string, to: string): Act {
  return { kind: 'leave', step, words: `Step ${step}`, by: 'next', to };
}

/** An adjuster that was turned once. */
export function turn(moves: readonly string[]): Act {
  return {
    kind: 'turn',
    step: '3',
    adjuster: 'sensor_turn',
    label: 'Turn the sensor body',
    text: '2',
    total: '2',
    unit: 'deg',
    moves,
  };
}

/** A job in which these acts were done, a minute apart; closed if one of them closes it. */
export function jobOf(acts: readonly Act[]): Job {
  const at = (index: number): string => new Date(Date.UTC(2026, 10, 25, 8, index)).toISOString();
  return {
    id: '0123456789abcdef0123456789abcdef',
    page: learnPage,
    begun: at(0),
    state: acts.some(({ kind }) => kind === 'close') ? 'closed' : 'open',
    entries: acts.map((act, index) => ({ ...act, at: at(index + 1) })),
  };
}

const step = fc.constantFrom('1', '2', '3', '4.2', 'E1');
const word = fc.string({ unit: 'grapheme', maxLength: 12 });
const value = fc.constantFrom('on_ground', 'raised', 'travel');
const factName = fc.constantFrom('who', 'engine-hours', 'signature');
const act = (kind: Act['kind'], parts: Readonly<Record<string, fc.Arbitrary<unknown>>>): fc.Arbitrary<Act> =>
  fc.record({ kind: fc.constant(kind), ...parts }) as fc.Arbitrary<Act>;

/** Anything that can be done. */
const anyAct: fc.Arbitrary<Act> = fc.oneof(
  act('tick', { condition: fc.nat(3), words: word, met: fc.boolean() }),
  fc
    .record({ kind: fc.constant('read' as const), step, value, text: word })
    .map((one) => reading(one.value, one.text, one)),
  act('cell', { step, worksheet: fc.constant('loads'), row: fc.integer({ min: 1, max: 3 }), column: word, text: word }),
  act('cell', { step, worksheet: fc.constant('loads'), row: fc.constant(1), column: word, text: word, word }),
  fc.subarray(['on_ground', 'raised', 'travel']).map(turn),
  act('mark', { step, mark: fc.constantFrom('good', 'replace') }),
  act('note', { step, text: word }),
  act('note', { text: word }),
  act('photo', { step, photo: word, type: fc.constant('image/jpeg') }),
  act('leave', { step, words: word, by: fc.constantFrom('next', 'reading'), to: fc.oneof(step, fc.constant('done')) }),
  act('back', { step, to: step }),
  act('wrong', { step, text: word }),
  act('fact', { name: factName, text: word }),
  act('revised', { page: fc.constant({ ...learnPage, revision: 4 }), from: step }),
);

/** What may follow once a job is closed. */
const anyAmendment: fc.Arbitrary<Act> = fc.oneof(
  act('note', { step, text: word }),
  act('fact', { name: factName, text: word }),
  act('wrong', { text: word }),
);

/** A list of entries as a store gives it back: open, or closed and amended. */
export const anyEntries: fc.Arbitrary<readonly Entry[]> = fc
  .record({
    done: fc.array(anyAct, { maxLength: 25 }),
    later: fc.option(fc.array(anyAmendment, { maxLength: 3 })),
  })
  .map(({ done, later }) => {
    const at = '2026-11-25T08:00:00.000Z';
    const amendment = { who: 'R. Quill', why: 'forgotten' };
    const closing: readonly Entry[] = later
      ? [{ kind: 'close', at }, ...later.map((one) => ({ ...one, at, amendment }))]
      : [];
    return [...done.map((one) => ({ ...one, at })), ...closing];
  });
