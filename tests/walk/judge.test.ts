// Judging a reading: exactly as read, ends inside, and never more lenient than the limits.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gravestOf, judge, wayFor } from '../../site/client/walk/judge.js';
import { compare, type Rational, rational, toNumber } from '../../src/calc/rational.js';
import type { WalkStep, WalkValue, Way } from '../../src/emit/walk/walk-shape.js';
import { demoWalks } from './demo-walks.js';

const values = demoWalks().flatMap((file) => file.values.filter(({ acceptance }) => acceptance));
const way = (id: string): Way => ({ id, to: { step: id } });
const step: WalkStep = { label: '1', scope: '', words: '', next: way('next') };

describe('a judgement', () => {
  it('passes exactly what lies within the acceptance limits, ends included', () => {
    fc.assert(
      fc.property(fc.constantFrom(...values), fc.bigInt({ min: -400n, max: 400n }), (value, thousandths) => {
        const { low, high } = value.acceptance ?? {};
        const near: Rational = low ?? high ?? rational(0);
        const reading = rational(near.num * 1000n + thousandths * near.den, near.den * 1000n);
        const isWithin = (!low || compare(low, reading) <= 0) && (!high || compare(reading, high) <= 0);
        const isReadable =
          (!value.inside?.low || compare(value.inside.low, reading) <= 0) &&
          (!value.inside?.high || compare(reading, value.inside.high) <= 0);
        const { verdict } = judge(value, reading);
        expect(verdict === 'pass').toBe(isWithin && isReadable);
        expect(verdict === 'fault').toBe(!isReadable);
      }),
      { numRuns: 500, seed: 7 },
    );
  });

  it('passes at the limits themselves', () => {
    for (const value of values) {
      const { low, high } = value.acceptance ?? {};
      for (const end of [low, high]) if (end) expect(judge(value, end).verdict).toBe('pass');
    }
  });

  it('says which side, and how far', () => {
    const value = values.find(({ acceptance, inside }) => acceptance?.low && !inside) as WalkValue;
    const low = value.acceptance?.low as Rational;
    const below = rational(low.num * 10n - low.den, low.den * 10n);
    const judged = judge(value, below);
    expect(judged.side).toBe('low');
    expect(toNumber(judged.distance as Rational)).toBeCloseTo(0.1, 12);
  });

  it('is too close to call between the two limits of three zones, and fails beyond', () => {
    const zoned = values.find(({ failing }) => failing) as WalkValue;
    const { low } = zoned.failing ?? {};
    const accepted = zoned.acceptance?.low as Rational;
    if (!low) throw new Error('The demo has no value with three zones');
    const between = rational(low.num * accepted.den + accepted.num * low.den, 2n * low.den * accepted.den);
    expect(judge(zoned, between).verdict).toBe('unsure');
    expect(judge(zoned, rational(low.num * 1000n - low.den, low.den * 1000n)).verdict).toBe('fail');
  });

  it('of several is the gravest', () => {
    const pass = { verdict: 'pass' } as const;
    const fail = { verdict: 'fail', side: 'low' } as const;
    const fault = { verdict: 'fault' } as const;
    expect(gravestOf([pass, fail, fault])).toBe(fault);
    expect(gravestOf([pass, fail])).toBe(fail);
    expect(gravestOf([pass])).toBeUndefined();
  });
});

describe('the way of a reading', () => {
  const when = { outside: way('outside'), fault: way('fault') };
  it('is the next step where it passes', () => expect(wayFor({ ...step, when }, { verdict: 'pass' })).toBeUndefined());
  it('of a fault is its own, else that of outside', () => {
    expect(wayFor({ ...step, when }, { verdict: 'fault' })?.id).toBe('fault');
    expect(wayFor({ ...step, when: { outside: way('outside') } }, { verdict: 'fault' })?.id).toBe('outside');
  });
  it('of one too close to call counts as outside where the step does not tell them apart', () => {
    expect(wayFor({ ...step, when }, { verdict: 'unsure', side: 'low' })?.id).toBe('outside');
  });
  it('goes by its side where the step asks for it', () => {
    const sides = { low: way('low'), high: way('high') };
    expect(wayFor({ ...step, when: sides }, { verdict: 'fail', side: 'high' })?.id).toBe('high');
    expect(wayFor({ ...step, when: sides }, { verdict: 'fault', side: 'low' })?.id).toBe('low');
  });
});
