// Ratiometric sensors, fault bands, potentiometers, converters: handbook values, and a second method for each.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { converterCode, converterStep, quantisationUncertainty } from '../../../src/calc/sensors/converter.js';
import { classifyVoltage, failureMode } from '../../../src/calc/sensors/faults.js';
import { dividerOutput, loadedShare, loadingError, worstLoading } from '../../../src/calc/sensors/potentiometer.js';
import {
  linearOutput,
  linearSensitivity,
  outputRange,
  provenRange,
  ratiometricOutput,
  shareOfSupply,
} from '../../../src/calc/sensors/ratiometric.js';
import { settings } from '../interval/exact.js';
import { expectAbsolute, expectRelative, expectSame } from '../outside/record.js';

describe('ratiometric', () => {
  // A component maker's user guide for a bridge-sensor conditioner, section Ratiometric Scale: 10 % to 90 % of supply.
  test('10 % to 90 % of four supplies', () => {
    const claim = { of: 'ratiometricOutput', against: 'bridge-sensor conditioner user guide' };
    for (const [supply, low, high] of [
      [5, 0.5, 4.5],
      [4.75, 0.475, 4.275],
      [5.25, 0.525, 4.725],
      [3, 0.3, 2.7],
    ] as const) {
      expectRelative(ratiometricOutput(0.1, supply), low, 1e-14, claim);
      expectRelative(ratiometricOutput(0.9, supply), high, 1e-14, claim);
    }
  });

  test('a voltage without the supply is 5 % unsure on a 5 V ± 5 % rail', () => {
    const supply = { low: 4.75, high: 5.25 };
    const all = outputRange({ low: 0.1, high: 0.9 }, supply);
    const proven = provenRange({ low: 0.1, high: 0.9 }, supply)!;
    const claim = { of: 'outputRange', against: 'bridge-sensor conditioner user guide' };
    expectRelative(all.low, 0.475, 1e-14, claim);
    expectRelative(all.high, 4.725, 1e-14, claim);
    expectRelative(proven.low, 0.525, 1e-14, { ...claim, of: 'provenRange' });
    expectRelative(proven.high, 4.275, 1e-14, { ...claim, of: 'provenRange' });
    expect(provenRange({ low: 0.5, high: 0.52 }, supply)).toBeUndefined();
    expect(shareOfSupply(2.5, 4.75) / shareOfSupply(2.5, 5)).toBeCloseTo(1.0526, 4);
  });

  test('every voltage that is proven lies within the shares for every supply', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, share, (a, b, at, supplyAt) => {
        const shares = { low: Math.min(a, b), high: Math.max(a, b) };
        const supply = { low: 4.75, high: 5.25 };
        const proven = provenRange(shares, supply);
        fc.pre(proven !== undefined);
        const voltage = proven!.low + at * (proven!.high - proven!.low);
        const found = shareOfSupply(voltage, supply.low + supplyAt * 0.5);
        expect(found).toBeGreaterThanOrEqual(shares.low - 1e-12);
        expect(found).toBeLessThanOrEqual(shares.high + 1e-12);
      }),
      settings,
    );
  });

  // Definition of a straight-line sensor (from memory): 0.5 V at -45 deg, 4.5 V at +45 deg.
  test('straight-line sensor and two-point map', () => {
    const claim = { of: 'linearOutput', against: 'two-point interpolation (from memory)' };
    const sensor = { from: { input: -45, output: 0.5 }, to: { input: 45, output: 4.5 } };
    expectRelative(linearOutput(sensor, 0), 2.5, 1e-12, claim);
    expectRelative(linearOutput(sensor, 10), 2.9444444444444446, 1e-12, claim);
    expectRelative(linearSensitivity(sensor) * 1000, 44.44444444444444, 1e-12, { ...claim, of: 'linearSensitivity' });
    // 0.9 V at 0 mm, 4.1 V at 400 mm: 2.5 V.
    expectRelative(
      linearOutput({ from: { input: 0.9, output: 0 }, to: { input: 4.1, output: 400 } }, 2.5),
      200,
      1e-12,
      claim,
    );
    expect(() => linearSensitivity({ from: sensor.from, to: sensor.from })).toThrow(RangeError);
  });

  test('what cannot be is refused', () => {
    expect(() => ratiometricOutput(1.1, 5)).toThrow(RangeError);
    expect(() => ratiometricOutput(0.5, -1)).toThrow(RangeError);
    expect(() => shareOfSupply(1, 0)).toThrow(RangeError);
    expect(() => outputRange({ low: 0.9, high: 0.1 }, { low: 4, high: 5 })).toThrow(RangeError);
  });
});

