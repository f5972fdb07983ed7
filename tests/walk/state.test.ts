// The walk goes where the book says, for every procedure of the demo: steps, counts, what is run, ends made safe.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Act } from '../../site/client/job/journal.js';
import { advance, beginning, endOf, leftOf, replay, stepOf, type WalkState } from '../../site/client/walk/state.js';
import type { WalkFile, WalkStep } from '../../src/emit/walk/walk-shape.js';
import { demoWalks, walkOf } from './demo-walks.js';

const judgeSheet = () => [];
type LeaveAct = Extract<Act, { kind: 'leave' }>;

function leaving(step: string, by: LeaveAct['by'] = 'next', answer?: string): Act {
  return { kind: 'leave', step, words: '', by, to: '', ...(answer !== undefined && { answer }) };
}

function reading(value: string, text: string, unit = 'V'): Act {
  return { kind: 'read', step: '', value, label: '', text, unit, verdict: 'recorded' };
}

/** All the acts that leave a step, as a person might. */
function waysOf(file: WalkFile, step: WalkStep): readonly (readonly Act[])[] {
  const readings = (step.measure ?? []).flatMap((key) => {
    const value = file.values.find((one) => one.key === key);
    return value && !value.derived ? [value] : [];
  });
  const numbers = ['0.001', '1', '4', '8', '100000'];
  return [
    ...(step.otherwise ? [[leaving(step.label, 'otherwise')]] : []),
    ...(step.answers ?? []).map(({ key }) => [leaving(step.label, 'answer', key)]),
    ...numbers.map((text) => [
      ...readings.map(({ key, unit }) => reading(key, text, unit.symbol)),
      leaving(step.label, step.measure ? 'reading' : 'next'),
    ]),
  ];
}

describe('a step that writes into a table', () => {
  it('names the table, which its procedure has and another step measures', () => {
    const writing = demoWalks().flatMap((file) =>
      file.steps.flatMap(({ label, write = [] }) => write.map((key) => ({ file, label, key }))),
    );
    expect(new Set(writing.map(({ file }) => file.procedure))).toEqual(
      new Set(['count-losses', 'mass-flow', 'width-and-area']),
    );
    for (const { file, label, key } of writing) {
      expect([file.procedure, label, file.worksheets.map((sheet) => sheet.key)]).toEqual([
        file.procedure,
        label,
        [key],
      ]);
      expect(file.steps.some(({ measure }) => measure?.includes(key))).toBe(true);
    }
  });
});

describe('a walk', () => {
  it('comes to an end by every choice of ways, and never to a step that is not there', () => {
    const files = demoWalks();
    fc.assert(
      fc.property(fc.constantFrom(...files), fc.infiniteStream(fc.nat({ max: 1_000_000 })), (file, choices) => {
        let state: WalkState = beginning(file);
        let left = 3000;
        while (endOf(state.place) === undefined) {
          left -= 1;
          expect(left, `${file.procedure} ends`).toBeGreaterThan(0);
          const step = stepOf(file, state.place);
          const ways = step ? waysOf(file, step) : [[leaving(state.place)]];
          if (!step) expect(['cautions', 'before']).toContain(state.place);
          const acts = ways[(choices.next().value ?? 0) % ways.length] ?? [];
          for (const act of acts) state = advance(file, state, { act, judgeSheet });
        }
        expect(['done', 'stop', 'call-service']).toContain(endOf(state.place));
      }),
      { numRuns: 150, seed: 41 },
    );
  });

  it('stands where it stood when its acts are replayed', () => {
    const file = walkOf('check-height-sensor', ['supply']);
    const acts: Act[] = [leaving('cautions'), leaving('before'), leaving('1'), leaving('2')];
    const state = replay(file, acts, judgeSheet);
    expect(state.place).toBe('3');
    expect(acts.reduce((one, act) => advance(file, one, { act, judgeSheet }), beginning(file))).toEqual(state);
  });

  it('is not led on by a window that still stood at a step which another had left', () => {
    for (const file of demoWalks()) {
      const acts = [leaving('cautions'), leaving('before'), leaving(file.first)];
      const start = replay(file, file.steps.some(({ hazards }) => hazards) ? acts : acts.slice(1), judgeSheet);
      expect(start.place).not.toBe(file.first);
      expect(advance(file, start, { act: leaving(file.first), judgeSheet })).toBe(start);
      const act: Act = { kind: 'back', step: file.first, to: 'before' };
      expect(advance(file, start, { act, judgeSheet })).toBe(start);
    }
  });

  it('goes to the first step after cautions and conditions', () => {
    const file = walkOf('check-height-sensor');
    const start = beginning(file);
    expect(start.place).toBe('cautions');
    const before = advance(file, start, { act: leaving('cautions'), judgeSheet });
    expect(before.place).toBe('before');
    expect(advance(file, before, { act: leaving('before'), judgeSheet }).place).toBe(file.first);
  });
});

