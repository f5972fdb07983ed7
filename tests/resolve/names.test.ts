import { describe, expect, it } from 'vitest';
import { type Changes, learn, workOut } from './resolved.js';

/** A change in the learning procedure. */
const inLearn = (from: string, to: string): Changes => ({ [learn]: [[from, to]] });
const park = '  - id: park\n';
const beforePark = (step: string): Changes => inLearn(park, `${step}\n${park}`);

describe('a name that names nothing is reported at its very place', () => {
  it.each<[string, Changes, string, string]>([
    [
      'machine',
      inLearn('[tarn-40, tarn-60]', '[tarn-40, tarn-6]'),
      'unknown-machine: tarn-6',
      'Did you mean `tarn-60` or `tarn-40`?',
    ],
    [
      'machine that was verified',
      inLearn('machine: tarn-40, how', 'machine: tarm-40, how'),
      'unknown-machine: tarm-40',
      'Did you mean `tarn-40` or `tarn-60`?',
    ],
    [
      'header',
      beforePark('  - { id: x, do: Look., only: { header: row-12x2 } }'),
      'unknown-header: row-12x2',
      'Did you mean `row-12x20`?',
    ],
    [
      'option',
      beforePark('  - { id: x, do: Look., only: { option: lateral-tlt } }'),
      'unknown-option: lateral-tlt',
      'Did you mean `lateral-tilt`?',
    ],
    [
      'software version',
      beforePark('  - { id: x, do: Look., only: { software: at least 4.3 } }'),
      'unknown-software: 4.3',
      'Did you mean `4.2`?',
    ],
    [
      'state',
      inLearn('leaves: { header: on-ground', 'leaves: { heeder: on-ground'),
      'unknown-state: heeder',
      'Did you mean `header`?',
    ],
    [
      'state that is required',
      inLearn('state: threshing-drive', 'state: thresher'),
      'unknown-state: thresher',
      'Declare `thresher`, or write a state that is declared.',
    ],
    [
      'value of a state',
      inLearn('is: disengaged', 'is: disengage'),
      'unknown-state-value: disengage',
      'Did you mean `disengaged`?',
    ],
    [
      'value of a state without a near one',
      inLearn('is: disengaged', 'is: stowed'),
      'unknown-state-value: stowed',
      'Write `disengaged` or `engaged`.',
    ],
    [
      'bundle',
      beforePark('  - { id: x, do: Look., needs: safe-to-reach }'),
      'unknown-conditions: safe-to-reach',
      'Did you mean `safe-to-reach-in`?',
    ],
    [
      'hazard of a procedure',
      inLearn('hazards: [moving-header]', 'hazards: [moving-heder]'),
      'unknown-hazard: moving-heder',
      'Did you mean `moving-header`?',
    ],
    [
      'hazard of a step',
      beforePark('  - { id: x, do: Look., hazard: [noise] }'),
      'unknown-hazard: noise',
      'Write `moving-header`, or declare `noise`.',
    ],
    ['tool', inLearn('tools: none', 'tools: [wrench, rench]'), 'unknown-tool: rench', 'Did you mean `wrench`?'],
    ['event', inLearn('[header-swap,', '[heder-swap,'), 'unknown-event: heder-swap', 'Did you mean `header-swap`?'],
    [
      'state that is given',
      inLearn('gives: height-range', 'gives: hight-range'),
      'unknown-state: hight-range',
      'Did you mean `height-range`?',
    ],
    [
      'instrument',
      inLearn('read-with: display                           #', 'read-with: multmeter                           #'),
      'unknown-instrument: multmeter',
      'Did you mean `multimeter`?',
    ],
    [
      'place of a step',
      beforePark('  - { id: x, do: Look., at: besides }'),
      'unknown-place: besides',
      'Did you mean `beside`?',
    ],
    [
      'place of a value',
      inLearn(
        '    inside: machine.sensor_reads                 #',
        '    read-at: cabin\n    inside: machine.sensor_reads                 #',
      ),
      'unknown-place: cabin',
      'Write one of `cab`, `beside` or `under-header`, or declare `cabin`.',
    ],
    [
      'value that is measured',
      inLearn('measure: on_ground', 'measure: on_grund'),
      'unknown-value: on_grund',
      'Did you mean `on_ground`?',
    ],
    [
      'value in an expression',
      inLearn('from: on_ground - raised', 'from: on_ground - raise'),
      'unknown-value: raise',
      'Did you mean `raised`?',
    ],
    [
      'value with a hyphen in an expression',
      inLearn('from: on_ground - raised', 'from: on-grund - raised'),
      'unknown-value: on-grund',
      'Did you mean `on_ground`?',
    ],
    [
      'adjuster',
      beforePark('  - { id: x, do: Turn it., adjust: turn }'),
      'unknown-adjuster: turn',
      'Declare `turn`, or write an adjuster that is declared.',
    ],
    [
      'value made stale',
      beforePark('  - { id: x, do: Look., stale: [raisd] }'),
      'unknown-value: raisd',
      'Did you mean `raised`?',
    ],
    ['step', inLearn('then: done', 'then: pork'), 'unknown-step: pork', 'Did you mean `park`?'],
    [
      'step of a failed reading',
      inLearn(
        'measure: on_ground\n    when: { outside: call-service }',
        'measure: on_ground\n    when: { outside: call-servise }',
      ),
      'unknown-step: call-servise',
      'Did you mean `call-service`?',
    ],
    [
      'step in any order',
      inLearn('leaves: {', 'any-order: [[lower, read-on-grond]]\nleaves: {'),
      'unknown-step: read-on-grond',
      'Did you mean `read-on-ground`?',
    ],
    [
      'procedure that is run',
      beforePark('  - { id: x, run: learn-hight-range }'),
      'unknown-procedure: learn-hight-range',
      'Did you mean `learn-height-range`?',
    ],
    [
      'parameter',
      inLearn('limits: header.on_ground', 'limits: header.on_grnd'),
      'unknown-parameter: header.on_grnd',
      'Did you mean `header.on_ground`?',
    ],
    [
      'parameter of the wrong file',
      inLearn('limits: header.on_ground', 'limits: machine.on_ground'),
      'unknown-parameter: machine.on_ground',
      'Did you mean `header.on_ground`?',
    ],
    [
      'parameter without its prefix',
      inLearn('limits: header.on_ground', 'limits: on_ground'),
      'unknown-parameter: on_ground',
      'Did you mean `header.on_ground`?',
    ],
    [
      'parameter inside limits',
      inLearn('limits: 2.6 to 3.4 V', 'limits: 2.6 V to 0.9 * machine.supply'),
      'unknown-parameter: machine.supply',
      'Declare it in `parameters` of the machine, or write a number.',
    ],
    [
      'placeholder',
      inLearn('Lower the header to the ground.', 'Lower until {rased} is read.'),
      'unknown-placeholder: {rased}',
      'Did you mean `{raised}`?',
    ],
    [
      'word',
      inLearn('card: Hold {machine.learn_key}', 'card: Hold {machine.lern_key}'),
      'unknown-placeholder: {machine.lern_key}',
      'Did you mean `{machine.learn_key}`?',
    ],
    [
      'word without its prefix',
      inLearn('card: Hold {machine.learn_key}', 'card: Hold {learn_key}'),
      'unknown-placeholder: {learn_key}',
      'Did you mean `{machine.learn_key}`?',
    ],
    [
      'placeholder in prose',
      inLearn('The display reads {raised}', 'The display reads {raisd}'),
      'unknown-placeholder: {raisd}',
      'Did you mean `{raised}`?',
    ],
    [
      'time that a step has not',
      inLearn('Lower the header to the ground.', 'Wait {wait}.'),
      'unknown-placeholder: {wait}',
      'Give the step a `wait:` with its time, or take the placeholder out.',
    ],
    [
      'key of a choice',
      inLearn('{ tarn-40: 0.9 ± 0.2 V, tarn-60: 0.7 to 1.0 V }', '{ tarn-40: 0.9 ± 0.2 V, tarn-6O: 0.7 to 1.0 V }'),
      'unknown-choice-key: tarn-6O',
      'Did you mean `tarn-60` or `tarn-40`?',
    ],
    [
      'quantity',
      inLearn('quantity: voltage\n    limits: header.on_ground', 'quantity: volts\n    limits: header.on_ground'),
      'unknown-quantity: volts',
      'Did you mean `voltage`?',
    ],
    [
      'unit',
      inLearn('    quantity: voltage\n    limits: { tarn', '    unit: volt\n    limits: { tarn'),
      'unknown-unit: volt',
      'Did you mean `V`?',
    ],
    [
      'figure',
      beforePark('  - { id: x, do: Look., figure: { file: figures/no.svg, alt: A part. } }'),
      'unknown-figure: figures/no.svg',
      'Put the picture there under this name, or write the name that it has.',
    ],
    [
      'link in prose',
      inLearn('The display reads {raised}', 'See [the other](../put-away/shut-down.md). It reads {raised}'),
      'unknown-procedure: ../put-away/shut-down.md',
      'Write the id of a procedure, or add the file.',
    ],
    [
      'job',
      { 'book.yaml': [['jobs: { sensors: Sensors }', 'jobs: { sensor: Sensors }']] },
      'unknown-job: Learn the header height range',
      'Move the file to the folder of a job, or declare the folder under `jobs` in book.yaml.',
    ],
    [
      'header that fits',
      { 'machines/tarn-60.yaml': [['[row-12x20]', '[row-12x20, row-6x3]']] },
      'unknown-header: row-6x3',
      'Write `platform-30` or `row-12x20`, or declare `row-6x3`.',
    ],
    [
      'start of a state',
      { 'states.yaml': [['start: stowed', 'start: stored']] },
      'unknown-state-value: stored',
      'Did you mean `stowed`?',
    ],
    [
      'state of physics',
      { 'states.yaml': [['when: { lift-stop: stowed }', 'when: { liftstop: stowed }']] },
      'unknown-state: liftstop',
      'Did you mean `lift-stop`?',
    ],
    [
      'state that stays',
      { 'safety.yaml': [['unchanged: [header, engine]', 'unchanged: [header, engin]']] },
      'unknown-state: engin',
      'Did you mean `engine`?',
    ],
    [
      'hazard of a rule',
      { 'safety.yaml': [['must: safe-to-go-under, hazard: moving-header', 'must: safe-to-go-under, hazard: moving']] },
      'unknown-hazard: moving',
      'Write `moving-header`, or declare `moving`.',
    ],
    [
      'bundle of a rule',
      { 'safety.yaml': [['must: safe-to-go-under,', 'must: safe-to-go-undr,']] },
      'unknown-conditions: safe-to-go-undr',
      'Did you mean `safe-to-go-under`?',
    ],
    [
      'procedure of an end',
      { 'safety.yaml': [['rules:\n', 'ends: { stop: { run: make-safe } }\nrules:\n']] },
      'unknown-procedure: make-safe',
      'Write the id of a procedure, or add the file.',
    ],
    [
      'place of an instrument',
      { 'instruments.yaml': [['read-at: cab', 'read-at: cap']] },
      'unknown-place: cap',
      'Did you mean `cab`?',
    ],
    [
      'quantity of an instrument',
      { 'instruments.yaml': [['Multimeter, quantity: voltage', 'Multimeter, quantity: voltag']] },
      'unknown-quantity: voltag',
      'Did you mean `voltage`?',
    ],
    [
      'parameter of its own file',
      { 'headers/row-12x20.yaml': [['equals: rows * row_spacing', 'equals: rows * row_spcing']] },
      'unknown-parameter: row_spcing',
      'Did you mean `row_spacing`?',
    ],
    [
      'machine of the fleet',
      { 'fleet.yaml': 'units:\n  - { id: u, machine: tarn-41, headers: [{ header: row-12x20 }] }\n' },
      'unknown-machine: tarn-41',
      'Did you mean `tarn-40` or `tarn-60`?',
    ],
    [
      'option of the fleet',
      {
        'fleet.yaml':
          'units:\n  - { id: u, machine: tarn-60, options: [lateral-tilt], headers: [{ header: row-12x20 }] }\n',
      },
      'unknown-option: lateral-tilt',
      'Declare `lateral-tilt`, or write an option that is declared.',
    ],
    [
      'software of the fleet',
      { 'fleet.yaml': 'units:\n  - { id: u, machine: tarn-40, software: "4.20", headers: [{ header: row-12x20 }] }\n' },
      'unknown-software: "4.20"',
      'Did you mean `4.2`?',
    ],
  ])('%s', (_, changes, found, help) => {
    const worked = workOut(changes);
    expect(worked.read.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(worked.found).toEqual([found]);
    expect(worked.diagnostics[0]?.help).toBe(help);
    expect(worked.diagnostics[0]?.rigs).toEqual([]);
  });

  it('offers the change where one name is near', () => {
    const [diagnostic] = workOut(inLearn('then: done', 'then: pork')).diagnostics;
    expect(diagnostic?.fixes).toEqual([
      { title: 'Write `park`', safe: false, edits: [{ at: diagnostic?.at, text: 'park' }] },
    ]);
  });

  it('writes a placeholder with its braces', () => {
    const [diagnostic] = workOut(inLearn('Hold {machine.learn_key} 2', 'Hold {machine.lern_key} 2')).diagnostics;
    expect(diagnostic?.fixes?.[0]?.edits[0]?.text).toBe('{machine.learn_key}');
  });

  it('reports every one of them, not the first', () => {
    const worked = workOut({
      [learn]: [
        ['then: done', 'then: pork'],
        ['tools: none', 'tools: [rench]'],
      ],
    });
    expect(worked.found).toEqual(['unknown-tool: rench', 'unknown-step: pork']);
  });

  it('says nothing of names that a file which could not be read may declare', () => {
    const worked = workOut({ 'states.yaml': 'states:\n\tengine: 3\n' });
    expect(worked.read.some(({ severity }) => severity === 'error')).toBe(true);
    expect(worked.found).toEqual([]);
  });
});

describe('a part that could not be read', () => {
  it.each<[string, Changes]>([
    [
      'a parameter of a machine',
      { 'machines/tarn-60.yaml': [['sensor_reads: 0.25 to 4.75 V', 'sensor_reads: 0.25-4.75 V']] },
    ],
    ['a parameter of a header', { 'headers/row-12x20.yaml': [['on_ground: 3.6 to 4.2 V', 'on_ground: 3.6-4.2 V']] }],
    [
      'an entry of a choice',
      {
        'headers/row-12x20.yaml': [
          ['on_ground: 3.6 to 4.2 V', 'on_ground: { tarn-40: 3.6-4.2 V, tarn-60: 3.6 to 4.2 V }'],
        ],
      },
    ],
    [
      'a bundle',
      {
        'safety.yaml': [
          ['  safe-to-reach-in: { automatic-height: "off",', '  safe-to-reach-in: { automatic-height: { a: b },'],
        ],
      },
    ],
    ['a procedure', { [learn]: [['limits: 2.6 to 3.4 V', 'limits: 2.6-3.4 V']] }],
  ])('makes no other fault: %s', (_, changes) => {
    const worked = workOut(changes);
    expect(worked.read.some(({ severity }) => severity === 'error')).toBe(true);
    expect(worked.found).toEqual([]);
  });
});

describe('names that cannot be meant so', () => {
  it('takes limits for a state without a quantity and words for one with', () => {
    const worked = workOut(inLearn('is: at least 100 degF', 'is: warm'));
    expect(worked.found).toEqual(['word-for-quantity: warm']);
  });

  it('knows `unknown` as an effect alone', () => {
    expect(workOut(inLearn('is: disengaged', 'is: unknown')).found).toEqual(['unknown-state-value: unknown']);
    expect(workOut(inLearn('sets: { height-range: invalid } ', 'sets: { height-range: unknown } ')).found).toEqual([]);
  });

  it('wants a given state to be valid or invalid', () => {
    expect(workOut(inLearn('gives: height-range', 'gives: engine')).found).toEqual(['gives-without-validity: engine']);
  });

  it('wants the keys of a choice to be of one kind', () => {
    const worked = workOut(inLearn('tarn-60: 0.7 to 1.0 V }', 'row: 0.7 to 1.0 V }'));
    expect(worked.found).toEqual(['mixed-choice: row']);
    expect(worked.diagnostics[0]?.message).toBe(
      'The keys of a choice are of one kind: `tarn-40` is one of the machines, `row` one of the header types',
    );
  });

  it('says which kind of software is meant where a version is not enough', () => {
    const machine = {
      'machines/tarn-40.yaml': [
        ['software: { display: ["3.10", "4.2"] }', 'software: { display: ["3.10", "4.2"], control: ["4.2"] }'],
      ],
    } as const;
    const step = (software: string): Changes => ({
      ...machine,
      ...beforePark(`  - { id: x, do: Look., only: { software: ${software} } }`),
    });
    expect(workOut(step('at least 4.2')).found).toEqual(['ambiguous-software: 4.2']);
    expect(workOut(step('{ display: at least 4.2 }')).found).toEqual([]);
  });

  it('wants texts that every page shows to be the same on each', () => {
    const worked = workOut({
      'safety.yaml': [['The header moves without warning.', '"Hold {machine.learn_key} never."']],
    });
    expect(worked.found).toEqual(['depends-on-rig: {machine.learn_key}']);
  });

  it('wants steps in any order to stand side by side, but where a branch leads between them', () => {
    const apart = inLearn('leaves: {', 'any-order: [[raise-again, park]]\nleaves: {');
    expect(workOut(apart).found).toEqual(['any-order-apart: park']);
    const beside = inLearn('leaves: {', 'any-order: [[raise-again, store-high]]\nleaves: {');
    expect(workOut(beside).found).toEqual([]);
  });

  it('wants a value and a worksheet to have ids of their own', () => {
    const sheet = 'worksheets:\n  raised:\n    rows: 3\n    columns: { a: { label: A, unit: V } }\n';
    expect(workOut(inLearn('steps:\n', `${sheet}steps:\n`)).found).toEqual(['duplicate-id: raised']);
  });

  it('looks at the unit of the fleet beside its machine', () => {
    const unit = 'units:\n  - { id: u, machine: tarn-60, headers: [{ header: platform-30 }] }\n';
    expect(workOut({ 'fleet.yaml': unit }).found).toEqual(['header-does-not-fit: platform-30']);
    const serial = 'units:\n  - { id: u, machine: tarn-40, serial: 71-00001, headers: [{ header: row-12x20 }] }\n';
    expect(workOut({ 'fleet.yaml': serial }).found).toEqual(['serial-outside-machine: 71-00001']);
  });
});

describe('circles', () => {
  const second = (run: string): string =>
    `---
title: The second
kind: inspection
summary: Looks.
revision: 1
status: released
applies: all
tools: none
supplies: none
hazards: none
requires: none
steps:
  - { id: go, run: ${run} }
leaves: none
---
`;

  it('of procedures that run themselves', () => {
    const worked = workOut({ 'sensors/second.md': second('second') });
    expect(worked.found).toEqual(['circular-run: second']);
  });

  it('of procedures that run each other, told once', () => {
    const worked = workOut({ 'sensors/second.md': second('third'), 'sensors/third.md': second('second') });
    expect(worked.found).toEqual(['circular-run: second']);
    expect(worked.diagnostics[0]?.message).toBe('A procedure runs itself: `second`, then `third`, then `second`');
  });

  it('of values', () => {
    const worked = workOut(
      inLearn(
        '    read-with: display                           #',
        '    from: travel + raised                           #',
      ),
    );
    expect(worked.found).toEqual(['circular-value: on_ground']);
  });

  it('of parameters, told once', () => {
    const worked = workOut({
      'headers/row-12x20.yaml': [['  row_spacing: 20 in', '  row_spacing: working_width / rows']],
      'headers/platform-30.yaml': [],
      [learn]: [],
    });
    expect(worked.found).toEqual([]);
    const circle = workOut({
      'headers/row-12x20.yaml': [
        ['  row_spacing: 20 in', '  row_spacing: working_width / rows'],
        ['  working_width: 20 ft', '  working_width: row_spacing * rows'],
      ],
    });
    expect(circle.found).toEqual(['circular-parameter: working_width / rows']);
    expect(circle.diagnostics[0]?.message).toBe(
      'A parameter is worked out from itself: `header.row_spacing` from `header.working_width` from `header.row_spacing`',
    );
  });
});