describe('fault bands', () => {
  // Common practice, no source: valid 0.5 to 4.5 V, faults below 0.25 V and above 4.75 V. Other bands are in use.
  const bands = { faultLow: 0.25, validLow: 0.5, validHigh: 4.5, faultHigh: 4.75 };
  test('each band, its ends included', () => {
    const claim = { of: 'classifyVoltage', against: 'common practice, no source' };
    for (const [voltage, band] of [
      [0.1, 'fault-low'],
      [0.25, 'below'],
      [0.49, 'below'],
      [0.5, 'valid'],
      [4.5, 'valid'],
      [4.6, 'above'],
      [4.75, 'above'],
      [4.8, 'fault-high'],
    ] as const)
      expectSame(classifyVoltage(voltage, bands), band, claim);
  });

  // SAE J1939-73, appendix A: failure mode 3 voltage above normal or shorted to high source, 4 voltage below normal or
  // shorted to low source. One published list prints 4 as "shorted to high source": the two sides must differ.
  test('the failure mode of each side, and the misprint noticed', () => {
    const claim = { of: 'failureMode', against: 'SAE J1939-73, appendix A' };
    expectSame(failureMode(classifyVoltage(4.9, bands)), 3, claim);
    expectSame(failureMode(classifyVoltage(0.05, bands)), 4, claim);
    expectSame(failureMode('valid'), undefined, claim);
    const misprint = { 3: 'fault-high', 4: 'fault-high' } as const;
    expect(failureMode(misprint[3])).toBe(3);
    expect(failureMode(misprint[4])).not.toBe(4);
  });

  test('bands may touch', () => {
    const touching = { faultLow: 0.5, validLow: 0.5, validHigh: 4.5, faultHigh: 4.5 };
    expect([0.4, 0.5, 4.5, 4.6].map((voltage) => classifyVoltage(voltage, touching))).toEqual([
      'fault-low',
      'valid',
      'valid',
      'fault-high',
    ]);
  });

  test('bands out of order and no number are refused', () => {
    expect(() => classifyVoltage(1, { ...bands, validLow: 0.1 })).toThrow(RangeError);
    expect(() => classifyVoltage(Number.NaN, bands)).toThrow(RangeError);
  });
});

