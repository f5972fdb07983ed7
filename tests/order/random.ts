// Random small worlds and procedures, in the notation of build.ts, so that a failing one can be read.

import fc from 'fast-check';
import type { Variant, World } from '../../src/model/resolved.js';
import { makeProcedure, makeVariant, makeWorld, type ProcedureNotation, type WorldNotation } from './build.js';

/** One random case. */
export interface Case {
  readonly world: WorldNotation;
  readonly main: ProcedureNotation;
  readonly callee: ProcedureNotation;
  readonly end: ProcedureNotation;
  readonly endRuns: boolean;
}

/** The case as the proof takes it. */
export function buildCase({ world, main, callee, end, endRuns }: Case): { variant: Variant; world: World } {
  const inner = makeProcedure('inner', callee);
  const safe = makeProcedure('safe', end);
  const procedure = makeProcedure('main', { ...main, runs: [inner] });
  return { variant: makeVariant(procedure, endRuns ? { 'call-service': safe } : {}), world: makeWorld(world) };
}

const values: Readonly<Record<string, readonly string[]>> = {
  a: ['0', '1', '2'],
  b: ['0', '1'],
  c: ['0', '1'],
  person: ['cab', 'beside', 'under'],
};

const state = fc.constantFrom('a', 'b', 'c');

const quantityTest = fc.constantFrom('q>=10', 'q<=10', 'q>=20');

