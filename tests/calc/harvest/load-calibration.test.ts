// Calibration by weighed loads: arithmetic that can be followed, and a load that is spoilt on purpose.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  findSpoiler,
  flowRange,
  loadError,
  loadLine,
  meanFactor,
  ratioOfSums,
  throughOriginFactor,
} from '../../../src/calc/harvest/load-calibration.js';
import { createRandom } from '../../../src/calc/uncertainty/random.js';
import { settings } from '../interval/exact.js';
import { expectRelative } from '../outside/record.js';

const shown = [3100, 4050, 5200, 6100];
const scale = [3000, 4000, 5000, 6000];
const loads = shown.map((mass, i) => ({ shown: mass, scale: scale[i]! }));

describe('factors', () => {
  // Invented loads, exact arithmetic; model as NIST StRD NoInt1.
  test('one load: 4850 shown, 5000 weighed', () => {
    const claim = { of: 'ratioOfSums', against: 'arithmetic (from memory)' };
    expectRelative(ratioOfSums([{ shown: 4850, scale: 5000 }]), 1.0309278350515463, 1e-14, claim);
    expectRelative(loadError({ shown: 4850, scale: 5000 }), -0.030000000000000027, 1e-12, {
      ...claim,
      of: 'loadError',
    });
  });

  test('four loads: through the origin, mean, sums', () => {
    const fit = throughOriginFactor(loads);
    expectRelative(fit.slope, 0.9760420994322117, 1e-14, {
      of: 'throughOriginFactor',
      against: 'arithmetic (from memory)',
    });
    expect(fit.slopeError!).toBeGreaterThan(0);
    expect(meanFactor(loads)).toBeCloseTo((3000 / 3100 + 4000 / 4050 + 5000 / 5200 + 6000 / 6100) / 4, 14);
    expect(ratioOfSums(loads)).toBeCloseTo(18000 / 18450, 14);
  });

  // A grain-cart scale that is off by 1 % moves every calibration by 1 % (propagation, from memory).
  test('a scale that reads 1 % high moves every factor by 1 %', () => {
    const high = loads.map((load) => ({ ...load, scale: load.scale * 1.01 }));
    for (const factor of [ratioOfSums, meanFactor, (list: typeof loads) => throughOriginFactor(list).slope]) {
      expectRelative(factor(high) / factor(loads), 1.01, 1e-12, {
        of: 'throughOriginFactor',
        against: 'propagation (from memory)',
      });
    }
  });

  test('loads that follow one factor give that factor, whatever the model', () => {
    const masses = fc.array(fc.double({ min: 1000, max: 8000, noNaN: true }), { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(masses, fc.double({ min: 0.8, max: 1.2, noNaN: true }), (list, factor) => {
        const exact = list.map((mass) => ({ shown: mass, scale: mass * factor }));
        expect(throughOriginFactor(exact).slope).toBeCloseTo(factor, 12);
        expect(meanFactor(exact)).toBeCloseTo(factor, 12);
        expect(ratioOfSums(exact)).toBeCloseTo(factor, 12);
        const line = loadLine(exact);
        if (line !== undefined && Math.max(...list) - Math.min(...list) > 100)
          expect(line.slope).toBeCloseTo(factor, 8);
        expect(findSpoiler(exact)).toBeUndefined();
      }),
      { ...settings, numRuns: 300 },
    );
  });

  test('what is no load is refused', () => {
    expect(() => ratioOfSums([])).toThrow(RangeError);
    expect(() => meanFactor([{ shown: 0, scale: 5 }])).toThrow('shown mass');
    expect(() => throughOriginFactor([{ shown: 5, scale: -5 }])).toThrow('scale mass');
    expect(() => flowRange([{ shown: 5, scale: 5, flow: 0 }])).toThrow('flow');
    expect(loadLine([{ shown: 5, scale: 5 }])).toBeUndefined();
  });
});

describe('the load that spoils it', () => {
  test('a load with a wheel off the scale is found, and the factor without it', () => {
    const noisy = [3000, 3600, 4200, 4800, 5400, 6000].map((mass, i) => ({
      shown: mass * (1.03 + (i % 2 ? 0.004 : -0.004)),
      scale: mass,
    }));
    expect(findSpoiler(noisy)).toBeUndefined();
    const spoilt = noisy.map((load, i) => (i === 2 ? { ...load, scale: load.scale - 700 } : load));
    const found = findSpoiler(spoilt)!;
    expect(found.place).toBe(2);
    expect(found.deviation).toBeGreaterThan(found.bound);
    expect(found.factorWithout).toBeCloseTo(1 / 1.03, 2);
    expect(findSpoiler(noisy.slice(0, 3))).toBeUndefined();
  });

  test('of clean sets, about one in twenty is blamed: by 4000 made sets', () => {
    const random = createRandom(5);
    let blamed = 0;
    for (let set = 0; set < 4000; set += 1) {
      const made = [3000, 3500, 4200, 5000, 6000].map((mass) => ({
        shown: mass,
        scale: mass * 0.97 + 40 * random.normal(),
      }));
      if (findSpoiler(made) !== undefined) blamed += 1;
    }
    expect(blamed / 4000).toBeGreaterThan(0.03);
    expect(blamed / 4000).toBeLessThan(0.06);
  });
});

describe('the flows that loads speak for', () => {
  test('least, greatest, their ratio', () => {
    expect(
      flowRange([
        { shown: 1, scale: 1, flow: 4 },
        { shown: 1, scale: 1, flow: 10 },
        { shown: 1, scale: 1 },
      ]),
    ).toEqual({ low: 4, high: 10, ratio: 2.5 });
    expect(flowRange(loads)).toBeUndefined();
  });
});
