// One fault, one diagnostic: what follows from a fault, or says it again, is joined to it, and no error is lost by that.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { filesOf } from './page.js';

const base = filesOf(join(import.meta.dirname, '../books/base'));
const procedure = 'sensors/learn-height-range.md';

type Change = readonly [path: string, from: string, to: string];

function check(...changes: readonly Change[]): readonly Diagnostic[] {
  const texts = new Map(base);
  for (const [path, from, to] of changes) {
    const before = texts.get(path) ?? '';
    expect(before).toContain(from);
    texts.set(path, before.replace(from, to));
  }
  const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
  return checkBook({ sources, figures: new Set() }).diagnostics.filter(({ severity }) => severity !== 'hint');
}

const codes = (diagnostics: readonly Diagnostic[]): readonly string[] => diagnostics.map(({ code }) => code);
const limits = '    limits: { tarn-40: 0.9 ± 0.2 V, tarn-60: 0.7 to 1.0 V }';

describe('one wrong number', () => {
  it('speaks once, and what follows stands beside it', () => {
    const found = check([procedure, 'tarn-40: 0.9 ± 0.2 V', 'tarn-40: 9.0 ± 0.2 V']);
    expect(codes(found)).toEqual(['limits-outside-sensor-band']);
    const beside = found[0]?.related.map(({ message }) => message).join('\n');
    expect(beside).toContain('reach outside what `display` reads');
    expect(beside).toContain('`travel` can never be');
  });

  it('in the file of a header speaks once for all values that name it', () => {
    const found = check(
      ['headers/row-12x20.yaml', '3.6 to 4.2 V', '36 to 42 V'],
      [
        procedure,
        'values:',
        'values:\n  again: { label: Sensor once more, quantity: voltage, limits: header.on_ground, read-with: display }',
      ],
      [procedure, '    measure: on_ground', '    measure: [on_ground, again]'],
    );
    expect(codes(found)).toEqual(['limits-outside-instrument']);
  });

  it('does not hush one of another value', () => {
    const found = check(
      [procedure, 'tarn-40: 0.9 ± 0.2 V', 'tarn-40: 9.0 ± 0.2 V'],
      [procedure, '    from: on_ground - raised', '    unit: m\n    from: on_ground - raised'],
    );
    expect(codes(found)).toContain('limits-outside-sensor-band');
    expect(codes(found)).toContain('unit-mismatch');
  });

  it('does not hush what is wrong for other rigs alone', () => {
    const found = check([procedure, limits, '    limits: { tarn-40: 9.0 ± 0.2 V, tarn-60: 0.7 to 0.7 V }']);
    expect(codes(found)).toContain('limits-outside-sensor-band');
    expect(codes(found).length).toBeGreaterThan(1);
  });
});

describe('a parameter of one machine', () => {
  const wait: readonly Change[] = [
    ['machines/tarn-40.yaml', 'parameters:', 'parameters:\n  run_out: 60'],
    ['machines/tarn-60.yaml', 'parameters:', 'parameters:\n  run_out: 75 s'],
    [procedure, '  - id: void\n', '  - id: void\n    wait: machine.run_out\n'],
  ];

  it('without its unit is told in its own file, with the steps that wait for it beside it', () => {
    const found = check(...wait);
    expect(found.map(({ code, at }) => `${code} ${at.file}`)).toEqual([
      'parameter-of-other-quantity machines/tarn-40.yaml',
    ]);
    expect(found[0]?.related.map(({ at }) => at.file)).toContain(procedure);
  });

  it('without its unit does not hush a step that waits in another unit on every machine', () => {
    const found = check(...wait, [procedure, '  - id: park\n', '  - id: park\n    wait: 5 mm\n']);
    expect(codes(found)).toContain('unit-mismatch');
  });
});

