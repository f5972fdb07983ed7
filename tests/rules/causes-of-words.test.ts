// What prose, translations and ids say again of a fault stands beside it, and is no fault of its own.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { filesOf } from './page.js';

const base = new Map(filesOf(join(import.meta.dirname, '../books/base')));
const procedure = 'sensors/learn-height-range.md';
const translation = 'sensors/learn-height-range.es.md';

type Change = readonly [path: string, from: string, to: string];

const spanish: readonly Change[] = [
  ['book.yaml', 'languages: [en]', 'languages: [en, es]'],
  ['safety.yaml', 'what: The header moves without warning.', 'what: { en: It moves., es: Se mueve. }'],
  ['safety.yaml', 'harm: You can be crushed.', 'harm: { en: It crushes., es: Aplasta. }'],
  [
    'safety.yaml',
    'avoid: Let nobody near it while the engine runs.',
    'avoid: { en: Let nobody near it., es: No deje que nadie se acerque. }',
  ],
];

function check(translated: string, ...changes: readonly Change[]): readonly Diagnostic[] {
  const texts = new Map(base);
  if (translated !== '') texts.set(translation, translated);
  for (const [path, from, to] of changes) {
    const before = texts.get(path) ?? '';
    expect(before).toContain(from);
    texts.set(path, before.replace(from, to));
  }
  const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
  return checkBook({ sources, figures: new Set() }).diagnostics.filter(({ severity }) => severity !== 'hint');
}

const told = (found: readonly Diagnostic[]): readonly string[] => found.map(({ code, at }) => `${code} ${at.file}`);

describe('prose that contradicts a number', () => {
  const prose: Change = [
    procedure,
    'The display reads {raised}',
    'On the ground the height sensor reads 3.9 V. It reads {raised}',
  ];

  it('stands beside what is wrong with that number', () => {
    const found = check('', prose, ['headers/row-12x20.yaml', 'on_ground: 3.6 to 4.2 V', 'on_ground: 4.2 to 3.6 V']);
    expect(told(found)).toEqual(['limits-reversed headers/row-12x20.yaml']);
  });

  it('speaks once for the original and its translation', () => {
    const found = check(
      '---\ntranslates: 3\nvalues: { raised: { label: Sensor arriba } }\n---\n\nEl sensor arriba lee 2.2 V.\n\n## lower\n\nMás palabras.\n',
      ...spanish,
      [
        procedure,
        'The display reads {raised} with the header at the top.',
        'The height sensor, fully raised, reads 2.2 V.',
      ],
    );
    expect(told(found)).toEqual([`prose-contradicts-number ${procedure}`]);
    expect(found[0]?.related.map(({ at }) => at.file)).toContain(translation);
  });

  it('is told before the translation that has not its number', () => {
    const found = check(
      '---\ntranslates: 3\nsteps: { store-low: { do: "Mantenga **{machine.learn_key}**, {hold}." } }\n---\n',
      ...spanish,
      [
        procedure,
        'do: Hold **{machine.learn_key}** for {hold}.       #',
        'do: Hold **{machine.learn_key}** for 5 s.       #',
      ],
    );
    expect(told(found)).toEqual([`prose-contradicts-number ${procedure}`]);
  });
});

describe('a translation', () => {
  const whole = '---\ntranslates: 3\nsteps: { lower: { expect: Descansa. }, raise: { do: Suba el cabezal. } }\n---\n';

  it('of a step that was taken out stands beside the order that broke', () => {
    const step =
      '  - id: raise\n    do: Raise the header to the top of the stroke.\n    hazard: [moving-header]\n    sets: { header: raised }\n';
    const found = check(
      whole,
      ...spanish,
      [procedure, step, ''],
      [procedure, '  - id: read-raised\n', '  - id: read-raised\n    needs: { header: raised }\n'],
    );
    expect(told(found)).toEqual([`need-not-met ${procedure}`]);
    expect(found[0]?.related.map(({ message }) => message).join()).toContain('`raise` has no original');
  });

  it('of a key that is misspelt stands beside the key', () => {
    const found = check(whole, ...spanish, [procedure, '    expect: The points', '    expects: The points']);
    expect(told(found)).toEqual([`unknown-key ${procedure}`]);
  });

  it('of a step that is nowhere, in a procedure that is right, is a fault', () => {
    const found = check(whole.replace('raise:', 'rise:'), ...spanish);
    expect(told(found)).toEqual([`extra-translation ${translation}`]);
  });
});

describe('a number of a header that cannot be read', () => {
  const unread: Change = ['headers/row-12x20.yaml', 'row_spacing: 20 in', 'row_spacing: 20"'];

  it('is one fault, though the name of the header then says another of its numbers', () => {
    expect(told(check('', unread))).toEqual(['bad-limits headers/row-12x20.yaml']);
  });

  it('does not hush a text that contradicts a number of a procedure', () => {
    const other: Change = ['headers/platform-30.yaml', 'working_width: 30 ft', 'working_width: 30"'];
    const found = check('', other, [
      procedure,
      'The display reads {raised}',
      'On the ground the height sensor must read 4.6 V, and {raised}',
    ]);
    expect(told(found)).toContain(`prose-contradicts-number ${procedure}`);
  });
});

