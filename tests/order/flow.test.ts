// Ways through a procedure: what it runs, any order, counted loops, several people, and the shortest path to a fault.

import { describe, expect, it } from 'vitest';
import { makeProcedure, makeVariant, makeWorld, type ProcedureNotation, type WorldNotation } from './build.js';
import { pathOf, prove, proveFully, summarize } from './summary.js';

const world: WorldNotation = {
  states: { engine: 'off idle', auto: 'off on', key: 'in out', lamp: 'lit out', person: 'cab beside start=cab' },
  rules: ['off: person=beside must engine=off hazard crush'],
};

/** Proves a procedure that may run others. */
function proveWith(
  others: Readonly<Record<string, ProcedureNotation>>,
  main: ProcedureNotation,
  other = world,
): ReturnType<typeof proveFully> {
  const runs = Object.entries(others).map(([id, each]) => makeProcedure(id, each));
  return proveFully(makeVariant(makeProcedure('main', { ...main, runs })), makeWorld(other));
}

describe('A procedure that is run', () => {
  it('proves its requirements at the call', () => {
    const inner = { inner: { requires: 'auto=off', steps: ['work'] } };
    expect(summarize(proveWith(inner, { steps: ['do | run inner'] }))).toEqual([
      'requires-not-met-at-run 1 do inner: auto is off|on, wanted off, lost start',
    ]);
    expect(summarize(proveWith(inner, { steps: ['switch | sets auto=off', 'do | run inner'] }))).toEqual([]);
  });

  it('proves the place of whoever runs it', () => {
    const inner = { inner: { steps: ['work'] } };
    const main = (place: string): ProcedureNotation => ({
      requires: 'engine=off',
      steps: [`do | at ${place} | run inner`],
    });
    expect(summarize(proveWith(inner, main('beside')))).toEqual([
      'place-not-met-at-run 1 do inner: person is beside, wanted cab, lost do moved',
    ]);
    expect(summarize(proveWith(inner, main('cab')))).toEqual([]);
    expect(summarize(proveWith({ inner: { requires: 'person=beside', steps: ['work'] } }, main('beside')))).toEqual([]);
    expect(summarize(proveWith({ inner: { requires: 'person=beside', steps: ['work'] } }, main('cab')))).toEqual([
      'requires-not-met-at-run 1 do inner: person is cab, wanted beside, lost do moved',
    ]);
  });

  it('is followed inside, with its own numbers, and leaves what it sets', () => {
    const inner = { inner: { steps: ['one', 'two | sets auto=on'] } };
    const result = proveWith(inner, {
      requires: 'auto=off',
      steps: ['first', 'do | run inner', 'third | needs auto=off'],
    });
    expect(summarize(result)).toEqual(['need-not-met 3 third: auto is on, wanted off, lost two sets']);
    expect(result.violations.map(pathOf)).toEqual(['1 2(run) 2.1 2.2 3']);
    expect(result.facts.map(({ place }) => place.number)).toEqual(['1', '2', '3', '2.1', '2.2']);
    expect(result.facts.at(-1)?.place).toMatchObject({ procedure: 'inner', step: 'two', calls: ['do'] });
  });

  it('ends both with another end, which is judged where the outermost one ends', () => {
    const inner = { inner: { leaves: 'lamp=lit', steps: ['ask | answer yes done | answer no stop'] } };
    const result = proveWith(inner, { leavesAt: { stop: 'auto=off' }, steps: ['do | run inner'] });
    expect(summarize(result)).toEqual(['leaves-not-met 1.1 ask at stop: auto is off|on, wanted off, lost start']);
    expect([...result.ends].sort()).toEqual(['done', 'stop']);
  });

  it('has readings of its own, absent at each call', () => {
    const inner = { inner: { values: { v: 'none', d: 'none from v' }, steps: ['read | measure d'] } };
    const main: ProcedureNotation = { values: { v: 'none' }, steps: ['own | measure v', 'do | run inner'] };
    expect(summarize(proveWith(inner, main))).toEqual([
      'derived-from-stale 2.1 read d v: v is absent, wanted fresh, lost start',
    ]);
    const twice = {
      inner: {
        values: { v: 'none', d: 'none from v' },
        steps: [
          'which | answer first read | answer later derive',
          'read | measure v | then done',
          'derive | measure d',
        ],
      },
    };
    expect(proveWith(twice, { steps: ['do | run inner', 'again | run inner'] }).violations.map(pathOf)).toEqual(
      ['1(run) 1.1(answer later) 1.3', '1(run) 1.1(answer first) 1.2(then) 1 2(run) 2.1(answer later) 2.3'].map(
        (path) => path.replace('1.2(then) 1 2', '1.2(then) 2'),
      ),
    );
  });

  it('has counts of its own, fresh at each call', () => {
    const inner = { inner: { steps: ['one', 'two | then one x1 else three', 'three | needs auto=off'] } };
    const result = proveWith(inner, { steps: ['do | run inner', 'again | run inner'] });
    expect(result.violations.map(pathOf)).toEqual(['1(run) 1.1 1.2(then) 1.1 1.2(then else) 1.3']);
  });

  it('is done by whoever runs it', () => {
    const inner = { inner: { requires: 'person=beside', steps: ['look', 'go | at cab'] } };
    const main: ProcedureNotation = {
      people: 2,
      requires: 'engine=off',
      steps: [
        'out | by 2 | at beside',
        'do | by 2 | run inner',
        'start | sets engine=idle',
        'see | by 2 | needs person=cab',
      ],
    };
    expect(summarize(proveWith(inner, main))).toEqual([]);
    expect(summarize(proveWith({ inner: { requires: 'person=beside', steps: ['look'] } }, main))).toEqual([
      'rule-broken 3 start off: engine is idle, wanted off, lost start sets',
      'need-not-met 4 see: person 2 is beside, wanted cab, lost out moved',
    ]);
  });

  it('is told to run itself', () => {
    const inner = makeProcedure('inner', { steps: ['work'] });
    const loop = { ...inner.steps[0], id: 'again', run: inner } as (typeof inner.steps)[number];
    (inner.steps as (typeof loop)[]).push(loop);
    const result = proveFully(makeVariant(inner), makeWorld(world));
    expect(summarize(result)).toEqual(['run-cycle 1 again inner inner inner']);
  });
});

