// Variants of equal order are proved once, and what differs in order is told apart; quantities in words.

import { describe, expect, it } from 'vitest';
import type { ResolvedProcedure } from '../../src/model/resolved.js';
import { makeProver, proveVariant } from '../../src/order/prove.js';
import { signatureOf } from '../../src/order/signature.js';
import { makeProcedure, makeVariant, makeWorld, type ProcedureNotation } from './build.js';
import { prove, summarize } from './summary.js';

const world = makeWorld({ states: { auto: 'off on', lamp: 'lit out', person: 'cab beside start=cab' } });
const main: ProcedureNotation = {
  values: { v: 'limits at beside' },
  adjusters: { screw: 'v' },
  steps: [
    'read | measure v | outside turn x2 else stop | then done',
    'turn | needs auto=off | adjust screw | then read',
  ],
};

describe('A prover', () => {
  it('proves equal procedures once, whatever their numbers and words', () => {
    const prover = makeProver(world, { budget: 100_000 });
    const first = makeVariant(makeProcedure('main', main));
    const other = makeVariant({ ...makeProcedure('main', main), title: { en: 'Other words' } } as ResolvedProcedure);
    expect(prover(other)).toBe(prover(first));
    expect(summarize(prover(first))).toEqual(summarize(proveVariant(first, world, { budget: 100_000 })));
  });

  it('tells apart what can change a proof', () => {
    const changes: readonly ProcedureNotation[] = [
      { ...main, values: { v: 'low at beside' } },
      { ...main, values: { v: 'limits at cab' } },
      { ...main, values: { v: 'limits band at beside' } },
      { ...main, values: { v: 'limits three-zone at beside' } },
      { ...main, values: { v: 'limits at beside needs lamp=lit' } },
      { ...main, values: { v: 'limits hand at beside' } },
      { ...main, adjusters: { screw: 'v watch v' } },
      { ...main, people: 2 },
      { ...main, requires: 'auto=off' },
      { ...main, requires: 'auto=off throughout' },
      { ...main, leaves: 'auto=off' },
      { ...main, anyOrder: ['read turn'] },
      ...['by 2', 'at beside', 'sets lamp=lit', 'stale v', 'energized', 'hazard crush', 'otherwise stop'].map(
        (part) => {
          return { ...main, steps: [...main.steps, `more | ${part}`] };
        },
      ),
    ];
    const signatures = [main, { ...main, steps: [...main.steps, 'more'] }, ...changes].map((each) =>
      signatureOf(makeVariant(makeProcedure('main', each))),
    );
    expect(new Set(signatures).size).toBe(signatures.length);
  });

  it('looks into what is run', () => {
    const inner = (needs: string): ResolvedProcedure => makeProcedure('inner', { steps: [`work | needs ${needs}`] });
    const outer = (needs: string): string =>
      signatureOf(makeVariant(makeProcedure('main', { steps: ['do | run inner'], runs: [inner(needs)] })));
    expect(outer('auto=off')).not.toBe(outer('auto=on'));
    const ended = (needs: string): string =>
      signatureOf(makeVariant(makeProcedure('main', main), { stop: inner(needs) }));
    expect(ended('auto=off')).not.toBe(ended('auto=on'));
  });
});

describe('A quantity', () => {
  const oil = { states: { oil: 'quantity' } };
  it('is said in the stretches that its limits cut it into', () => {
    const steps = (needs: string): ProcedureNotation => ({ requires: 'oil>=80', steps: [`one | needs ${needs}`] });
    expect(summarize(prove(oil, steps('oil>=100')))).toEqual([
      'need-not-met 1 one: oil is at least 80, wanted at least 100, lost start',
    ]);
    expect(summarize(prove(oil, { requires: 'oil<=80', steps: ['one | needs oil>=80'] }))).toEqual([
      'need-not-met 1 one: oil is at most 80, wanted at least 80, lost start',
    ]);
    expect(summarize(prove(oil, steps('oil>=80')))).toEqual([]);
    const between = prove(oil, { requires: 'oil>=80; oil<=100', steps: ['one | needs oil>=100'] });
    expect(summarize(between)).toEqual([
      'need-not-met 1 one: oil is at least 80 and at most 100, wanted at least 100, lost start',
    ]);
  });
  it('is one value where both ends meet', () => {
    const both = prove(oil, { requires: 'oil>=80; oil<=80', steps: ['one | needs oil>=100'] });
    expect(summarize(both)).toEqual(['need-not-met 1 one: oil is 80, wanted at least 100, lost start']);
  });
  it('is followed by physics like any state', () => {
    const hot = { states: { oil: 'quantity', engine: 'off idle' }, physics: ['engine=idle -> oil>=50'] };
    expect(
      summarize(
        prove(hot, { requires: 'engine=off; oil<=20', steps: ['start | sets engine=idle', 'work | needs oil>=50'] }),
      ),
    ).toEqual([]);
    expect(summarize(prove(hot, { requires: 'engine=idle', steps: ['cool | sets oil<=20'] }))).toEqual([
      'physics-forbids-set 1 cool oil by sets',
    ]);
  });
});

describe('A worksheet', () => {
  it('is read where its instrument is, with what that needs', () => {
    const sheet = makeProcedure('main', { worksheets: { loads: 'none at beside' }, steps: ['weigh | measure loads'] });
    const [first] = sheet.worksheets;
    const needs = makeProcedure('other', { steps: ['x | needs lamp=lit'] }).steps[0]?.needs ?? [];
    const columns = first?.columns.map((column) => ({ ...column, instrument: { ...column.instrument, needs } }));
    const wired = { ...sheet, worksheets: [{ ...first, columns }] } as unknown as ResolvedProcedure;
    const result = proveVariant(makeVariant(wired), world, { budget: 100_000 });
    expect(summarize(result)).toEqual(['instrument-needs 1 weigh loads: lamp is lit|out, wanted lit, lost start']);
    expect(result.violations[0]?.trace[0]?.stands).toEqual(['beside']);
  });
});
