// The ways in which fingers get a number wrong.

import { describe, expect, it } from 'vitest';
import { parseLimits } from '../../src/calc/expression/parse.js';
import { confusedUnits } from '../../src/guard/confused-units.js';
import { numberSlips } from '../../src/guard/number-slips.js';

function slipsOf(text: string, kind: string): readonly string[] {
  return numberSlips(text)
    .filter((slip) => slip.kind === kind)
    .map(({ start, end, after }) => text.slice(0, start) + after + text.slice(end));
}

describe('numberSlips', () => {
  it('changes each digit to those beside it', () => {
    expect(slipsOf('20 in', 'neighbouring-digit')).toEqual(['10 in', '30 in', '29 in']);
  });

  it('exchanges digits, also across the point', () => {
    expect(slipsOf('3.6 V', 'swapped-digits')).toEqual(['6.3 V']);
    expect(slipsOf('11 V', 'swapped-digits')).toEqual([]);
  });

  it('moves the point both ways', () => {
    expect(slipsOf('3.6 V', 'moved-point')).toEqual(['36 V', '0.36 V']);
    expect(slipsOf('20 in', 'moved-point')).toEqual(['200 in', '2.0 in']);
    expect(slipsOf('0.05 in', 'moved-point')).toEqual(['0.5 in', '0.005 in']);
  });

  it('loses and adds a sign, but not behind one', () => {
    expect(slipsOf('-12 to 12 deg', 'sign')).toEqual(['12 to 12 deg', '-12 to -12 deg']);
    expect(slipsOf('0.9 ± 0.2 V', 'sign')).toEqual(['-0.9 ± 0.2 V']);
  });

  it('takes the unit next door, and loses a percent sign', () => {
    expect(slipsOf('20 ft', 'unit-next-door')).toEqual(['20 in', '20 m', '20 yd']);
    expect(slipsOf('at most 3 %', 'unit-next-door')).toEqual(['at most 3']);
  });

  it('exchanges limits', () => {
    expect(slipsOf('3.6 to 4.2 V', 'exchanged-limits')).toEqual(['4.2 to 3.6 V']);
    expect(slipsOf('at least 2.5 V', 'exchanged-limits')).toEqual(['at most 2.5 V']);
    expect(slipsOf('0.9 +0.3/-0.1 V', 'exchanged-limits')).toEqual(['0.9 +0.1/-0.3 V']);
  });

  it('leaves names, and numbers in them, alone', () => {
    expect(numberSlips('header.row2_spacing')).toEqual([]);
  });

  it('knows only units that the compiler reads', () => {
    for (const unit of ['in', 'ft', 'V', 'psi', 'lb', 's', 'mph', 'degF', 'deg', 'ac', 'gal', 'rpm', 'sq ft']) {
      for (const other of confusedUnits(unit)) expect(parseLimits(`1 ${other}`).ok, other).toBe(true);
    }
  });
});