describe('What an end runs', () => {
  const ask: ProcedureNotation = {
    requires: 'engine=off',
    steps: ['look | at beside | answer yes done | answer no stop'],
  };
  it('may begin anywhere if it moves the person first', () => {
    const main = (step: string): ProcedureNotation => ({ steps: [step, 'call'] });
    expect(summarize(prove(world, ask, { stop: main('go | at cab') }))).toEqual([]);
    expect(summarize(prove(world, ask, { stop: main('call-first') }))).toEqual([
      'place-not-met-at-run 1 look stop-run: person is beside, wanted cab, lost look moved',
    ]);
  });
  it('is proved like any step', () => {
    const result = prove(world, ask, {
      stop: { steps: ['go | at cab', 'start | sets engine=idle', 'back | at beside'] },
    });
    expect(summarize(result)).toEqual(['rule-broken 3 back off: engine is idle, wanted off, lost start sets']);
    expect(result.violations[0]?.place).toMatchObject({ end: 'stop', number: '3' });
    expect(result.violations.map(pathOf)).toEqual(['1(answer no) stop 1 stop 2 stop 3']);
  });
});

describe('Steps in any order', () => {
  it('are proved in every order', () => {
    const steps = ['first', 'one | sets auto=on', 'two | needs auto=off', 'last'];
    const free: ProcedureNotation = { requires: 'auto=off', steps: steps.map((step) => step), anyOrder: ['one two'] };
    expect(prove(world, free).violations.map(pathOf)).toEqual(['1 2 3']);
    const turned = { ...free, steps: ['first', 'two | needs auto=off', 'one | sets auto=on', 'last'] };
    expect(prove(world, turned).violations.map(pathOf)).toEqual(['1 3 2']);
    expect(summarize(prove(world, { ...turned, anyOrder: [] }))).toEqual([]);
  });
  it('are all done before the next', () => {
    const steps = [
      'one | sets auto=off',
      'two | sets key=in',
      'three | sets lamp=lit',
      'last | needs auto=off, key=in, lamp=lit',
    ];
    expect(summarize(prove(world, { steps, anyOrder: ['one two three'] }))).toEqual([]);
  });
  it('go on with the rest after a way out and back', () => {
    const values = { v: 'limits', w: 'limits' };
    const steps = [
      'left | measure v | outside mend-left',
      'right | measure w | outside stop',
      'last | then done',
      'mend-left | sets auto=on | then left x2 else stop',
    ];
    const result = prove(
      { ...world, rules: [] },
      { values, steps, anyOrder: ['left right'], leaves: 'auto=off', requires: 'auto=off' },
    );
    const [left] = result.violations.filter(({ kind }) => kind === 'leaves-not-met');
    expect(left && pathOf(left)).toBe('1(outside) 4(then) 1 2 3(then)');
  });
  it('may begin a procedure', () => {
    expect(
      prove(world, { steps: ['one', 'two | needs auto=off'], anyOrder: ['one two'] }).violations.map(pathOf),
    ).toEqual(['2']);
  });
});

