// Each kind of violation, at least twice where it must show, and once where the same procedure with one thing mended has none.

import { describe, expect, it } from 'vitest';
import type { ProcedureNotation, WorldNotation } from './build.js';
import { prove, summarize } from './summary.js';

const world: WorldNotation = {
  states: {
    engine: 'off idle',
    motion: 'running coasting stopped',
    header: 'down up on-stop moves-when engine=idle',
    stop: 'stowed placed start=stowed restore safe=placed',
    auto: 'off on',
    lamp: 'lit out',
    oil: 'quantity',
    person: 'cab beside under start=cab',
  },
  physics: [
    'stop=stowed -> header=down|up',
    'engine=off -> motion=coasting|stopped, oil=?',
    'engine=idle -> motion=running',
  ],
  rules: [
    'under: person=under must engine=off, motion=stopped, header=on-stop hazard crush',
    'still: person=beside|under unchanged header engine hazard crush',
    'live: person=beside must engine=off except-energized',
  ],
  ends: { 'call-service': 'engine=off', stop: 'engine=off' },
};

const off = 'engine=off; motion=stopped';

/** What a procedure is told, and that nothing is told once it is mended. */
function check(wrong: ProcedureNotation, expected: readonly string[], mended?: ProcedureNotation, other = world): void {
  expect(summarize(prove(other, wrong))).toEqual(expected);
  if (mended) expect(summarize(prove(other, mended))).toEqual([]);
}

describe('need-not-met', () => {
  it('is told of a state that nothing has said', () => {
    check({ steps: ['read | needs auto=off'] }, ['need-not-met 1 read: auto is off|on, wanted off, lost start'], {
      requires: 'auto=off',
      steps: ['read | needs auto=off'],
    });
  });
  it('is told of what an earlier step took away', () => {
    check(
      { requires: 'auto=off', steps: ['switch | sets auto=on', 'read | needs auto=off'] },
      ['need-not-met 2 read: auto is on, wanted off, lost switch sets'],
      { requires: 'auto=off', steps: ['switch | sets auto=on', 'back | sets auto=off', 'read | needs auto=off'] },
    );
  });
  it('is told of what physics made unknown', () => {
    check(
      { requires: 'engine=idle; oil>=100', steps: ['stop | sets engine=off', 'read | needs oil>=100'] },
      ['need-not-met 2 read: oil is anything, wanted at least 100, lost stop physics'],
      { requires: 'engine=idle; oil>=120', steps: ['read | needs oil>=100', 'stop | sets engine=off'] },
    );
  });
  it('is told of what a failed step leaves unknown, unless it says what is seen', () => {
    check(
      { requires: 'auto=on', steps: ['switch | sets auto=off | otherwise read', 'read | needs auto=off'] },
      ['need-not-met 2 read: auto is off|on, wanted off, lost switch failed'],
      {
        requires: 'auto=on',
        steps: ['switch | sets auto=off | otherwise read means auto=off', 'read | needs auto=off'],
      },
    );
  });
  it('is told once for a fact that several steps want', () => {
    check(
      {
        steps: [
          'one | needs auto=off',
          'two | needs auto=off',
          'three | sets auto=off',
          'four | sets auto=on',
          'five | needs auto=off',
        ],
      },
      [
        'need-not-met 1 one: auto is off|on, wanted off, lost start',
        'need-not-met 5 five: auto is on, wanted off, lost four sets',
      ],
    );
  });
  it('asks where the person was before the step moves them', () => {
    check(
      { requires: off, steps: ['go | at beside', 'read | at cab | needs person=cab'] },
      ['need-not-met 2 read: person is beside, wanted cab, lost go moved'],
      { requires: off, steps: ['go | at beside', 'back | at cab', 'read | needs person=cab'] },
    );
  });
});

