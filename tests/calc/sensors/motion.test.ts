// Arms, following the ground, hydraulics: handbook values, numerical second methods, and published slips noticed.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  armAngle,
  armHeight,
  armLift,
  armSensitivity,
  heightPerStep,
  twoPointError,
  worstTwoPointError,
} from '../../../src/calc/sensors/arm.js';
import {
  crossoverBound,
  delayError,
  delayPhase,
  distanceInDelay,
  followingSpeed,
  speedForSlope,
  steepestSlope,
} from '../../../src/calc/sensors/following.js';
import {
  absolutePressure,
  accumulatorVolumes,
  cylinderSpeed,
  keepsPrechargeGuides,
  prechargeRatios,
  tipSpeed,
} from '../../../src/calc/sensors/hydraulics.js';
import { settings } from '../interval/exact.js';
import { expectAbsolute, expectPrinted, expectRelative, expectSame } from '../outside/record.js';

const degree = Math.PI / 180;
const mph = 0.44704;
const psi = 6894.757293168361;
const gallon = 0.003785411784;

describe('arms', () => {
  // Trigonometry (from memory).
  test('lift of a 2 m arm, and the small-angle slip', () => {
    const claim = { of: 'armLift', against: 'trigonometry (from memory)' };
    expectRelative(armLift(2, -10 * degree, 10 * degree), 0.6945927106677213, 1e-12, claim);
    expectRelative(armLift(2, 0, 30 * degree), 1, 1e-12, claim);
    expectRelative(armHeight(0.5, 5 * degree), 0.04357787137382908, 1e-12, { ...claim, of: 'armHeight' });
    // L times the angle reads 0.13 % more.
    expectRelative(0.5 * 5 * degree, 0.04363323129985824, 1e-12, { ...claim, of: 'armHeight' });
    expect((0.5 * 5 * degree) / armHeight(0.5, 5 * degree) - 1).toBeCloseTo(0.0013, 4);
  });

  test('height of one converter step through the sensor: 1.15 mm', () => {
    const found = heightPerStep({ length: 0.6, angle: 0 }, { step: 5 / 1024, sensitivity: 4 / 90 / degree });
    expectRelative(found, 0.0011504855909142309, 1e-12, { of: 'heightPerStep', against: 'geometry (from memory)' });
  });

  test('angle and height undo each other; sensitivity is the slope of the height', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1.5, max: 1.5, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (angle, length) => {
          expect(armAngle(length, armHeight(length, angle))).toBeCloseTo(angle, 9);
          const slope = (armHeight(length, angle + 1e-6) - armHeight(length, angle - 1e-6)) / 2e-6;
          expect(armSensitivity(length, angle)).toBeCloseTo(slope, 6);
        },
      ),
      settings,
    );
    expect(() => armAngle(1, 1.1)).toThrow(RangeError);
    expect(() => armHeight(1, 2)).toThrow(RangeError);
    expect(() => armHeight(-1, 0)).toThrow(RangeError);
  });

  test('a straight line between two taught points: the worst error is that of a fine walk', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1.4, max: 1.4, noNaN: true }),
        fc.double({ min: 0.05, max: 1.4, noNaN: true }),
        (from, size) => {
          const arm = { length: 2, from, to: Math.min(from + size, 1.5) };
          const worst = worstTwoPointError(arm);
          let most = 0;
          for (let i = 0; i <= 2000; i += 1)
            most = Math.max(most, Math.abs(twoPointError(arm, Math.min(from + ((arm.to - from) * i) / 2000, arm.to))));
          expectAbsolute(Math.abs(worst.error), most, 1e-6, {
            of: 'worstTwoPointError',
            against: 'walk through 2000 angles',
          });
          expect(worst.angle).toBeGreaterThanOrEqual(arm.from);
          expect(worst.angle).toBeLessThanOrEqual(arm.to);
        },
      ),
      { ...settings, numRuns: 200 },
    );
    // From 0 to 30 deg the middle of a 2 m arm is 18 mm higher than the line: a linear map of an arc is wrong there.
    const middle = twoPointError({ length: 2, from: 0, to: 30 * degree }, 15 * degree);
    expect(middle).toBeCloseTo(2 * Math.sin(15 * degree) - 0.5, 12);
    expect(() => worstTwoPointError({ length: 2, from: 0.1, to: 0.1 })).toThrow(RangeError);
  });
});

