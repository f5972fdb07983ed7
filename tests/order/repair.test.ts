// Repairs: each was proved, so none is offered that leaves the violation or makes another.

import { describe, expect, it } from 'vitest';
import { proveVariant } from '../../src/order/prove.js';
import type { OrderResult, Repair } from '../../src/order/result.js';
import { makeProcedure, makeVariant, makeWorld, type ProcedureNotation, type WorldNotation } from './build.js';
import { exampleWorld, wrongProcedure } from './example.js';
import { prove } from './summary.js';

const world: WorldNotation = {
  states: {
    engine: 'off idle',
    auto: 'off on',
    header: 'down up moves-when engine=idle',
    person: 'cab beside start=cab',
  },
  rules: ['off: person=beside must engine=off', 'still: person=beside unchanged header'],
};

function repairs({ violations }: OrderResult): readonly string[] {
  return violations.map(({ kind, repair }) => `${kind}: ${repair ? describeRepair(repair) : 'none'}`);
}

function describeRepair(repair: Repair): string {
  if (repair.kind === 'insert-run') return `run ${repair.procedure} before ${repair.before.step}`;
  if (repair.kind === 'move-step') return `move ${repair.step.step} before ${repair.before.step}`;
  if (repair.kind === 'set-place') return `${repair.step.step} at ${repair.place}`;
  if (repair.kind === 'measure') return `measure ${repair.value} in ${repair.step.step}`;
  const sets = repair.sets.map(({ state, values }) => `${state}=${values.join('|')}`).join(', ');
  return `add ${[sets, repair.place && `at ${repair.place}`].filter((part) => part).join(' ')} before ${repair.before.step}`;
}

describe('A repair', () => {
  it('moves a step that sets what is missing', () => {
    const main: ProcedureNotation = { steps: ['read | needs auto=off', 'switch | sets auto=off'] };
    expect(repairs(prove(world, main))).toEqual(['need-not-met: move switch before read']);
  });

  it('cuts off no step and no end: what nobody comes to cannot go wrong', () => {
    const main: ProcedureNotation = { steps: ['read | needs auto=off', 'switch | sets auto=off | then done'] };
    expect(repairs(prove(world, main))).toEqual(['need-not-met: add auto=off before read']);
    const two: ProcedureNotation = {
      steps: [
        'ask | answer yes read | answer no switch',
        'read | needs auto=off | then stop',
        'switch | sets auto=off | then done',
      ],
    };
    expect(repairs(prove(world, two))).toEqual(['need-not-met: none']);
  });

  it('adds a step where none does', () => {
    expect(repairs(prove(world, { steps: ['read | needs auto=off'] }))).toEqual([
      'need-not-met: add auto=off before read',
    ]);
    expect(repairs(prove(world, { requires: 'engine=idle', steps: ['look | at beside'] }))).toEqual([
      'rule-broken: add engine=off before look',
    ]);
    expect(
      repairs(prove(world, { steps: ['read | needs person=beside, engine=off'], requires: 'engine=off' })),
    ).toEqual(['need-not-met: add at beside before read']);
  });

  it('runs a procedure of the book that leaves it so', () => {
    const off = makeProcedure('off', { leaves: 'engine=off', steps: ['stop | sets engine=off'] });
    const main = makeProcedure('main', { requires: 'engine=idle', steps: ['look | at beside'] });
    const result = proveVariant(makeVariant(main), makeWorld(world), { budget: 100_000, procedures: [off] });
    expect(repairs(result)).toEqual(['rule-broken: run off before look']);
  });

  it('sends the person away before something moves', () => {
    const states = { header: 'down up', person: 'cab beside start=cab' };
    const main: ProcedureNotation = { steps: ['look | at beside', 'lower | sets header=down'] };
    expect(repairs(prove({ states, rules: ['still: person=beside unchanged header'] }, main))).toEqual([
      'unchanged-broken: lower at cab',
    ]);
  });

  it('reads a value where its input, or it, is missing', () => {
    const values = { v: 'none', d: 'none from v' };
    expect(repairs(prove(world, { values, steps: ['read | measure d'] }))).toEqual([
      'derived-from-stale: measure v in read',
    ]);
    const steps = ['one | measure v w', 'turn | adjust screw', 'two | measure w'];
    expect(repairs(prove(world, { values: { v: 'none', w: 'none' }, adjusters: { screw: 'v w' }, steps }))).toEqual([
      'value-stale: measure v in two',
    ]);
  });

  it('is not offered where each change makes another fault', () => {
    // the engine would be off where the header has to move, and moving it is what the rule forbids
    const main: ProcedureNotation = {
      requires: 'engine=idle',
      steps: ['look | at beside', 'raise | at beside | sets header=up | needs engine=idle'],
    };
    expect(repairs(prove(world, main))).toContain('rule-broken: none');
    expect(repairs(prove(exampleWorld, wrongProcedure)).filter((each) => each.startsWith('rule-broken'))).toEqual([
      'rule-broken: none',
    ]);
  });

  it('names what else it mends', () => {
    const stop = makeProcedure('stop', { leaves: 'engine=off', steps: ['off | sets engine=off, auto=off'] });
    const steps = ['look | needs engine=off', 'read | needs auto=off'];
    const main = makeProcedure('main', { requires: 'engine=idle, auto=on', steps });
    const { violations } = proveVariant(makeVariant(main), makeWorld(world), { budget: 100_000, procedures: [stop] });
    const told = violations.map(({ place, mends = [] }) => [place?.step, ...mends.map((other) => other.place?.step)]);
    expect(told).toEqual([['look', 'read'], ['read']]);
  });

  it('is left out on request', () => {
    const main = makeVariant(makeProcedure('main', { steps: ['read | needs auto=off'] }));
    expect(repairs(proveVariant(main, makeWorld(world), { budget: 1000, repairs: false }))).toEqual([
      'need-not-met: none',
    ]);
  });
});