describe('moves-when', () => {
  it('is an implied need of each step that sets the state', () => {
    check(
      { requires: 'engine=off', steps: ['raise | sets header=up'] },
      ['moves-when 1 raise header: engine is off, wanted idle, lost start'],
      {
        requires: 'engine=idle',
        steps: ['raise | sets header=up'],
      },
    );
  });
  it('asks for where the person is when the step has brought them there', () => {
    const moved = { states: { stop: 'stowed placed moves-when person=beside', person: 'cab beside start=cab' } };
    check(
      { steps: ['place | sets stop=placed'] },
      ['moves-when 1 place stop: person is cab, wanted beside, lost start'],
      { steps: ['place | at beside | sets stop=placed'] },
      moved,
    );
  });
});

describe('rule-broken', () => {
  it('is told on entering a place', () => {
    check(
      { requires: 'engine=idle', steps: ['look | at beside'] },
      ['rule-broken 1 look live: engine is idle, wanted off, lost start'],
      { requires: 'engine=idle', steps: ['stop | sets engine=off', 'look | at beside'] },
    );
  });
  it('is told of an act that breaks it where somebody stands', () => {
    const gate = {
      states: { gate: 'shut open', person: 'cab beside start=cab' },
      rules: ['shut: person=beside must gate=shut'],
    };
    check(
      { requires: 'gate=shut', steps: ['go | at beside', 'pull | sets gate=open'] },
      ['rule-broken 2 pull shut: gate is open, wanted shut, lost pull sets'],
      { requires: 'gate=shut', steps: ['go | at beside', 'back | at cab', 'pull | sets gate=open'] },
      gate,
    );
  });
  it('is told of an act that may have failed', () => {
    const gate = {
      states: { gate: 'shut open', person: 'cab beside start=cab' },
      rules: ['shut: person=beside must gate=shut'],
    };
    check(
      { requires: 'gate=shut', steps: ['go | at beside', 'push | sets gate=shut | otherwise stop'] },
      ['rule-broken 2 push shut: gate is shut|open, wanted shut, lost push failed'],
      { requires: 'gate=shut', steps: ['go | at beside', 'push | sets gate=shut | otherwise stop means gate=shut'] },
      gate,
    );
  });
  it('tells all that is missing at a step as one, and the rule once while the person stays', () => {
    check({ requires: 'engine=idle; header=up', steps: ['crawl | at under', 'work', 'more'] }, [
      'rule-broken 1 crawl under: engine is idle, wanted off, lost start; motion is running, wanted stopped, lost start; header is up, wanted on-stop, lost start',
    ]);
  });
  it('holds at an end, where a branch says what is seen', () => {
    const gate = {
      states: { gate: 'shut open', person: 'cab beside start=cab' },
      rules: ['shut: person=beside must gate=shut'],
    };
    check(
      { requires: 'gate=shut', steps: ['look | at beside | answer yes done | answer no stop means gate=open'] },
      ['rule-broken 1 look at stop shut: gate is open, wanted shut, lost look means'],
      { requires: 'gate=shut', steps: ['look | at beside | answer yes done | answer no stop'] },
      gate,
    );
  });
  it('is not told where nobody can be', () => {
    check({ requires: 'engine=idle', steps: ['look | at cab'] }, []);
  });
  it('is suspended for an energized step alone, and only where the rule allows it', () => {
    check({ requires: 'engine=idle', steps: ['look | at beside | energized', 'again'] }, [
      'rule-broken 2 again live: engine is idle, wanted off, lost start',
    ]);
    check({ requires: 'engine=idle; header=up', steps: ['crawl | at under | energized', 'back | at cab'] }, [
      'rule-broken 1 crawl under: engine is idle, wanted off, lost start; motion is running, wanted stopped, lost start; header is up, wanted on-stop, lost start',
    ]);
  });
  it('asks of every person', () => {
    check(
      {
        people: 2,
        requires: 'engine=off; motion=stopped',
        steps: ['out | by 2 | at beside', 'start | at cab', 'go | by 2 | at cab'],
      },
      [],
    );
    check({ people: 2, requires: 'engine=idle', steps: ['out | by 2 | at beside'] }, [
      'rule-broken 1 out live: engine is idle, wanted off, lost start',
    ]);
  });
});