describe('following the ground', () => {
  test('speed, error and phase', () => {
    // Kinematics (from memory).
    expectRelative(speedForSlope({ lift: 0.15, lower: 1 }, 0.1), 1.5, 1e-12, {
      of: 'speedForSlope',
      against: 'kinematics (from memory)',
    });
    expectRelative(speedForSlope({ lift: 0.15, lower: 1 }, 0.1) / mph, 3.3554044380816035, 1e-12, {
      of: 'speedForSlope',
      against: 'kinematics (from memory)',
    });
    expectRelative(delayError(2, 0.3, 0.05), 0.03, 1e-12, { of: 'delayError', against: 'kinematics (from memory)' });
    expectRelative(delayPhase(0.5, 0.2) / degree, 36, 1e-12, {
      of: 'delayPhase',
      against: 'control textbook (from memory)',
    });
    expect(speedForSlope({ lift: 0.15, lower: 0.3 }, -0.1)).toBeCloseTo(3, 12);
    expect(speedForSlope({ lift: 0.15, lower: 0.3 }, 0)).toBe(Infinity);
    expect(distanceInDelay(2, 0.3)).toBeCloseTo(0.6, 12);
  });

  // S. Skogestad, I. Postlethwaite, Multivariable Feedback Control, 2nd ed., ch. 5 (from memory).
  test('the bound of a delay on the crossover frequency', () => {
    const claim = { of: 'crossoverBound', against: 'Skogestad, Postlethwaite, ch. 5 (from memory)' };
    for (const [delay, radians, hertz] of [
      [0.1, 10, 1.5915494309189535],
      [0.2, 5, 0.7957747154594768],
      [0.3, 3.3333333333333335, 0.5305164769729845],
      [0.5, 2, 0.3183098861837907],
    ] as const) {
      expectRelative(crossoverBound(delay), radians, 1e-9, claim);
      expectRelative(crossoverBound(delay) / (2 * Math.PI), hertz, 1e-9, claim);
    }
    expect(() => crossoverBound(0)).toThrow(RangeError);
  });

  test('at the speed found, the height just keeps up: by a walk along the wave', () => {
    const draw = fc.record({
      lift: fc.double({ min: 0.05, max: 1, noNaN: true }),
      lower: fc.double({ min: 0.05, max: 1, noNaN: true }),
      delay: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
      amplitude: fc.double({ min: 0.06, max: 0.5, noNaN: true }),
      wavelength: fc.double({ min: 2, max: 50, noNaN: true }),
    });
    fc.assert(
      fc.property(draw, ({ lift, lower, delay, amplitude, wavelength }) => {
        const wave = { amplitude, wavelength };
        const { speed, because } = followingSpeed({ rates: { lift, lower }, delay, tolerance: 0.05 }, wave);
        let steepest = 0;
        let error = 0;
        const height = (x: number) => amplitude * Math.sin((2 * Math.PI * x) / wavelength);
        for (let i = 0; i < 4000; i += 1) {
          const x = (wavelength * i) / 4000;
          steepest = Math.max(steepest, ((height(x + 1e-6) - height(x - 1e-6)) / 2e-6) * speed);
          error = Math.max(error, Math.abs(height(x) - height(x - speed * delay)));
        }
        expect(steepest).toBeLessThanOrEqual(Math.min(lift, lower) * 1.00001);
        expect(error).toBeLessThanOrEqual(0.05 * 1.00001);
        const used = because === 'delay' ? error / 0.05 : steepest / Math.min(lift, lower);
        expectRelative(used, 1, 1e-4, { of: 'followingSpeed', against: 'walk along the wave' });
      }),
      { ...settings, numRuns: 100 },
    );
    expect(
      followingSpeed(
        { rates: { lift: 0.1, lower: 0.1 }, delay: 0.3, tolerance: 0.1 },
        { amplitude: 0.05, wavelength: 3 },
      ),
    ).toEqual({ speed: Infinity, because: 'none' });
    expect(
      followingSpeed(
        { rates: { lift: 0.1, lower: 0.1 }, delay: 0, tolerance: 0.01 },
        { amplitude: 0.05, wavelength: 3 },
      ).because,
    ).toBe('lift-rate');
    expect(steepestSlope({ amplitude: 1, wavelength: 2 * Math.PI })).toBeCloseTo(1, 12);
  });
});