describe('a reading', () => {
  const file = walkOf('check-height-sensor', ['supply', 'ground_left']);
  const read = file.steps.find(({ measure }) => measure?.includes('ground_left'));
  if (!read) throw new Error('The demo has no step that reads the left sensor');
  const at: WalkState = { ...beginning(file), place: read.label };
  const place = (text: string): string =>
    [reading('ground_left', text), leaving(read.label, 'reading')].reduce(
      (state, act) => advance(file, state, { act, judgeSheet }),
      at,
    ).place;
  const target = (way: WalkStep['next'] | undefined): string => (way && 'step' in way.to ? way.to.step : '');

  it('inside leads on', () => expect(place('3.9')).toBe(target(read.next)));
  it('outside leads to the adjuster', () => expect(place('3.1')).toBe(target(read.when?.outside)));
  it('outside the band of the sensor leads away from the adjuster', () =>
    expect(place('0.1')).toBe(target(read.when?.fault)));
  it('with a decimal comma is the same', () => expect(place('3,9')).toBe(place('3.9')));

  it('is stale after a turn that moves it', () => {
    const turn: Act = {
      kind: 'turn',
      step: '',
      adjuster: 'turn_left',
      label: '',
      text: '2',
      total: '2',
      unit: 'deg',
      moves: ['ground_left'],
    };
    const read39 = advance(file, at, { act: reading('ground_left', '3.9'), judgeSheet });
    expect(read39.readings.get('ground_left')?.fresh).toBe(true);
    expect(advance(file, read39, { act: turn, judgeSheet }).readings.get('ground_left')?.fresh).toBe(false);
  });

  it('is counted, and the way is another when the count is used up', () => {
    const again = file.steps.find(({ when }) => when?.outside?.atMost !== undefined);
    if (!again?.when?.outside || !again.measure?.[0]) throw new Error('The demo has no counted reading');
    let state: WalkState = { ...beginning(file), place: again.label };
    const seen: string[] = [];
    for (let i = 0; i < 3; i += 1) {
      state = advance(file, { ...state, place: again.label }, { act: reading(again.measure[0], '3.1'), judgeSheet });
      seen.push(String(leftOf(state, again.when.outside)));
      state = advance(file, state, { act: leaving(again.label, 'reading'), judgeSheet });
      seen.push(state.place);
    }
    const back = target(again.when.outside);
    expect(seen).toEqual(['2', back, '1', back, '0', target(again.when.outside.otherwise)]);
  });
});

describe('what is being typed', () => {
  const file = walkOf('check-height-sensor', ['supply', 'ground_left']);
  const draft: Act = { kind: 'draft', step: '9', field: 'ground_left', text: '3.', unit: 'V' };
  const at = advance(file, { ...beginning(file), place: '9' }, { act: draft, judgeSheet });

  it('stands there again, and counts for nothing', () => {
    expect(at.drafts.get('ground_left')?.text).toBe('3.');
    expect(at.readings.size).toBe(0);
    expect(at.place).toBe('9');
  });

  it('is gone once the step is left, so that the step is read anew when it comes again', () => {
    const left = advance(file, at, { act: leaving('9'), judgeSheet });
    expect(left.drafts.size).toBe(0);
    expect(left.isBack).toBe(false);
    const returned = advance(file, left, { act: { kind: 'back', step: left.place, to: '9' }, judgeSheet });
    expect(returned.isBack).toBe(true);
  });
});

describe('going back', () => {
  it('returns to the step before, its count and all', () => {
    const file = walkOf('check-height-sensor');
    const one = advance(file, { ...beginning(file), place: '1' }, { act: leaving('1'), judgeSheet });
    expect(one.place).toBe('2');
    const two = advance(file, one, { act: { kind: 'back', step: '2', to: '1' }, judgeSheet });
    expect(two.place).toBe('1');
    expect(two.earlier).toEqual([]);
  });
});

describe('calling service', () => {
  it('first makes the machine safe where the book says so', () => {
    const file = demoWalks().find(({ ends, steps }) => {
      const isCall = (step: WalkStep): boolean => 'end' in step.next.to && step.next.to.end === 'call-service';
      return ends['call-service'] !== undefined && steps.some(isCall);
    });
    if (!file) throw new Error('The demo has no procedure that calls service');
    const step = file.steps.find(({ next }) => 'end' in next.to && next.to.end === 'call-service');
    let state: WalkState = { ...beginning(file), place: step?.label ?? '' };
    state = advance(file, state, { act: leaving(state.place), judgeSheet });
    expect(state.place).toBe(file.ends['call-service']);
    for (let i = 0; i < 40 && endOf(state.place) === undefined; i += 1) {
      const safe = stepOf(file, state.place);
      const by = safe?.answers ? 'answer' : 'next';
      state = advance(file, state, { act: leaving(state.place, by, safe?.answers?.[0]?.key), judgeSheet });
    }
    expect(endOf(state.place)).toBe('call-service');
  });
});