describe('unchanged-broken', () => {
  it('is told of a step that sets it, same value or not', () => {
    check({ requires: `${off}; header=down`, steps: ['go | at beside', 'stop | sets engine=off'] }, [
      'unchanged-broken 2 stop still engine by sets',
    ]);
    check(
      { people: 2, requires: off, steps: ['go | by 2 | at beside', 'stop | sets engine=off', 'back | by 2 | at cab'] },
      ['unchanged-broken 2 stop still engine by sets'],
    );
  });
  it('is told of physics that changes it', () => {
    const falling: WorldNotation = {
      states: { valve: 'shut open', header: 'down up', person: 'cab beside start=cab' },
      physics: ['valve=open -> header=down'],
      rules: ['still: person=beside unchanged header'],
    };
    check(
      { requires: 'header=up', steps: ['go | at beside', 'open | sets valve=open'] },
      ['unchanged-broken 2 open still header by physics'],
      { requires: 'header=down', steps: ['go | at beside', 'open | sets valve=open'] },
      falling,
    );
    check(
      { requires: 'valve=shut', steps: ['go | at beside', 'open | sets valve=open | then done'] },
      ['unchanged-broken 2 open still header by physics'],
      undefined,
      falling,
    );
  });
  it('is told where a watched display brings the person near only while turning', () => {
    const near: WorldNotation = {
      states: { header: 'down up', person: 'cab beside start=cab' },
      rules: ['still: person=beside unchanged header'],
    };
    const steps = [
      'read | measure v | outside stop',
      'turn | at cab | adjust screw | sets header=down',
      'again | at cab | measure v | outside stop',
    ];
    check(
      { values: { v: 'limits hand at beside' }, adjusters: { screw: 'v watch v' }, steps },
      ['unchanged-broken 2 turn still header by sets'],
      undefined,
      near,
    );
  });
  it('ends when the person leaves', () => {
    check(
      {
        requires: off,
        steps: [
          'go | at beside',
          'back | at cab',
          'start | sets engine=idle',
          'raise | sets header=up',
          'stop | sets engine=off',
        ],
      },
      [],
    );
  });
});

describe('throughout-broken', () => {
  it('is told of the step that loses it', () => {
    check(
      { requires: 'auto=off throughout', steps: ['one', 'switch | sets auto=on', 'back | sets auto=off'] },
      ['throughout-broken 2 switch: auto is on, wanted off, lost switch sets'],
      { requires: 'auto=off', steps: ['one', 'switch | sets auto=on', 'back | sets auto=off'] },
    );
  });
  it('is told of a failed act, but not where the procedure ends with it', () => {
    check({ requires: 'auto=off throughout', steps: ['switch | sets auto=off | otherwise next', 'next'] }, [
      'throughout-broken 1 switch: auto is off|on, wanted off, lost switch failed',
    ]);
    check(
      {
        requires: 'engine=off; auto=off throughout',
        steps: ['switch | sets auto=off | otherwise call-service', 'next'],
      },
      [],
    );
  });
  it('holds where a branch that leads to `done` says what is seen', () => {
    check(
      { requires: 'auto=off throughout', steps: ['ask | answer yes done means auto=on | answer no done'] },
      ['throughout-broken 1 ask at done: auto is on, wanted off, lost ask means'],
      {
        requires: 'engine=off; auto=off throughout',
        steps: ['ask | answer yes call-service means auto=on | answer no done'],
      },
    );
  });
  it('holds in what is run, and not in what an end runs', () => {
    const ends = { 'call-service': { steps: ['switch | sets auto=on', 'stop | sets engine=off'] } };
    expect(
      summarize(
        prove(
          world,
          { requires: 'auto=off throughout', steps: ['ask | answer yes done | answer no call-service'] },
          ends,
        ),
      ),
    ).toEqual([]);
  });
});

