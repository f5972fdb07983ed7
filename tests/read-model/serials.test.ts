import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareSerials, cutStretch, isInStretch, type Stretch } from '../../src/model/serials.js';

describe('compareSerials', () => {
  it.each([
    ['by number, not by letters', '70-00317', '70-4999', -1],
    ['zeros in front do not count', '70-00300', '70-300', 0],
    ['what joins the runs does not count', '70-00300', '70 00300', 0],
    ['letters by the alphabet', 'A100', 'B002', -1],
    ['without regard to capitals', 'a100', 'A100', 0],
    ['digits before letters', '1A', 'A1', -1],
    ['the beginning of another comes first', '70-003', '70-003A', -1],
    ['numbers beyond what a float holds', '90071992547409930', '90071992547409931', -1],
  ])('%s', (_, a, b, expected) => {
    expect(Math.sign(compareSerials(a, b))).toBe(expected);
    expect(Math.sign(compareSerials(b, a))).toBe(0 - expected);
  });

  it('is an order', () => {
    const serial = fc.stringMatching(/^[A-C]?[0-3]{1,3}(-[0-2]{1,2})?[ab]?$/);
    fc.assert(
      fc.property(serial, serial, serial, (a, b, c) => {
        if (compareSerials(a, b) <= 0 && compareSerials(b, c) <= 0) expect(compareSerials(a, c)).toBeLessThanOrEqual(0);
        expect(Math.sign(compareSerials(a, b))).toBe(0 - Math.sign(compareSerials(b, a)));
      }),
    );
  });
});

const stretch = (from: string, to: string): Stretch => ({
  from: { serial: from, included: true },
  to: { serial: to, included: true },
});

describe('cutStretch', () => {
  it('leaves a written end in the part that names it', () => {
    expect(cutStretch(stretch('100', '499'), { serial: '300', side: 'before' })).toEqual({
      below: { from: { serial: '100', included: true }, to: { serial: '300', included: false } },
      above: { from: { serial: '300', included: true }, to: { serial: '499', included: true } },
    });
  });

  it('has one part where the cut lies at an end or outside', () => {
    expect(cutStretch(stretch('100', '499'), { serial: '100', side: 'before' }).below).toBeUndefined();
    expect(cutStretch(stretch('100', '499'), { serial: '499', side: 'after' }).above).toBeUndefined();
    expect(cutStretch(stretch('100', '499'), { serial: '99', side: 'after' }).below).toBeUndefined();
    expect(cutStretch(stretch('100', '499'), { serial: '500', side: 'before' }).above).toBeUndefined();
  });

  it('cuts an open stretch anywhere', () => {
    expect(cutStretch({}, { serial: '5', side: 'before' })).toEqual({
      below: { to: { serial: '5', included: false } },
      above: { from: { serial: '5', included: true } },
    });
  });

  it('puts every serial into exactly one part', () => {
    const number = fc.integer({ min: 0, max: 30 }).map(String);
    const side = fc.constantFrom('before' as const, 'after' as const);
    fc.assert(
      fc.property(number, number, number, fc.tuple(number, side), (a, b, serial, [at, where]) => {
        const whole = stretch(a, b);
        const { below, above } = cutStretch(whole, { serial: at, side: where });
        const parts = [below, above].filter((part) => part && isInStretch(part, serial)).length;
        if (isInStretch(whole, serial)) expect(parts).toBe(1);
      }),
    );
  });
});