describe('a name that a step gives wrongly', () => {
  const again =
    'steps:\n  - id: lower-first\n    do: Lower the header until the feeder house stops.\n    hazard: [moving-header]\n    sets: { header: on-ground }\n';

  it('is one fault, though steps of the same words then have another hazard', () => {
    const found = check(
      '',
      [procedure, 'steps:\n', again],
      [procedure, 'hazard: [moving-header]', 'hazard: [moving-hedder]'],
    );
    expect(told(found)).toEqual([`unknown-hazard ${procedure}`]);
  });

  it('is one fault, however many branches name the step that is gone', () => {
    const gone = '  - id: void\n    do: Leave automatic height off.\n    then: call-service\n';
    const found = check('', [procedure, gone, '']);
    expect(told(found)).toEqual([`unknown-step ${procedure}`]);
    expect(found[0]?.related.length).toBe(1);
  });

  it('is one fault, however many states stand beside an end of `leaves`', () => {
    const ends = 'leaves: { done: { header: on-ground }, header: on-ground, engine: low-idle, height-range: valid }';
    const found = check('', [procedure, 'leaves: { header: on-ground, engine: low-idle, height-range: valid }', ends]);
    expect(told(found)).toEqual([`unknown-key ${procedure}`]);
    expect(found[0]?.help).toContain('`done: { header: … }`');
  });

  it('is a fault of its own beside another name', () => {
    const found = check(
      '',
      [procedure, 'go: void', 'go: viod'],
      [procedure, 'then: call-service', 'then: cal-service'],
    );
    expect(told(found)).toEqual([`unknown-step ${procedure}`, `unknown-step ${procedure}`]);
  });
});

describe('a book without its states', () => {
  it('is told once, and not wherever a state is named', () => {
    const texts = new Map(base);
    texts.delete('states.yaml');
    const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
    const found = checkBook({ sources, figures: new Set() }).diagnostics.filter(({ severity }) => severity !== 'hint');
    expect(found.map(({ code }) => code)).toEqual(['unknown-state']);
    expect(found[0]?.help).toContain('`states.yaml`');
  });
});

describe('a translation with capitals in the language of its name', () => {
  it('is told once, by the name that it should have', () => {
    const texts = new Map([...base, ['sensors/learn-height-range.ES.md', '---\ntranslates: 3\nsteps: {}\n---\n']]);
    texts.set('book.yaml', (texts.get('book.yaml') ?? '').replace('languages: [en]', 'languages: [en, es]'));
    const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
    const found = checkBook({ sources, figures: new Set() }).diagnostics.filter(({ at }) => at.file.endsWith('.ES.md'));
    expect(found.map(({ code, help }) => `${code}: ${help}`)).toEqual([
      'unknown-language: Call the file `learn-height-range.es.md`.',
    ]);
  });
});

describe('an id', () => {
  it('of a machine that is misspelt is one fault with all that is then missing', () => {
    const found = check('', [procedure, 'machine: [tarn-40, tarn-60]', 'machine: [tran-40, tarn-60]']);
    expect(told(found)).toEqual([`unknown-machine ${procedure}`]);
  });

  it('of a side that stands twice is one fault, however much is repeated', () => {
    const found = check(
      '',
      [procedure, 'values:  ', 'for-each: { side: [left, left] }\nvalues:  '],
      [procedure, 'steps:\n', 'steps:\n  - { id: "look-{side}", do: "Look at the {side} arm." }\n'],
    );
    expect(told(found)).toEqual([`duplicate-entry ${procedure}`]);
  });

  it('with braces where nothing is repeated is one fault', () => {
    const found = check('', [
      procedure,
      'steps:\n',
      'steps:\n  - { id: "look-{side}", do: Look at the arm. }\n  - { id: "wipe-{side}", do: Wipe the arm. }\n',
    ]);
    expect(told(found)).toEqual([`bad-name ${procedure}`]);
  });

  it('of a language that no safety text has is one fault', () => {
    const found = check('', ['book.yaml', 'languages: [en]', 'languages: [en, es]']);
    expect(told(found)).toEqual(['missing-language safety.yaml']);
  });

  it('of a person too many is one fault, at the first of the steps', () => {
    const found = check('', [
      procedure,
      'steps:\n',
      'steps:\n  - { id: look, by: 2, do: Look at the arms. }\n  - { id: wipe, by: 2, do: Wipe the arms. }\n',
    ]);
    expect(told(found)).toEqual([`too-few-people ${procedure}`]);
  });
});

describe('a loop without a count', () => {
  it('is one fault, for whoever runs the procedure as well', () => {
    const caller = [
      '---\ntitle: Learn and look\nkind: setup\nsummary: Learns the range.\nrevision: 1\nstatus: draft',
      'applies: { machine: [tarn-40, tarn-60], header: { type: row } }\ntools: none\nsupplies: none\nhazards: [moving-header]',
      'requires:\n  - { state: engine, is: low-idle }\n  - { state: automatic-height, is: "off" }',
      '  - { state: threshing-drive, is: disengaged }\n  - { state: oil-temperature, is: at least 100 degF }',
      'steps:\n  - { id: learn, run: learn-height-range }\n  - { id: look, do: Look at the arms., then: done }',
      'leaves: { height-range: valid }\n---\n',
    ].join('\n');
    const texts = new Map([...base, ['sensors/learn-and-look.md', caller]]);
    const before = texts.get(procedure) ?? '';
    texts.set(procedure, before.replace('    then: done\n', '    then: lower\n'));
    const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
    const found = checkBook({ sources, figures: new Set() }).diagnostics.filter(({ severity }) => severity !== 'hint');
    expect(told(found)).toEqual([`loop-without-bound ${procedure}`]);
  });
});