describe('physics-forbids-set', () => {
  it('is told of a set that a law undoes', () => {
    check(
      { requires: 'engine=idle', steps: ['rest | sets header=on-stop'] },
      ['physics-forbids-set 1 rest header by sets'],
      {
        requires: 'engine=idle; header=up',
        steps: [
          'place | sets stop=placed',
          'rest | sets header=on-stop',
          'lift | sets header=up',
          'stow | sets stop=stowed',
        ],
      },
    );
  });
  it('is told where it may be so', () => {
    const unsure = { ...world, states: { ...world.states, stop: 'stowed placed' } };
    check(
      { requires: 'engine=idle', steps: ['rest | sets header=on-stop'] },
      ['physics-forbids-set 1 rest header by sets'],
      undefined,
      unsure,
    );
  });
  it('is told of what is said to be seen', () => {
    check({ requires: 'engine=idle', steps: ['look | answer yes done means header=on-stop | answer no done'] }, [
      'physics-forbids-set 1 look header by means',
    ]);
  });
  it('drops no path for it', () => {
    check({ requires: 'engine=idle', steps: ['rest | sets header=on-stop', 'work | needs header=on-stop'] }, [
      'physics-forbids-set 1 rest header by sets',
      'need-not-met 2 work: header is down|up, wanted on-stop, lost rest physics',
    ]);
  });
});

describe('physics-conflict', () => {
  it('is told of laws that never come to rest', () => {
    const torn: WorldNotation = { states: { a: 'on off', b: '0 1' }, physics: ['a=on -> b=0', 'a=on -> b=1'] };
    check(
      { requires: 'a=off', steps: ['switch | sets a=on'] },
      ['physics-conflict 1 switch b by physics'],
      { requires: 'a=off', steps: ['wait'] },
      torn,
    );
    const turning: WorldNotation = {
      states: { a: '0 1', b: 'go halt' },
      physics: ['b=go, a=0 -> a=1', 'b=go, a=1 -> a=0'],
    };
    check(
      { requires: 'b=halt', steps: ['first', 'let | sets b=go'] },
      ['physics-conflict 2 let a by physics'],
      undefined,
      turning,
    );
  });
});

describe('leaves-not-met', () => {
  it('is proved on every way to done', () => {
    check(
      { leaves: 'auto=off', steps: ['ask | answer yes off | answer no done', 'off | sets auto=off'] },
      ['leaves-not-met 1 ask at done: auto is off|on, wanted off, lost start'],
      { leaves: 'auto=off', steps: ['ask | answer yes off | answer no off', 'off | sets auto=off'] },
    );
  });
  it('may be said of another end', () => {
    check(
      { requires: 'engine=off', leavesAt: { stop: 'lamp=lit' }, steps: ['ask | answer yes done | answer no stop'] },
      ['leaves-not-met 1 ask at stop: lamp is lit|out, wanted lit, lost start'],
      {
        requires: 'engine=off; lamp=lit',
        leavesAt: { stop: 'lamp=lit' },
        steps: ['ask | answer yes done | answer no stop'],
      },
    );
  });
});

describe('not-restored', () => {
  it('wants it as it was at done', () => {
    check(
      { requires: off, steps: ['place | sets stop=placed'] },
      ['not-restored 1 place at done: stop is placed, wanted as it was at the start, lost place sets'],
      { requires: off, leaves: 'stop=placed', steps: ['place | sets stop=placed'] },
    );
  });
  it('takes its safe value at other ends', () => {
    check({ requires: off, steps: ['place | sets stop=placed | then call-service'] }, []);
    const unsafe = { ...world, states: { ...world.states, stop: 'stowed placed start=stowed restore' } };
    check(
      { requires: off, steps: ['place | sets stop=placed | then call-service'] },
      ['not-restored 1 place at call-service: stop is placed, wanted as it was at the start, lost place sets'],
      undefined,
      unsafe,
    );
  });
  it('remembers what it was where nobody knows', () => {
    const guards: WorldNotation = { states: { guard: 'shut open off restore' } };
    check({ steps: ['wait'] }, [], undefined, guards);
    check(
      { steps: ['open | sets guard=open'] },
      ['not-restored 1 open at done: guard is open, wanted as it was at the start, lost open sets'],
      undefined,
      guards,
    );
    check(
      { requires: 'guard=shut|off', steps: ['open | sets guard=open', 'shut | sets guard=shut'] },
      ['not-restored 2 shut at done: guard is shut, wanted as it was at the start, lost open sets'],
      { requires: 'guard=shut', steps: ['open | sets guard=open', 'shut | sets guard=shut'] },
      guards,
    );
  });
});

