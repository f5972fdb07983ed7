// The record of a job: as found, as left, slips put right, nothing left out. VIM terms; the rule for as found and as left
// is the one that calibration laboratories go by: common practice, no source.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Act, Entry, Job } from '../../site/client/job/journal.js';
import { recordOf } from '../../site/client/job/record.js';
import { anyEntries, jobOf, learnPage, leave, reading, turn } from './jobs.js';

/** As found and as left of each value, as they were typed. */
function foundAndLeft(job: Job): Record<string, readonly [string | undefined, string | undefined]> {
  const { values, readings } = recordOf(job);
  const text = (order?: number): string | undefined => readings.find((one) => one.order === order)?.text;
  return Object.fromEntries(values.map(({ value, asFound, asLeft }) => [value, [text(asFound), text(asLeft)]]));
}

const back = (step: string, to: string): Act => ({ kind: 'back', step, to });

describe('as found and as left', () => {
  it('are before the first adjustment that moves a value and after the last', () => {
    const job = jobOf([
      reading('on_ground', '3.3'),
      leave('2', '3'),
      turn(['on_ground']),
      leave('3', '2'),
      reading('on_ground', '3.5'),
      leave('2', '3'),
      turn(['on_ground']),
      leave('3', '2'),
      reading('on_ground', '3.9'),
    ]);
    expect(foundAndLeft(job)).toEqual({ on_ground: ['3.3', '3.9'] });
    expect(recordOf(job).values[0]?.adjusted).toBe(true);
  });

  it('are the first and the last reading where nothing moved the value, which may be one', () => {
    const job = jobOf([
      reading('raised', '0.9'),
      reading('on_ground', '3.9', { step: '3' }),
      leave('3', '4'),
      turn(['other']),
      reading('on_ground', '3.8', { step: '5' }),
    ]);
    expect(foundAndLeft(job)).toEqual({ raised: ['0.9', '0.9'], on_ground: ['3.9', '3.8'] });
  });

  it('are missing where nothing was read before, or nothing after', () => {
    expect(foundAndLeft(jobOf([turn(['a']), reading('a', '1')]))).toEqual({ a: [undefined, '1'] });
    expect(foundAndLeft(jobOf([reading('a', '1'), turn(['a'])]))).toEqual({ a: ['1', undefined] });
  });

  it('leave out a slip that was put right at once, and keep it in the list', () => {
    const job = jobOf([
      reading('a', '36'),
      reading('a', '3.6'),
      leave('2', '3'),
      back('3', '2'),
      reading('a', '3.7'),
      leave('2', '3'),
    ]);
    expect(foundAndLeft(job)).toEqual({ a: ['3.7', '3.7'] });
    expect(recordOf(job).readings.map(({ text, corrected }) => [text, corrected])).toEqual([
      ['36', true],
      ['3.6', true],
      ['3.7', undefined],
    ]);
  });

  it('take a reading as measured again after other work, a longer way back, or an adjustment', () => {
    const longer = [leave('2', '3'), leave('3', '4'), back('4', '3'), back('3', '2')];
    const work = [leave('2', '3'), reading('b', '1', { step: '3' }), back('3', '2')];
    for (const between of [longer, work, [turn(['b'])]]) {
      const job = jobOf([reading('a', '1'), ...between, reading('a', '2')]);
      expect(foundAndLeft(job).a).toEqual(['1', '2']);
    }
  });

  it('carry the revision that they were read by', () => {
    const page = { ...learnPage, revision: 4, content: 'bbbb', rig: 'Tarn 40, renamed' };
    const record = recordOf(jobOf([reading('a', '1'), { kind: 'revised', page, from: '1' }, reading('a', '2')]));
    expect(record.readings.map(({ revision }) => revision)).toEqual([3, 4]);
    expect([record.begunBy.revision, record.page.revision, record.rig]).toEqual([3, 4, 'Tarn 40, renamed']);
    expect(record.readings.some(({ corrected }) => corrected)).toBe(false);
  });
});