describe('Counted loops', () => {
  it('are followed as often as they may be', () => {
    const loop = (count: number): ProcedureNotation => ({
      requires: 'auto=off',
      steps: [`one | then one x${count} else two`, 'two | needs auto=on'],
    });
    for (const count of [0, 1, 3, 7]) {
      expect(prove(world, loop(count)).violations.map(({ trace }) => trace.length)).toEqual([count + 2]);
    }
  });
  it('are not left before the count is used up', () => {
    // the second turn must be taken before the step behind the loop
    const turns: WorldNotation = { states: { n: '0 1 2' } };
    const counted = (needed: string): ProcedureNotation => ({
      requires: 'n=0',
      steps: [
        'turn | sets n=1 | then twice',
        'twice | then thrice x1 else last',
        'thrice | sets n=2 | then twice x1 else last',
        `last | needs ${needed}`,
      ],
    });
    expect(summarize(prove(turns, counted('n=2')))).toEqual([]);
    expect(summarize(prove(turns, counted('n=1')))).toEqual([
      'need-not-met 4 last: n is 2, wanted 1, lost thrice sets',
    ]);
  });
  it('with an else that is counted too', () => {
    const steps = [
      'one | answer more one x2 else two x1 else three | answer enough done',
      'two | then one',
      'three | needs auto=off',
    ];
    const [violation] = prove(world, { steps }).violations.filter(({ kind }) => kind === 'need-not-met');
    expect(violation && pathOf(violation)).toBe(
      '1(answer more) 1(answer more) 1(answer more else) 2(then) 1(answer more else) 3',
    );
    expect(violation?.trace[4]?.taken?.elses).toBe(2);
  });
});

describe('Several people', () => {
  it('each have a place', () => {
    const steps = ['out | by 2 | at beside', 'start | sets engine=idle'];
    const main: ProcedureNotation = { people: 2, requires: 'engine=off', steps };
    expect(summarize(prove(world, main))).toEqual([
      'rule-broken 2 start off: engine is idle, wanted off, lost start sets',
    ]);
    expect(prove(world, main).violations[0]?.triggeredBy).toEqual([{ state: 'person', person: 2, values: ['beside'] }]);
    expect(
      summarize(prove(world, { ...main, steps: [steps[0] ?? '', 'back | by 2 | at cab', steps[1] ?? ''] })),
    ).toEqual([]);
  });
  it('are asked by what `by` says', () => {
    const main: ProcedureNotation = {
      people: 2,
      requires: 'engine=off',
      steps: ['out | by 2 | at beside', 'one | needs person=cab', 'two | by 2 | needs person=cab'],
    };
    expect(summarize(prove(world, main))).toEqual([
      'need-not-met 3 two: person 2 is beside, wanted cab, lost out moved',
    ]);
  });
});

describe('The shortest path', () => {
  it('is shown, and the step that took the fact away last', () => {
    const steps = ['long | answer a b | answer c d', 'b', 'c', 'd | sets auto=on', 'e | needs auto=off'];
    const [violation] = prove(world, { requires: 'auto=off', steps }).violations;
    expect(violation && pathOf(violation)).toBe('1(answer c) 4 5');
    expect(violation?.missing[0]?.lost).toMatchObject({ kind: 'step', entry: 1, how: 'sets' });
  });
});

describe('A bound that is met', () => {
  it('leaves it not proved, and keeps what was found', () => {
    const main = makeProcedure('main', { steps: ['one | needs auto=off', 'two', 'three'] });
    const bounded = (budget: number): ReturnType<typeof proveFully> => proveVariantWithin(main, budget);
    expect(bounded(3).complete).toBe(false);
    expect(bounded(100_000).complete).toBe(true);
    expect(summarize(bounded(100_000))).toEqual(['need-not-met 1 one: auto is off|on, wanted off, lost start']);
  });
});

function proveVariantWithin(main: ReturnType<typeof makeProcedure>, budget: number): ReturnType<typeof proveFully> {
  return proveFully(makeVariant(main), makeWorld(world), budget);
}