describe('end-must-not-met', () => {
  it('is proved at the end after what it runs', () => {
    const main: ProcedureNotation = {
      requires: 'engine=idle',
      steps: ['ask | answer yes done | answer no call-service'],
    };
    check(main, ['end-must-not-met 1 ask at call-service: engine is idle, wanted off, lost start']);
    expect(summarize(prove(world, main, { 'call-service': { steps: ['stop | sets engine=off'] } }))).toEqual([]);
    expect(summarize(prove(world, main, { 'call-service': { steps: ['look'] } }))).toEqual([
      'end-must-not-met 1 ask at call-service: engine is idle, wanted off, lost start',
    ]);
  });
  it('is asked of an end that the procedure which is run reaches', () => {
    check({ requires: 'engine=idle', steps: ['one', 'two | otherwise stop'] }, [
      'end-must-not-met 2 two at stop: engine is idle, wanted off, lost start',
    ]);
  });
});

describe('value-not-passed-at-done', () => {
  it('is told of a failing reading that leads on', () => {
    check(
      { values: { v: 'limits' }, steps: ['read | measure v | outside next', 'next'] },
      ['value-not-passed-at-done 2 next at done v: v is failed, wanted passed, lost read reading'],
      { requires: 'engine=off', values: { v: 'limits' }, steps: ['read | measure v | outside call-service', 'next'] },
    );
  });
  it('asks of each value that is read', () => {
    const values = { v: 'limits', w: 'limits' };
    const steps = [
      'both | measure v w | outside mend',
      'on | then done',
      'mend',
      'again | measure v | outside stop | then done',
    ];
    check(
      { requires: 'engine=off', values, steps },
      ['value-not-passed-at-done 4 again at done w: w is passed|failed, wanted passed, lost both reading'],
      {
        requires: 'engine=off',
        values,
        steps: steps.map((step) => step.replace('again | measure v', 'again | measure v w')),
      },
    );
  });
  it('asks nothing of a value without limits, or of one that is never read', () => {
    check({ values: { v: 'none', w: 'limits' }, steps: ['read | measure v'] }, []);
  });
});

describe('value-stale', () => {
  const read = 'read | measure v | outside turn';
  it('is told of a value that is adjusted and not read again', () => {
    check(
      { values: { v: 'limits' }, adjusters: { screw: 'v' }, steps: [`${read} | then done`, 'turn | adjust screw'] },
      ['value-stale 2 turn at done v: v is stale, wanted passed, lost turn adjust'],
      {
        requires: 'engine=off',
        values: { v: 'limits' },
        adjusters: { screw: 'v' },
        steps: [`${read} | then done`, 'turn | adjust screw | then read x3 else call-service'],
      },
    );
  });
  it('is told of what is derived from it', () => {
    check(
      {
        requires: 'engine=off',
        values: { v: 'limits', d: 'limits from v' },
        adjusters: { screw: 'v' },
        steps: ['read | measure v d | outside stop', 'turn | adjust screw', 'again | measure v | outside stop'],
      },
      ['value-stale 3 again at done d: d is stale, wanted passed, lost turn adjust'],
      {
        requires: 'engine=off',
        values: { v: 'limits', d: 'limits from v' },
        adjusters: { screw: 'v' },
        steps: ['read | measure v d | outside stop', 'turn | adjust screw', 'again | measure v d | outside stop'],
      },
    );
  });
  it('is told where a step says so by hand', () => {
    check(
      { requires: 'engine=off', values: { v: 'limits' }, steps: ['read | measure v | outside stop', 'swap | stale v'] },
      ['value-stale 2 swap at done v: v is stale, wanted passed, lost swap stale'],
    );
  });
  it('asks of a worksheet too', () => {
    check(
      {
        requires: 'engine=off',
        worksheets: { loads: 'limits' },
        steps: ['weigh | measure loads | outside stop', 'swap | stale loads'],
      },
      ['value-stale 2 swap at done loads: loads is stale, wanted passed, lost swap stale'],
    );
  });
});