const wordTest = (of: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  of.chain((id) =>
    fc.subarray([...(values[id] ?? [])], { minLength: 1, maxLength: 2 }).map((words) => `${id}=${words.join('|')}`),
  );

const anyState = fc.oneof({ weight: 5, arbitrary: state }, { weight: 2, arbitrary: fc.constant('person') });

const test = fc.oneof({ weight: 8, arbitrary: wordTest(anyState) }, { weight: 1, arbitrary: quantityTest });
const effect = fc.oneof(
  { weight: 6, arbitrary: wordTest(state) },
  { weight: 1, arbitrary: fc.constantFrom('q>=20', 'q=?', 'a=?', 'c=?') },
);

const several = (of: fc.Arbitrary<string>, maxLength: number): fc.Arbitrary<string> =>
  fc
    .uniqueArray(of, { minLength: 1, maxLength, selector: (text) => /^\w+/.exec(text)?.[0] })
    .map((list) => list.join(', '));

const law = fc.tuple(several(test, 2), several(effect, 2)).map(([when, then]) => `${when} -> ${then}`);

const rule = fc
  .record({
    when: several(test, 2),
    must: fc.option(several(test, 2)),
    unchanged: fc.option(fc.subarray(['a', 'b', 'c'], { minLength: 1, maxLength: 2 })),
    energized: fc.boolean(),
  })
  .map(({ when, must, unchanged, energized }) => {
    const parts = [
      must && ` must ${must}`,
      unchanged && ` unchanged ${unchanged.join(' ')}`,
      energized && ' except-energized',
    ];
    return `${when}${parts.filter((part) => part).join('')}`;
  });

const world: fc.Arbitrary<WorldNotation> = fc
  .record({
    restore: fc.subarray(['a', 'b']),
    start: fc.option(fc.constantFrom('0', '1')),
    place: fc.option(fc.constantFrom('cab', 'beside'), { freq: 4 }),
    moves: fc.option(several(test, 1), { freq: 4 }),
    laws: fc.array(law, { maxLength: 2 }),
    rules: fc.array(rule, { maxLength: 2 }),
    must: fc.option(several(test, 1)),
  })
  .map(({ restore, start, place, moves, laws, rules, must }) => ({
    states: {
      a: `0 1 2${restore.includes('a') ? ' restore' : ''}`,
      b: `0 1${start === null ? '' : ` start=${start}`}${restore.includes('b') ? ' restore safe=1' : ''}`,
      c: `0 1${moves === null ? '' : ` moves-when ${moves}`}`,
      person: `cab beside under${place === null ? '' : ` start=${place}`}`,
      q: 'quantity',
    },
    physics: laws,
    rules: rules.map((text, i) => `r${i}: ${text}`),
    ends: must === null ? {} : { 'call-service': must },
  }));

const ids = ['s0', 's1', 's2', 's3', 's4'];

const means = fc
  .option(several(wordTest(state), 1), { freq: 3 })
  .map((text) => (text === null ? '' : ` means ${text}`));

// Forward without a count, back only with one.
const branch = (index: number, length: number): fc.Arbitrary<string> => {
  const ends = ['done', 'stop', 'call-service'];
  const forward = [...ids.slice(index + 1, length), ...ends];
  const ahead = fc.tuple(fc.constantFrom(...forward), means).map(([go, seen]) => `${go}${seen}`);
  const back = fc
    .tuple(fc.constantFrom(...ids.slice(0, length)), fc.integer({ min: 0, max: 2 }), means, fc.constantFrom(...forward))
    .map(([go, count, seen, then]) => `${go} x${count}${seen} else ${then}`);
  return fc.oneof({ weight: 3, arbitrary: ahead }, { weight: 2, arbitrary: back });
};

const part = (index: number, length: number, within: { readonly run: boolean }): fc.Arbitrary<string> => {
  const to = (word: string): fc.Arbitrary<string> => branch(index, length).map((text) => `${word} ${text}`);
  const answers = fc
    .tuple(branch(index, length), branch(index, length))
    .map(([yes, no]) => `answer yes ${yes} | answer no ${no}`);
  const measured = fc.subarray(['v', 'w', 'd', 'sheet'], { minLength: 1, maxLength: 2 });
  return fc.oneof(
    { weight: 4, arbitrary: several(effect, 2).map((text) => `sets ${text}`) },
    { weight: 2, arbitrary: several(test, 2).map((text) => `needs ${text}`) },
    { weight: 2, arbitrary: fc.constantFrom('at cab', 'at beside', 'at under') },
    { weight: 1, arbitrary: fc.constant('by 2') },
    { weight: 3, arbitrary: measured.map((list) => `measure ${list.join(' ')}`) },
    { weight: 1, arbitrary: fc.constant('adjust screw') },
    { weight: 1, arbitrary: fc.constantFrom('stale v', 'stale d') },
    { weight: 2, arbitrary: to('otherwise') },
    { weight: 3, arbitrary: to('outside') },
    { weight: 1, arbitrary: to('low') },
    { weight: 1, arbitrary: fc.constantFrom('high', 'fault', 'unsure').chain(to) },
    { weight: 1, arbitrary: answers },
    { weight: 2, arbitrary: to('then') },
    { weight: 1, arbitrary: fc.constant('energized') },
    { weight: within.run ? 2 : 0, arbitrary: fc.constant('run inner') },
  );
};

// each step has few parts, so that many procedures still come to their end
const step = (index: number, length: number, within: { readonly run: boolean }): fc.Arbitrary<string> =>
  fc
    .uniqueArray(part(index, length, within), { maxLength: 4, selector: (text) => text.split(' ')[0] })
    .map((parts) => [ids[index], ...parts].join(' | '));

const steps = (most: number, within: { readonly run: boolean }): fc.Arbitrary<string[]> =>
  fc
    .integer({ min: 1, max: most })
    .chain((length) => fc.tuple(...Array.from({ length }, (_, i) => step(i, length, within))));

const procedure = (most: number, within: { readonly run: boolean }): fc.Arbitrary<ProcedureNotation> =>
  fc.record({
    requires: fc.array(fc.tuple(test, fc.boolean()), { maxLength: 2 }).map((list) => {
      const once = new Map(
        list.map(([text, throughout]) => [/^\w+/.exec(text)?.[0], `${text}${throughout ? ' throughout' : ''}`]),
      );
      return [...once.values()].join('; ');
    }),
    values: fc.record({
      v: fc.constantFrom(
        'limits',
        'low',
        'none',
        'limits band',
        'limits at beside',
        'high at cab needs b=1',
        'limits three-zone',
      ),
      w: fc.constantFrom('limits', 'high', 'limits at under'),
      d: fc.constantFrom('limits from v w', 'none from v'),
    }),
    adjusters: fc.constantFrom({ screw: 'v' }, { screw: 'v w watch v' }),
    worksheets: fc.constantFrom({ sheet: 'limits' }, { sheet: 'none at beside' }),
    steps: steps(most, within),
    anyOrder: fc.constantFrom<string[]>([], ['s0 s1'], ['s1 s2'], ['s0 s1 s2']),
    leaves: fc.option(several(test, 2), { freq: 1 }).map((text) => text ?? ''),
    people: fc.constantFrom(1, 1, 1, 2),
  });

/** Cases that the reference can explore in little time. */
export const randomCase: fc.Arbitrary<Case> = fc.record({
  world,
  main: procedure(4, { run: true }),
  callee: procedure(2, { run: false }),
  end: procedure(2, { run: false }),
  endRuns: fc.boolean(),
});

const member = (index: number): fc.Arbitrary<string> => {
  const reads = fc
    .tuple(
      fc.constantFrom(`r${index}`, `r${index}`, 'd'),
      fc.constantFrom('call-service', 'call-service means a=1', 'last', 'stop'),
    )
    .map(([id, go]) => `measure ${id} | outside ${go}`);
  const parts = fc.tuple(
    fc.oneof(
      { weight: 3, arbitrary: fc.constant('at beside') },
      { weight: 1, arbitrary: fc.constantFrom('', 'at under', 'by 2') },
    ),
    fc.oneof({ weight: 3, arbitrary: reads }, { weight: 2, arbitrary: fc.constant('') }),
    fc.oneof(
      { weight: 5, arbitrary: fc.constant('') },
      { weight: 2, arbitrary: several(test, 1).map((text) => `needs ${text}`) },
      { weight: 1, arbitrary: several(effect, 1).map((text) => `sets ${text}`) },
      {
        weight: 1,
        arbitrary: fc.constantFrom('energized', 'otherwise last', 'otherwise last means b=0', 'adjust screw'),
      },
    ),
  );
  return parts.map((list) => [`m${index}`, ...list.filter((text) => text !== '')].join(' | '));
};

/** Cases with a group of steps in any order, most of which do little but read: what need not be tried in every order. */
export const groupCase: fc.Arbitrary<Case> = fc
  .record({
    world,
    members: fc.tuple(...[0, 1, 2, 3].map(member)),
    first: fc.constantFrom('first', 'first | sets a=0', 'first | at under', 'first | sets b=1'),
    last: fc.constantFrom(
      'last',
      'last | measure d',
      'last | needs a=1',
      'last | needs person=beside',
      'last | then m1 x1 else done',
    ),
    people: fc.constantFrom(1, 2),
    leaves: fc.option(several(test, 1)).map((text) => text ?? ''),
  })
  .map(({ world: around, members, first, last, people, leaves }) => ({
    world: around,
    main: {
      values: { r0: 'limits', r1: 'limits at beside', r2: 'high', r3: 'limits band', d: 'limits from r0 r1' },
      adjusters: { screw: 'r3' },
      steps: [first, ...members, last],
      anyOrder: ['m0 m1 m2 m3'],
      people,
      leaves,
    },
    callee: { steps: ['inner'] },
    end: { steps: ['end'] },
    endRuns: false,
  }));
