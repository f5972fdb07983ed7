// The gauge: what it draws lies where the numbers say, for any limits.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Limits } from '../../src/calc/limits.js';
import { fromDecimal, type Rational } from '../../src/calc/rational.js';
import { findUnit, toBase, type Unit } from '../../src/calc/unit.js';
import { drawGauge, viewOf } from '../../src/emit/pages/gauge.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { ResolvedValue } from '../../src/model/resolved.js';

const voice = voiceFor('en', 'en');
const volt = findUnit('V') as Unit;
const base = (text: string, unit: Unit): Rational => toBase(fromDecimal(text) as Rational, unit);

function limits(unit: Unit, low?: string, high?: string): Limits {
  return {
    unit,
    resolution: fromDecimal('0.01') as Rational,
    ...(low !== undefined && { low: base(low, unit) }),
    ...(high !== undefined && { high: base(high, unit) }),
  };
}

function value(parts: Partial<ResolvedValue>, unit = volt): ResolvedValue {
  // the gauge reads no more than this of a value
  return { unit, shown: { acceptance: 'the limits' }, label: { en: 'Value' }, ...parts } as ResolvedValue;
}

interface Drawn {
  readonly tolerance: { x: number; width: number };
  readonly ends: readonly number[];
  readonly guards: readonly { x: number; width: number }[];
}

function drawn(of: ResolvedValue): Drawn {
  const svg = drawGauge(of, voice, 'Value')?.html ?? '';
  const boxes = (name: string): { x: number; width: number }[] =>
    [...svg.matchAll(new RegExp(`class="${name}" x="([-\\d.]+)" y="[-\\d.]+" width="([-\\d.]+)"`, 'g'))].map(
      ([, x, width]) => ({ x: Number(x), width: Number(width) }),
    );
  const [tolerance] = boxes('tolerance');
  if (!tolerance) throw new Error(`No block in ${svg}`);
  return {
    tolerance,
    ends: [...svg.matchAll(/class="end" d="M([-\d.]+) /g)].map(([, x]) => Number(x)),
    guards: boxes('guard'),
  };
}

describe('a gauge', () => {
  it('draws nothing for a value without limits', () => {
    expect(drawGauge(value({}), voice, 'Value')).toBeUndefined();
  });

  it('puts the tolerance, the guard ends and the limits in use where they lie in the band', () => {
    const picture = drawn(
      value({
        inside: limits(volt, '0', '5'),
        tolerance: limits(volt, '1', '4'),
        acceptance: limits(volt, '1.5', '3.5'),
      }),
    );
    // the picture is 260 units wide from 10 on, for 5 V: 52 a volt
    expect(picture.tolerance).toEqual({ x: 62, width: 156 });
    expect(picture.ends).toEqual([88, 192]);
    expect(picture.guards).toEqual([
      { x: 62, width: 26 },
      { x: 192, width: 26 },
    ]);
  });

  it('leaves one-sided limits open to the end of the picture', () => {
    const picture = drawn(
      value({ inside: limits(volt, '0', '5'), tolerance: limits(volt, '2.5'), acceptance: limits(volt, '3') }),
    );
    expect(picture.tolerance).toEqual({ x: 140, width: 130 });
    expect(picture.ends).toEqual([166]);
  });

  it('comes closer where the tolerance would vanish in the band', () => {
    const close = limits(volt, '2.00', '2.02');
    const view = viewOf(value({ inside: limits(volt, '0', '1000'), tolerance: close }), close);
    expect(view).toMatchObject({ cutFrom: true, cutTo: true });
    expect(view.to - view.from).toBeLessThan(0.1);
  });

  it('labels each end with the digits of its resolution', () => {
    const svg = drawGauge(value({ tolerance: limits(volt, '3.6', '4.2') }), voice, 'Value')?.html ?? '';
    expect([...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text]) => text)).toEqual(['3.60', '4.20']);
  });

  it('draws temperatures and angles in the unit they are read in', () => {
    const fahrenheit = findUnit('degF') as Unit;
    const picture = drawn(
      value({ inside: limits(fahrenheit, '0', '200'), tolerance: limits(fahrenheit, '100', '150') }, fahrenheit),
    );
    expect(picture.tolerance).toEqual({ x: 140, width: 65 });
  });

  it('keeps everything inside the picture and in order, for any limits', () => {
    const number = fc.integer({ min: -99_999, max: 99_999 }).map((n) => (n / 100).toFixed(2));
    fc.assert(
      fc.property(
        fc.uniqueArray(number, { minLength: 6, maxLength: 6, comparator: (a, b) => Number(a) === Number(b) }),
        fc.boolean(),
        (numbers, banded) => {
          const [a = '', b = '', c = '', d = '', e = '', f = ''] = [...numbers].sort((x, y) => Number(x) - Number(y));
          const picture = drawn(
            value({
              tolerance: limits(volt, b, e),
              acceptance: limits(volt, c, d),
              ...(banded && { inside: limits(volt, a, f) }),
            }),
          );
          const right = picture.tolerance.x + picture.tolerance.width;
          for (const x of [picture.tolerance.x, right, ...picture.ends]) {
            expect(x).toBeGreaterThanOrEqual(10);
            expect(x).toBeLessThanOrEqual(272.1);
          }
          const [low = 0, high = 0] = picture.ends;
          expect(picture.tolerance.x - 0.11).toBeLessThanOrEqual(low);
          expect(low).toBeLessThanOrEqual(high);
          expect(high).toBeLessThanOrEqual(right + 0.11);
        },
      ),
    );
  });
});