describe('derived-from-stale', () => {
  const values = { v: 'limits', w: 'limits', d: 'limits from v w' };
  it('is told where an input was not read', () => {
    check(
      { requires: 'engine=off', values, steps: ['one | measure v d | outside stop'] },
      ['derived-from-stale 1 one d w: w is absent, wanted fresh, lost start'],
      { requires: 'engine=off', values, steps: ['one | measure v | outside stop', 'two | measure w d | outside stop'] },
    );
  });
  it('is told where an input has gone stale', () => {
    check(
      {
        requires: 'engine=off',
        values,
        adjusters: { screw: 'v' },
        steps: [
          'one | measure v w | outside stop',
          'turn | adjust screw',
          'two | measure d | outside stop',
          'three | measure v w d | outside stop',
        ],
      },
      ['derived-from-stale 3 two d v: v is stale, wanted fresh, lost turn adjust'],
    );
  });
  it('takes a failed reading for fresh', () => {
    check(
      {
        requires: 'engine=off',
        values,
        steps: [
          'one | measure v w | outside two',
          'two | measure d | outside stop',
          'three | measure v w | outside stop',
        ],
      },
      [],
    );
  });
});

describe('adjust-without-reading', () => {
  it('is told where nothing that it moves was read', () => {
    check(
      {
        requires: 'engine=off',
        values: { v: 'limits' },
        adjusters: { screw: 'v' },
        steps: ['turn | adjust screw', 'read | measure v | outside stop'],
      },
      ['adjust-without-reading 1 turn screw'],
    );
  });
  it('is told of a second turn on a stale reading, and takes one fresh value for enough', () => {
    const values = { v: 'limits', w: 'limits' };
    const adjusters = { screw: 'v w' };
    check(
      {
        requires: 'engine=off',
        values,
        adjusters,
        steps: [
          'read | measure v | outside stop',
          'turn | adjust screw',
          'more | adjust screw',
          'again | measure v w | outside stop',
        ],
      },
      ['adjust-without-reading 3 more screw'],
      {
        requires: 'engine=off',
        values,
        adjusters,
        steps: ['read | measure v | outside stop', 'turn | adjust screw', 'again | measure v w | outside stop'],
      },
    );
  });
});

describe('outside-without-branch', () => {
  it('is told of each way to fail that no branch takes', () => {
    check({ values: { v: 'limits' }, steps: ['read | measure v'] }, ['outside-without-branch 1 read v'], {
      requires: 'engine=off',
      values: { v: 'limits' },
      steps: ['read | measure v | low stop | high stop'],
    });
    check({ requires: 'engine=off', values: { v: 'limits' }, steps: ['read | measure v | low stop'] }, [
      'outside-without-branch 1 read v',
    ]);
    check(
      { requires: 'engine=off', values: { v: 'high band' }, steps: ['read | measure v | high stop'] },
      ['outside-without-branch 1 read v'],
      { requires: 'engine=off', values: { v: 'high band' }, steps: ['read | measure v | high stop | fault stop'] },
    );
    check({ requires: 'engine=off', worksheets: { loads: 'limits' }, steps: ['weigh | measure loads'] }, [
      'outside-without-branch 1 weigh loads',
    ]);
  });
  it('leaves a branch idle that nothing takes', () => {
    const result = prove(world, {
      requires: 'engine=off',
      values: { v: 'low' },
      steps: ['read | measure v | outside stop | high stop | unsure stop'],
    });
    expect(result.idle.map(({ branch }) => branch)).toEqual(['high', 'unsure']);
    expect(
      prove(world, { steps: ['ask | answer yes done | answer no done | then done'] }).idle.map(({ branch }) => branch),
    ).toEqual(['then']);
    expect(
      prove(world, {
        requires: 'engine=off',
        values: { v: 'low three-zone' },
        steps: ['read | measure v | low stop | unsure stop'],
      }).idle,
    ).toEqual([]);
  });
});