describe('a record', () => {
  it('says the end that was reached, unless somebody went back from it', () => {
    expect(recordOf(jobOf([leave('2', 'done')])).end).toBe('done');
    expect(recordOf(jobOf([leave('2', 'stop')])).end).toBe('stop');
    expect(recordOf(jobOf([leave('2', 'done'), back('done', '2')])).end).toBeUndefined();
    expect(recordOf(jobOf([leave('2', '3')])).end).toBeUndefined();
  });

  it('keeps the last of a fact, a tick and a cell, and marks those before', () => {
    const cell = (row: number, text: string): Act => ({
      kind: 'cell',
      step: '4',
      worksheet: 'loads',
      row,
      column: 'shown',
      text,
    });
    const record = recordOf(
      jobOf([
        { kind: 'fact', name: 'who', text: 'R. Quil' },
        { kind: 'fact', name: 'who', text: 'R. Quill' },
        { kind: 'tick', condition: 1, words: 'Engine off', met: true },
        { kind: 'tick', condition: 1, words: 'Engine off', met: false },
        cell(1, '900'),
        cell(2, '8000'),
        cell(1, '9000'),
      ]),
    );
    const shown = (list: readonly { corrected?: true }[]): readonly boolean[] => list.map((one) => !one.corrected);
    expect(shown(record.facts)).toEqual([false, true]);
    expect(shown(record.ticks)).toEqual([false, true]);
    expect(shown(record.cells)).toEqual([false, true, true]);
  });

  it('is amended, never edited: what stood in it at closing stands', () => {
    const acts: readonly Act[] = [
      { kind: 'fact', name: 'engine-hours', text: '1240' },
      reading('a', '1'),
      leave('2', 'done'),
      { kind: 'close' },
    ];
    const before = recordOf(jobOf(acts));
    const amendment = { who: 'R. Quill', why: 'A digit was wrong' };
    const late: Entry = { kind: 'fact', name: 'engine-hours', text: '1420', at: '2026-11-25T09:00:00.000Z', amendment };
    const closed = jobOf(acts);
    const after = recordOf({ ...closed, entries: [...closed.entries, late] });
    expect({ ...after, amendments: [] }).toEqual(before);
    expect(after.amendments).toEqual([
      { order: 5, at: late.at, ...amendment, kind: 'fact', name: 'engine-hours', text: '1420' },
    ]);
    expect(before.state).toBe('closed');
  });
});

/** The places in the list of all items of a record. */
function ordersOf(record: ReturnType<typeof recordOf>): readonly number[] {
  return Object.values(record)
    .flatMap((part: unknown) => (Array.isArray(part) ? (part as readonly { order?: number }[]) : []))
    .flatMap(({ order }) => order ?? [])
    .sort((a, b) => a - b);
}

describe('for any list of acts', () => {
  it('every entry stands in the record once', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const job: Job = { ...jobOf([]), entries };
        const expected = entries.flatMap(({ kind }, index) => (kind === 'close' ? [] : [index + 1]));
        expect(ordersOf(recordOf(job))).toEqual(expected);
      }),
    );
  });

  it('as found is read before the first adjustment that moves it, as left after the last, none is a slip', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const record = recordOf({ ...jobOf([]), entries });
        for (const { value, asFound, asLeft, adjusted } of record.values) {
          const moved = record.adjustments.filter(({ moves }) => moves.includes(value)).map(({ order }) => order);
          const own = record.readings.filter((one) => one.value === value && !one.corrected).map(({ order }) => order);
          expect(adjusted).toBe(moved.length > 0);
          expect(asFound).toBe(own.filter((order) => moved.every((turned) => order < turned))[0]);
          expect(asLeft).toBe(own.filter((order) => moved.every((turned) => order > turned)).at(-1));
        }
      }),
    );
  });

  it('what was done so far stays as it is when more is done, but for slips and what is read again', () => {
    fc.assert(
      fc.property(anyEntries, fc.nat(), (entries, cut) => {
        const part = recordOf({ ...jobOf([]), entries: entries.slice(0, cut % (entries.length + 1)) });
        const whole = recordOf({ ...jobOf([]), entries });
        for (const key of ['adjustments', 'marks', 'notes', 'photos', 'wrong', 'ways', 'revisions'] as const) {
          expect(whole[key].slice(0, part[key].length)).toEqual(part[key]);
        }
      }),
    );
  });

  it('the list is left as it was', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const before = JSON.stringify(entries);
        recordOf({ ...jobOf([]), entries });
        expect(JSON.stringify(entries)).toBe(before);
      }),
    );
  });
});