describe('potentiometers', () => {
  // Textbook divider (from memory).
  test('dividers', () => {
    const claim = { of: 'dividerOutput', against: 'textbook divider (from memory)' };
    expectRelative(dividerOutput(12, 10e3, 10e3), 6, 1e-12, claim);
    expectRelative(dividerOutput(12, 1e3, 4.7e3), 9.894736842105264, 1e-12, claim);
    expect(() => dividerOutput(12, 0, 0)).toThrow(RangeError);
    expect(() => dividerOutput(12, -1, 5)).toThrow(RangeError);
  });

  test('a loaded potentiometer is a divider with the load beside its lower part', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        fc.double({ min: 100, max: 1e5, noNaN: true }),
        fc.double({ min: 100, max: 1e7, noNaN: true }),
        (x, resistance, load) => {
          const lower = (x * resistance * load) / (x * resistance + load);
          const target = dividerOutput(1, (1 - x) * resistance, lower);
          expectRelative(loadedShare(x, { resistance, load }), target, 1e-12, {
            of: 'loadedShare',
            against: 'divider with two resistors in parallel',
          });
        },
      ),
      { ...settings, numRuns: 300 },
    );
  });

  test('the worst place is the worst of a fine walk, near two thirds for a light load', () => {
    for (const load of [1e3, 1e4, 1e5, 1e6]) {
      const worst = worstLoading({ resistance: 1e4, load });
      let most = 0;
      for (let i = 0; i <= 10_000; i += 1) most = Math.min(most, loadingError(i / 10_000, { resistance: 1e4, load }));
      expectRelative(worst.error, most, 1e-6, { of: 'worstLoading', against: 'walk through 10 000 positions' });
    }
    const light = worstLoading({ resistance: 1e4, load: 1e7 });
    expect(light.position).toBeCloseTo(2 / 3, 3);
    expectRelative(light.error, (-4 * 1e-3) / 27, 1e-3, { of: 'worstLoading', against: 'first order: -4 a / 27' });
    expect([loadedShare(0, { resistance: 1, load: 1 }), loadedShare(1, { resistance: 1, load: 1 })]).toEqual([0, 1]);
    expect(() => loadedShare(1.5, { resistance: 1, load: 1 })).toThrow(RangeError);
  });
});

describe('converters', () => {
  // Microcontroller data sheets use both conventions: code = V 2^n / Vref and code = V (2^n - 1) / Vref.
  test('the step of 8, 10 and 12 bits on 5 V by both conventions', () => {
    const claim = { of: 'converterStep', against: 'microcontroller data sheets' };
    for (const [bits, steps, codes] of [
      [8, 0.01953125, 0.0196078431372549],
      [10, 0.0048828125, 0.004887585532746823],
      [12, 0.001220703125, 0.001221001221001221],
    ] as const) {
      expectRelative(converterStep({ bits, reference: 5, convention: 'steps' }), steps, 1e-14, claim);
      expectRelative(converterStep({ bits, reference: 5, convention: 'codes' }), codes, 1e-14, claim);
    }
    // 0.1 % apart at 10 bits: a page has to say which.
    const apart =
      converterStep({ bits: 10, reference: 5, convention: 'codes' }) /
        converterStep({ bits: 10, reference: 5, convention: 'steps' }) -
      1;
    expect(apart).toBeCloseTo(0.000978, 6);
  });

  test('0.6 V on 2.5 V and 1023 codes is 245', () => {
    expectSame(converterCode(0.6, { bits: 10, reference: 2.5, convention: 'codes' }), 245, {
      of: 'converterCode',
      against: 'microcontroller data sheets',
    });
    const ten = { bits: 10, reference: 5, convention: 'steps' } as const;
    expect([converterCode(-1, ten), converterCode(5, ten), converterCode(9, { ...ten, convention: 'codes' })]).toEqual([
      0, 1023, 1023,
    ]);
    expect(() => converterCode(Number.NaN, ten)).toThrow(RangeError);
    expect(() => converterStep({ ...ten, bits: 0 })).toThrow(RangeError);
  });

  // JCGM 100:2008 (GUM), 4.3.7.
  test('the uncertainty of one step, 10 bits on 5 V', () => {
    const found = quantisationUncertainty({ bits: 10, reference: 5, convention: 'steps' });
    expectRelative(found, 0.001409546555638735, 1e-14, {
      of: 'quantisationUncertainty',
      against: 'JCGM 100:2008, 4.3.7',
    });
    // By the scatter of what rounding leaves, over a fine walk.
    const step = 5 / 1024;
    let squares = 0;
    for (let i = 0; i < 10_000; i += 1) squares += (((i + 0.5) / 10_000 - 0.5) * step) ** 2;
    expectAbsolute(Math.sqrt(squares / 10_000), found, 1e-9, {
      of: 'quantisationUncertainty',
      against: 'walk through one step',
    });
  });
});