describe('a precondition', () => {
  const another = [
    '---\ntitle: Read the sensors\nkind: inspection\nsummary: Reads the sensors.\nrevision: 1\nstatus: draft\napplies: all',
    'tools: none\nsupplies: none\nhazards: none\nrequires:',
    '  - { state: STATE, is: VALUE, shown-by: The engine runs at its lowest speed. }',
    'steps:\n  - { id: look, do: Look at the display. }\nleaves: none\n---\n',
  ].join('\n');

  function required(state: string, value: string): readonly Diagnostic[] {
    const texts = new Map([...base, ['sensors/a.md', another.replace('STATE', state).replace('VALUE', value)]]);
    const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
    return checkBook({ sources, figures: new Set() }).diagnostics.filter(({ severity }) => severity !== 'hint');
  }

  it.each([
    ['with a misspelt state', 'engin', 'low-idle', ['unknown-state']],
    ['with a misspelt value', 'engine', 'Low-idle', ['unknown-state-value']],
    ['in typographic quotes', 'engine', '“low-idle”', ['unknown-state-value']],
    ['with a value twice', 'engine', '[low-idle, low-idle]', ['duplicate-entry']],
    ['with another value', 'engine', 'working-speed', ['same-sign-other-state']],
  ])('%s is a fault of its own, and none of the same sign elsewhere', (_, state, value, expected) => {
    expect(codes(required(state, value))).toEqual(expected);
  });
});

describe('a step that is repeated for each side', () => {
  it('is wrong once, and the note names the other side', () => {
    const found = check([
      procedure,
      'steps:',
      'for-each: { side: [left, right] }\nsteps:\n  - id: look-{side}\n    do: Look at the {side} arm.\n    then: nowhere-{side}',
    ]);
    expect(codes(found)).toEqual(['unknown-step']);
    expect(found[0]?.note).toContain('`right`');
  });
});

describe('one side where every side was meant', () => {
  const sides = [
    'for-each: { side: [left, right] }',
    'steps:',
    '  - id: look-{side}',
    '    ask: Is there mud on the {side} arm?',
    '    answers: { "yes": "clean-{side}", "no": lift-left }',
    '  - { id: "clean-{side}", do: "Scrape the {side} arm clean." }',
    '  - { id: "lift-{side}", do: "Lift the {side} arm by hand." }',
  ].join('\n');

  it('is told where it stands, with what goes wrong on the other side beside it', () => {
    const found = check([procedure, 'steps:', sides]);
    expect(codes(found)).toEqual(['side-written-out']);
    expect(found[0]?.related.map(({ message }) => message).join()).toContain('may be repeated without end');
  });

  it('does not hush what goes wrong in steps without a side', () => {
    const found = check([procedure, 'steps:', sides], [procedure, '    then: done\n', '    then: lower\n']);
    expect(codes(found)).toEqual(['side-written-out', 'loop-without-bound']);
  });
});

describe('a waiver with a wrong code', () => {
  it('takes along the warning that it was to cover', () => {
    const found = check([
      procedure,
      '  travel:',
      '  idle: { label: Idle value, quantity: voltage, limits: 1 to 2 V, read-with: display, waive: [{ code: unused-valeu, because: Later. }] }\n  travel:',
    ]);
    expect(codes(found)).toEqual(['unknown-code']);
    expect(found[0]?.related.map(({ message }) => message)).toEqual(['No step measures `idle`']);
  });
});

describe('a procedure that runs itself by way of another one', () => {
  it('speaks once, also where that one is for fewer machines', () => {
    const other = `---
title: Look at the range
kind: inspection
summary: Looks at the stored range.
revision: 1
status: draft
applies: { machine: tarn-60 }
tools: none
supplies: none
hazards: none
requires: none
steps:
  - { id: again, run: learn-height-range }
leaves: none
---
`;
    const texts = new Map(base).set('sensors/look.md', other);
    const text = texts.get(procedure) ?? '';
    texts.set(procedure, text.replace('steps:\n', 'steps:\n  - { id: look, run: look }\n'));
    const sources = new Map([...texts].map(([path, own]) => [path, { path, text: own }]));
    const found = checkBook({ sources, figures: new Set() }).diagnostics;
    expect(codes(found.filter(({ severity }) => severity === 'error'))).toEqual(['circular-run']);
  });
});

describe('a requirement that is missing', () => {
  const engine = '  - { state: engine, is: low-idle, shown-by: The engine runs at its lowest speed. }\n';

  it('speaks once, also where something follows from it by physics', () => {
    const found = check([procedure, engine, '']);
    expect(codes(found)).toEqual(['cannot-move-here']);
    expect(found[0]?.help).toContain('say under `requires` that `engine` is');
    expect(found[0]?.related.map(({ message }) => message).join('\n')).toContain('`electrics` may be `dead`');
  });

  it('does not hush what nothing makes follow from it', () => {
    const found = check(
      [procedure, engine, ''],
      [procedure, '    measure: on_ground', '    needs: { key: removed }\n    measure: on_ground'],
    );
    expect(codes(found)).toContain('need-not-met');
  });
});