describe('else-missing', () => {
  it('is told of each count without an else', () => {
    check({ steps: ['one', 'two | then one x2'] }, ['else-missing 2 two'], {
      steps: ['one', 'two | then one x2 else done'],
    });
    check(
      {
        requires: 'engine=off',
        values: { v: 'limits' },
        steps: ['read | measure v | outside read x2', 'on | then read x1 else on2', 'on2'],
      },
      ['else-missing 1 read'],
    );
  });
});

describe('target-missing', () => {
  it('is told of a branch to a step that these rigs lack', () => {
    check({ steps: ['one | then gone'] }, ['target-missing 1 one gone']);
    check({ steps: ['one | then one x2 else gone', 'two | answer yes lost | answer no done'] }, [
      'target-missing 1 one gone',
      'target-missing 2 two lost',
    ]);
  });
});

describe('sent-to-wrong-adjuster', () => {
  it('is told where the adjuster moves nothing that was read', () => {
    const values = { v: 'limits', w: 'limits' };
    const adjusters = { left: 'v', right: 'w' };
    const steps = (target: string): readonly string[] => [
      'both | measure v w | outside stop',
      `one | measure v | outside ${target} | then done`,
      'turn-left | adjust left | then one x2 else stop',
      'turn-right | adjust right | then both x2 else stop',
    ];
    check({ requires: 'engine=off', values, adjusters, steps: steps('turn-right') }, [
      'sent-to-wrong-adjuster 2 one right',
    ]);
    check({ requires: 'engine=off', values, adjusters, steps: steps('turn-left') }, []);
    const derived = { v: 'limits', d: 'limits from v' };
    check(
      {
        requires: 'engine=off',
        values: derived,
        adjusters: { left: 'v' },
        steps: ['one | measure v d | outside turn-left | then done', 'turn-left | adjust left | then one x2 else stop'],
      },
      [],
    );
  });
});

describe('requires-not-met-at-run', () => {
  const other = { run: { requires: 'auto=off', steps: ['work | needs auto=off'] } };
  it('is told at the end that runs it', () => {
    const main: ProcedureNotation = { requires: 'engine=off', steps: ['ask | answer yes done | answer no stop'] };
    expect(summarize(prove(world, main, { stop: other.run }))).toEqual([
      'requires-not-met-at-run 1 ask stop-run: auto is off|on, wanted off, lost start',
    ]);
    expect(summarize(prove(world, { ...main, requires: 'engine=off; auto=off' }, { stop: other.run }))).toEqual([]);
  });
});

describe('instrument-place', () => {
  it('is told of a hand-held instrument that nobody has a place for', () => {
    check(
      { requires: 'engine=off', values: { v: 'limits hand' }, steps: ['read | measure v | outside stop'] },
      ['instrument-place 1 read v'],
      {
        requires: off,
        values: { v: 'limits hand at beside' },
        steps: ['read | measure v | outside stop'],
      },
    );
    check(
      {
        requires: 'engine=off',
        values: { v: 'limits', w: 'limits hand' },
        adjusters: { screw: 'v watch w' },
        steps: ['read | measure v | outside turn | then done', 'turn | adjust screw | then read x2 else stop'],
      },
      ['instrument-place 2 turn w'],
    );
  });
  it('puts the person where it is read, where the rules then hold', () => {
    check({ requires: 'engine=idle', values: { v: 'none hand at beside' }, steps: ['read | measure v'] }, [
      'rule-broken 1 read live: engine is idle, wanted off, lost start',
    ]);
    check(
      { requires: off, values: { v: 'none hand at beside' }, steps: ['read | measure v', 'start | sets engine=idle'] },
      [
        'rule-broken 2 start live: engine is idle, wanted off, lost start sets',
        'unchanged-broken 2 start still engine by sets',
      ],
    );
  });
});

