// How far the states explored grow: with loops, branches, states nobody knows, and orders. Counts, not times.

import { describe, expect, it } from 'vitest';
import type { OrderResult } from '../../src/order/result.js';
import type { ProcedureNotation, WorldNotation } from './build.js';
import { pathOf, prove, summarize } from './summary.js';

function numbers(count: number): readonly number[] {
  return Array.from({ length: count }, (_, i) => i);
}

/** One after the other: read, turn and read again at most three times. */
function loops(count: number, end: string): ProcedureNotation {
  return {
    values: Object.fromEntries(numbers(count).map((i) => [`v${i}`, 'limits'])),
    adjusters: Object.fromEntries(numbers(count).map((i) => [`screw${i}`, `v${i}`])),
    steps: [
      ...numbers(count).map((i) => `read${i} | measure v${i} | outside turn${i} x3 else call-service`),
      end,
      ...numbers(count).map((i) => `turn${i} | adjust screw${i} | then read${i}`),
    ],
  };
}

const plain: WorldNotation = { states: { auto: 'off on' } };

describe('Twelve bounded loops', () => {
  it('are proved with few states', () => {
    const result = prove(plain, loops(12, 'last | then done'));
    expect(summarize(result)).toEqual([]);
    expect(result.complete).toBe(true);
    expect(result.explored).toBeLessThan(3000);
  });

  it('grow in proportion', () => {
    const [six, twelve] = [6, 12].map((count) => prove(plain, loops(count, 'last | then done')).explored);
    expect((twelve ?? 0) / (six ?? 1)).toBeLessThan(4.5);
  });

  it('show a fault behind them at once', () => {
    const result = prove(plain, loops(12, 'last | needs auto=off | then done'));
    expect(summarize(result)).toEqual(['need-not-met 13 last: auto is off|on, wanted off, lost start']);
    expect(result.explored).toBeLessThan(5000);
  });

  it('are each followed to their end where every path takes them', () => {
    const steps = numbers(12).flatMap((i) => [`a${i}`, `b${i} | then a${i} x3 else ${i < 11 ? `a${i + 1}` : 'last'}`]);
    const result = prove(plain, { steps: [...steps, 'last | needs auto=off'] });
    expect(result.violations.map(({ trace }) => trace.length)).toEqual([12 * 8 + 1]);
    expect(result.explored).toBeLessThan(20_000);
  });

  it('are followed together where they lie in each other', () => {
    const steps = [
      ...numbers(12).map((i) => `a${i}`),
      ...numbers(12).map((i) => `b${i} | then a${i} x1 else ${i < 11 ? `b${i + 1}` : 'last'}`),
    ];
    const result = prove(plain, { steps: [...steps, 'last | needs auto=off'] });
    expect(result.complete).toBe(true);
    expect(result.violations).toHaveLength(1);
    expect(result.violations[0] && pathOf(result.violations[0]).endsWith('25')).toBe(true);
    expect(result.explored).toBeLessThan(20_000);
  });
});

/** Forty steps, twelve branches, ten states that laws and rules bind together. */
function hard(states: number, length: number, branches: number): { world: WorldNotation; main: ProcedureNotation } {
  const ids = numbers(states).map((i) => `x${i}`);
  const world: WorldNotation = {
    states: { ...Object.fromEntries(ids.map((id) => [id, 'p q r'])), person: 'cab beside start=cab' },
    physics: numbers(states - 1).map((i) => `x${i}=p -> x${i + 1}=p|q`),
    rules: [
      `all: person=beside must ${ids
        .slice(0, 4)
        .map((id) => `${id}=p|q`)
        .join(', ')} unchanged ${ids.at(-1)}`,
      `first: x0=r, x1=r must x2=p|q|r unchanged x3`,
    ],
  };
  const steps = numbers(length).map((i) => {
    const state = ids[i % states] ?? '';
    const set = `sets ${state}=${['p', 'q'][i % 2]}`;
    const every = Math.floor(length / branches);
    const ask = i % every === every - 1 && i < length - 2;
    const target = `s${Math.min(length - 1, i + 3)}`;
    return ask
      ? `s${i} | answer one s${i + 1} means ${state}=r | answer two ${target} means ${state}=q`
      : `s${i} | ${set}${i % 9 === 4 ? ' | at beside' : ' | at cab'}`;
  });
  return { world, main: { steps } };
}

