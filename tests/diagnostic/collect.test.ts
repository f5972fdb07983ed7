// All diagnostics of a run as one list.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { collectDiagnostics, withoutFollowUps } from '../../src/diagnostic/collect.js';
import { byPlace, type Diagnostic, diagnose } from '../../src/diagnostic/diagnostic.js';

function one(parts: Partial<Diagnostic> & { place?: readonly [number, number] } = {}): Diagnostic {
  const { place = [0, 1], ...rest } = parts;
  return diagnose({
    code: 'c',
    severity: 'error',
    message: 'm',
    at: { file: 'a', start: place[0], end: place[1] },
    ...rest,
  });
}

describe('collecting', () => {
  it('sorts by file, place, severity, code and message', () => {
    const list = [
      one({ at: { file: 'b', start: 0, end: 0 } }),
      one({ place: [5, 6] }),
      one({ severity: 'hint' }),
      one({ code: 'b' }),
      one({ message: 'a' }),
      one(),
    ];
    expect(collectDiagnostics(list)).toEqual([list[3], list[4], list[5], list[2], list[1], list[0]]);
  });

  it('joins the rigs of the same fault', () => {
    expect(collectDiagnostics([one({ rigs: ['b'] }), one({ rigs: ['a', 'b'] })])).toEqual([one({ rigs: ['a', 'b'] })]);
    expect(collectDiagnostics([one({ rigs: [] }), one({ rigs: [] })])).toEqual([one()]);
  });

  it('shows what other rigs say at the same place as related', () => {
    const [joined, ...more] = collectDiagnostics([
      one({ message: 'is 3 V', rigs: ['tarn-40'] }),
      one({ message: 'is 4 V', rigs: ['tarn-60'] }),
    ]);
    expect(more).toEqual([]);
    expect(joined).toMatchObject({ message: 'is 3 V', rigs: ['tarn-40', 'tarn-60'] });
    expect(joined?.related).toEqual([{ message: 'tarn-60: is 4 V', at: { file: 'a', start: 0, end: 1 } }]);
  });

  it('keeps apart what differs in code, severity, place or, without rigs, in words', () => {
    const list = [
      one(),
      one({ code: 'd' }),
      one({ severity: 'warning' }),
      one({ place: [0, 2] }),
      one({ message: 'n' }),
    ];
    expect(collectDiagnostics(list).length).toBe(5);
  });

  it('does not depend on the order it is given them in', () => {
    const diagnostic = fc
      .record({
        code: fc.constantFrom('c', 'd'),
        message: fc.constantFrom('m', 'n'),
        start: fc.nat(2),
        rigs: fc.subarray(['a', 'b', 'c']),
      })
      .map(({ start, ...rest }) => one({ ...rest, place: [start, start + 1] }));
    fc.assert(
      fc.property(fc.array(diagnostic, { maxLength: 8 }), (list) => {
        const collected = collectDiagnostics(list);
        expect(collectDiagnostics([...list].reverse())).toEqual(collected);
        expect(collectDiagnostics(collected)).toEqual(collected);
        expect([...collected].sort(byPlace)).toEqual(collected);
      }),
    );
  });
});

describe('follow-ups', () => {
  const trap = one({
    place: [10, 12],
    fixes: [{ title: 't', safe: true, edits: [{ at: { file: 'a', start: 4, end: 20 }, text: '' }] }],
  });

  it.each([
    [[4, 20], false],
    [[15, 16], false],
    [[3, 5], true],
    [[20, 21], true],
    [[20, 20], false],
  ] as const)('inside the part that a fix covers are dropped: %j', (place, kept) => {
    expect(withoutFollowUps([trap], [one({ place })]).length).toBe(kept ? 1 : 0);
  });

  it('of a warning or in another file are kept', () => {
    expect(withoutFollowUps([{ ...trap, severity: 'warning' }], [one({ place: [15, 16] })]).length).toBe(1);
    expect(withoutFollowUps([trap], [one({ at: { file: 'b', start: 15, end: 16 } })]).length).toBe(1);
  });
});