describe('hydraulics', () => {
  test('two 80 mm cylinders that share 40 L/min', () => {
    const speed = cylinderSpeed(0.04 / 60, { count: 2, bore: 0.08 });
    expectRelative(speed, 0.06631455962162305, 1e-12, { of: 'cylinderSpeed', against: 'flow over area (from memory)' });
    expect(tipSpeed(speed, 3, 0.5)).toBeCloseTo(6 * speed, 12);
    expect(cylinderSpeed(0.001, { count: 1, bore: 0.1, rod: 0.05 })).toBeGreaterThan(
      cylinderSpeed(0.001, { count: 1, bore: 0.1 }),
    );
    expect(() => cylinderSpeed(1, { count: 1, bore: 0.05, rod: 0.05 })).toThrow(RangeError);
  });

  // An oil-well control course prints 8.33, 3.33 and 5 gal for 10 gal, precharge 1000, from 1200 to 3000 psi. It takes
  // gauge pressure for absolute: with the atmosphere (14.696 psi) added it is 4.99 gal.
  test('an accumulator, and the slip of gauge for absolute pressure', () => {
    const course = accumulatorVolumes({
      volume: 10 * gallon,
      precharge: 1000 * psi,
      least: 1200 * psi,
      most: 3000 * psi,
    });
    const claim = { of: 'accumulatorVolumes', against: 'oil-well control course' };
    expectPrinted(course.atLeast / gallon, '8.33', claim);
    expectPrinted(course.atMost / gallon, '3.33', claim);
    expectPrinted(course.usable / gallon, '5.00', claim);
    const at = (gauge: number) => absolutePressure(gauge * psi);
    const right = accumulatorVolumes({ volume: 10 * gallon, precharge: at(1000), least: at(1200), most: at(3000) });
    expectRelative(right.usable / gallon, 4.987665632469584, 1e-9, {
      of: 'accumulatorVolumes',
      against: 'the same with absolute pressures (from memory)',
    });
    expect(right.usable).toBeLessThan(course.usable);
    // At low pressure the slip is no longer small: 7 % between 30 and 60 psi.
    const low = (shift: number) =>
      accumulatorVolumes({ volume: 1, precharge: 20 + shift, least: 30 + shift, most: 60 + shift }).usable;
    expect(low(0) / low(14.696) - 1).toBeGreaterThan(0.05);
  });

  // Accumulator makers' sizing notes: p1 at least 1.1 p0, a bladder's p2 at most 4 p0.
  test('precharge ratios', () => {
    const course = { volume: 1, precharge: 1000, least: 1200, most: 3000 };
    const claim = { of: 'prechargeRatios', against: "accumulator makers' sizing notes" };
    expectRelative(prechargeRatios(course).atLeast, 1.2, 1e-14, claim);
    expectRelative(prechargeRatios(course).atMost, 3, 1e-14, claim);
    expect(keepsPrechargeGuides(course)).toBe(true);
    expect(keepsPrechargeGuides({ ...course, least: 1099 })).toBe(false);
    expect(keepsPrechargeGuides({ ...course, most: 4001 })).toBe(false);
    expect(keepsPrechargeGuides({ ...course, least: 1100, most: 4000 })).toBe(true);
    expect(() => prechargeRatios({ ...course, precharge: 0 })).toThrow(RangeError);
  });

  test('quick changes give less fluid than slow ones; pressures out of order are refused', () => {
    const accumulator = { volume: 1, precharge: 50e5, least: 60e5, most: 180e5 };
    expect(accumulatorVolumes(accumulator, 1.4).usable).toBeLessThan(accumulatorVolumes(accumulator).usable);
    expect(() => accumulatorVolumes({ ...accumulator, least: 40e5 })).toThrow(RangeError);
    expect(accumulatorVolumes({ volume: 2, precharge: 50e5, least: 50e5, most: 50e5 })).toEqual({
      atLeast: 2,
      atMost: 2,
      usable: 0,
    });
    expect(() => accumulatorVolumes(accumulator, 0.5)).toThrow(RangeError);
    expectSame(absolutePressure(0), 101325, { of: 'absolutePressure', against: 'ISO 2533:1975 (from memory)' });
    expect(() => absolutePressure(-2e5)).toThrow(RangeError);
  });
});