describe('A hard procedure', () => {
  const run = (states: number, length: number, branches: number): OrderResult => {
    const { world, main } = hard(states, length, branches);
    return prove(world, main);
  };

  it('of 40 steps, 12 branches and 10 states stays small', () => {
    const result = run(10, 40, 12);
    expect(result.complete).toBe(true);
    expect(result.violations.length).toBeGreaterThan(0);
    expect(result.explored).toBeLessThan(100_000);
  });

  it('grows with its steps far slower than with all their combinations', () => {
    const [twenty, forty, eighty] = [
      [20, 6],
      [40, 12],
      [80, 24],
    ].map(([length = 0, branches = 0]) => run(6, length, branches).explored);
    expect((forty ?? 0) / (twenty ?? 1)).toBeLessThan(8);
    expect((eighty ?? 0) / (forty ?? 1)).toBeLessThan(8);
  });
});

describe('States that nobody knows', () => {
  it('are no product', () => {
    const states = Object.fromEntries(numbers(60).map((i) => [`x${i}`, 'p q r t']));
    const result = prove({ states }, { steps: numbers(20).map((i) => `s${i} | sets x${i}=p`), leaves: 'x0=p' });
    expect(summarize(result)).toEqual([]);
    expect(result.explored).toBeLessThan(5000);
  });
});

describe('Any order', () => {
  it('of eight steps is proved in each of them', () => {
    const steps = numbers(8).map((i) => `s${i} | sets x${i}=p`);
    const states = Object.fromEntries(numbers(8).map((i) => [`x${i}`, 'p q']));
    const needs = numbers(8)
      .map((i) => `x${i}=p`)
      .join(', ');
    const result = prove(
      { states },
      {
        steps: [...steps, `last | needs ${needs}`],
        anyOrder: [
          numbers(8)
            .map((i) => `s${i}`)
            .join(' '),
        ],
      },
    );
    expect(summarize(result)).toEqual([]);
    expect(result.complete).toBe(true);
    expect(result.explored).toBeLessThan(100_000);
  });

  it('of sixteen steps that only read is proved without trying every order', () => {
    const ids = numbers(16);
    const group = {
      anyOrder: [ids.map((i) => `s${i}`).join(' ')],
      values: Object.fromEntries(ids.map((i) => [`v${i}`, 'limits at beside'])),
    };
    const states = { engine: 'off idle', person: 'cab beside start=cab' };
    const rules = ['still: person=beside must engine=off'];
    const steps = ids.map((i) => `s${i} | measure v${i} | outside call-service`);
    const safe = prove({ states, rules }, { ...group, requires: 'engine=off', steps });
    expect(safe.complete).toBe(true);
    expect(summarize(safe)).toEqual([]);
    expect(safe.explored).toBeLessThan(50_000);
    const unsafe = prove({ states, rules }, { ...group, steps });
    expect(unsafe.violations.map(({ kind, trace }) => [kind, trace.length])).toEqual(
      Array(16).fill(['rule-broken', 1]),
    );
  });

  it('of sixteen steps that change sixteen states is given up at once', () => {
    const ids = numbers(16);
    const states = Object.fromEntries(ids.map((i) => [`x${i}`, 'p q']));
    const steps = ids.map((i) => `s${i} | sets x${i}=p`);
    const result = prove({ states }, { steps, anyOrder: [ids.map((i) => `s${i}`).join(' ')] });
    expect(result.complete).toBe(false);
    expect(result.explored).toBeLessThan(100_000);
  });
});