describe('instrument-needs', () => {
  const values = { v: 'none at cab needs lamp=lit' };
  it('is told where what the instrument needs may not hold', () => {
    check(
      { values, steps: ['read | measure v'] },
      ['instrument-needs 1 read v: lamp is lit|out, wanted lit, lost start'],
      { requires: 'lamp=lit', values, steps: ['read | measure v'] },
    );
    check({ values, steps: ['key | sets lamp=lit | measure v'] }, []);
    check({ requires: 'lamp=lit', values, steps: ['key | sets lamp=out | measure v'] }, [
      'instrument-needs 1 key v: lamp is out, wanted lit, lost key sets',
    ]);
  });
  it('is told of what is watched while something is turned', () => {
    const watched = { v: 'none', w: 'none at cab needs lamp=lit' };
    check(
      {
        requires: 'engine=off',
        values: watched,
        adjusters: { screw: 'v watch w' },
        steps: ['read | measure v', 'turn | adjust screw', 'again | measure v'],
      },
      ['instrument-needs 2 turn w: lamp is lit|out, wanted lit, lost start'],
    );
  });
});

describe('unbounded-loop', () => {
  it('is told of a cycle without a count', () => {
    check({ steps: ['one', 'two | answer yes one | answer no done'] }, ['unbounded-loop 2 two one two'], {
      steps: ['one', 'two | answer yes one x3 else done | answer no done'],
    });
    check(
      {
        requires: 'engine=off',
        values: { v: 'limits' },
        steps: ['read | measure v | outside mend | then done', 'mend | then read'],
      },
      ['unbounded-loop 2 mend read mend'],
    );
  });
  it('is told of an else that goes back, and of each cycle once', () => {
    check({ steps: ['one', 'two | then one x2 else one'] }, ['unbounded-loop 2 two one two']);
    check({ steps: ['one | otherwise one', 'two | otherwise two', 'three'] }, [
      'unbounded-loop 1 one one',
      'unbounded-loop 2 two two',
    ]);
  });
  it('shows steps that nobody comes to', () => {
    expect(prove(world, { steps: ['one | then done', 'two', 'three'] }).unreachable.map(({ step }) => step)).toEqual([
      'two',
      'three',
    ]);
  });
});

describe('back-into-step', () => {
  it('warns where a reading is taken again in another state than required', () => {
    const steps = ['read | measure v | outside lift | then done', 'lift | sets header=up | then read x2 else stop'];
    check({ requires: 'engine=idle; header=down', values: { v: 'limits' }, steps }, [
      'back-into-step 2 lift: header is up, wanted down, lost lift sets',
      'end-must-not-met 2 lift at stop: engine is idle, wanted off, lost start',
    ]);
  });
  it('does not warn where the state is set before anything is read, or was never so', () => {
    const steps = [
      'lower | sets header=down',
      'read | measure v | outside lift | then done',
      'lift | sets header=up | then lower x2 else done',
    ];
    check(
      {
        requires: 'engine=idle; header=down',
        values: { v: 'none' },
        steps: steps.map((step) => step.replace('outside lift', 'then lift')),
      },
      [],
    );
    check(
      {
        requires: 'engine=idle; header=down',
        values: { v: 'none' },
        steps: ['lift | sets header=up', 'read | measure v | then read x2 else done'],
      },
      [],
    );
  });
  it('does not hush an error', () => {
    const steps = ['read | needs header=down | measure v', 'lift | sets header=up | then read x2 else done'];
    check({ requires: 'engine=idle; header=down', values: { v: 'none' }, steps }, [
      'need-not-met 1 read: header is up, wanted down, lost lift sets',
      'back-into-step 2 lift: header is up, wanted down, lost lift sets',
    ]);
  });
});

describe('start-impossible', () => {
  it('is told where requirements contradict physics', () => {
    check(
      { requires: 'engine=idle; motion=stopped', steps: ['one'] },
      ['start-impossible: engine is , wanted idle, lost start; motion is , wanted stopped, lost start'],
      {
        requires: 'engine=off; motion=stopped',
        steps: ['one'],
      },
    );
    check({ requires: 'header=on-stop', steps: ['one'] }, ['start-impossible: header is , wanted on-stop, lost start']);
  });
});
