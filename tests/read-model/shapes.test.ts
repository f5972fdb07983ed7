// What the format allows besides its examples: every shape that an author may write is taken, and comes out as meant.

import { describe, expect, it } from 'vitest';
import type { Procedure } from '../../src/model/procedure.js';
import { englishFiles, placesOf, read } from './books.js';

function bookWith(files: Readonly<Record<string, string>>) {
  const all = new Map([...englishFiles, ...Object.entries(files)]);
  const found = read(all);
  expect(placesOf(found.diagnostics, all)).toEqual([]);
  return found.book;
}

const required: Readonly<Record<string, string>> = {
  title: 'Check it',
  kind: 'inspection',
  summary: 'Looks at it.',
  revision: '1',
  status: 'draft',
  applies: 'all',
  tools: 'none',
  supplies: 'none',
  hazards: 'none',
  requires: 'none',
  leaves: 'none',
  steps: '\n  - { id: look, do: Look. }',
};

function procedureWith(typed: Readonly<Record<string, string>>): Procedure {
  const lines = Object.entries({ ...required, ...typed }).map(([key, value]) => `${key}: ${value}\n`);
  const book = bookWith({ 'check-it.md': `---\n${lines.join('')}---\n` });
  const found = book.procedures.get('check-it');
  if (!found) throw new Error('not read');
  return found;
}

const ids = (list: readonly { readonly value: string }[] | undefined) => list?.map(({ value }) => value);

describe('a procedure', () => {
  it('may leave out all that is not required', () => {
    const procedure = procedureWith({});
    expect([procedure.folder, procedure.skill.value, procedure.people.value]).toEqual(['', 'operator', 1]);
    expect(procedure.applies.kind).toBe('all');
    expect([procedure.tools, procedure.supplies, procedure.hazards, procedure.requires]).toEqual([[], [], [], []]);
    expect([...procedure.leaves]).toEqual([]);
  });

  it('may say none wherever there is nothing', () => {
    const none = ['gives', 'voided-by', 'due', 'values', 'adjusters', 'worksheets', 'any-order', 'verified'];
    const procedure = procedureWith(Object.fromEntries(none.map((key) => [key, 'none'])));
    expect([procedure.gives, procedure.due]).toEqual([undefined, undefined]);
    expect([procedure.values, procedure.adjusters, procedure.worksheets, procedure.anyOrder]).toEqual([[], [], [], []]);
    expect([procedure.voidedBy, procedure.verified]).toEqual([[], []]);
  });

  it('may name one tool, supply or hazard without a list', () => {
    const procedure = procedureWith({ tools: 'wrench', supplies: 'Two cable ties', hazards: 'moving-header' });
    expect([ids(procedure.tools), procedure.supplies.length, ids(procedure.hazards)]).toEqual([
      ['wrench'],
      1,
      ['moving-header'],
    ]);
  });

  it('may give one time, or a time by machine', () => {
    expect(procedureWith({ time: '20 min' }).time?.total).toMatchObject({ kind: 'one' });
    expect(procedureWith({ time: '{ tarn-40: 20 min, other: 30 min }' }).time?.total).toMatchObject({ kind: 'choice' });
    expect(procedureWith({ time: '{ hands-on: { tarn-40: 20 min, other: 30 min } }' }).time?.handsOn?.kind).toBe(
      'choice',
    );
  });

  it('may say how often it is due', () => {
    expect(procedureWith({ due: 'every 50 h' }).due).toMatchObject({ kind: 'every', count: 50, unit: 'h' });
    expect(procedureWith({ due: 'every 500 ac' }).due).toMatchObject({ count: 500, unit: 'ac' });
    expect(procedureWith({ due: 'every 12 months' }).due).toMatchObject({ count: 12, unit: 'months' });
  });

  it('may say what it leaves by end, or by the name of a bundle', () => {
    const byEnd = procedureWith({
      leaves: '{ done: { header: on-ground }, stop: none, call-service: { engine: "off" } }',
    });
    expect([...byEnd.leaves.keys()]).toEqual(['done', 'call-service']);
    expect(procedureWith({ leaves: 'safe-to-reach-in' }).leaves.get('done')).toMatchObject({ kind: 'bundle' });
  });

  it('applies by any of its keys', () => {
    const tests = (applies: string) => {
      const found = procedureWith({ applies }).applies;
      return found.kind === 'keys' ? found.tests : [];
    };
    expect(tests('{ header: row-12x20 }')).toMatchObject([{ key: 'header', ids: [{ value: 'row-12x20' }] }]);
    expect(tests('{ header: { type: [row, draper] } }')).toMatchObject([{ key: 'header-type' }]);
    expect(tests('{ option: lateral-tilt, machine: tarn-40 }').map(({ key }) => key)).toEqual(['option', 'machine']);
    expect(tests('{ serials: 70-00100 to 70-00499 }')).toMatchObject([
      { from: { value: '70-00100' }, to: { value: '70-00499' } },
    ]);
    expect(tests('{ serials: from 70-00500 }')).toMatchObject([{ key: 'serials', from: { value: '70-00500' } }]);
    expect(tests('{ serials: to 70-00499 }')).toMatchObject([{ key: 'serials', to: { value: '70-00499' } }]);
    expect(tests('{ software: at least 4.2 }')).toMatchObject([
      { key: 'software', atLeast: { value: '4.2' }, versions: [] },
    ]);
    expect(tests('{ software: { display: at least "4.2" } }')).toMatchObject([
      { key: 'software', module: { value: 'display' } },
    ]);
    expect(tests('{ software: ["3.10", "4.2"] }')).toMatchObject([{ versions: [{ value: '3.10' }, { value: '4.2' }] }]);
    expect(tests('{ not: { machine: tarn-40 } }')).toMatchObject([{ key: 'not', of: { kind: 'keys' } }]);
  });

  it('takes any stretch of a list of serials', () => {
    const { applies } = procedureWith({ applies: '{ serials: [to 70-00200, from 70-04000] }' });
    // not (neither the one nor the other)
    expect(applies).toMatchObject({
      kind: 'keys',
      tests: [
        {
          key: 'not',
          of: {
            tests: [
              { key: 'not', of: { tests: [{ key: 'serials', to: { value: '70-00200' } }] } },
              { key: 'not', of: { tests: [{ key: 'serials', from: { value: '70-04000' } }] } },
            ],
          },
        },
      ],
    });
  });

  it('asks of a state one value, any of a list, or limits', () => {
    const { requires } = procedureWith({
      requires:
        '[{ state: engine, is: ["off", low-idle] }, { state: oil-temperature, is: 40 to 60 degC }, { state: oil-temperature, is: { tarn-40: at least 40 degC, other: at least 50 degC } }]',
    });
    expect(requires.map(({ test }) => test)).toMatchObject([
      { kind: 'words', words: [{ value: 'off' }, { value: 'low-idle' }] },
      { kind: 'limits', limits: { kind: 'one' } },
      { kind: 'limits', limits: { kind: 'choice' } },
    ]);
  });

  it('has values with a decision, an aim, a place and choices within choices', () => {
    const [value] = procedureWith({
      values: `
  supply:
    quantity: voltage
    limits: { tarn-40: { row-12x20: 4.9 to 5.1 V, other: 4.8 to 5.2 V }, other: 0.98 * machine.sensor_supply to 1.02 * machine.sensor_supply }
    nominal: 5.0 V
    read-with: { tarn-40: display, other: multimeter }
    read-at: beside
    decision: three-zone
    only: { option: lateral-tilt }`,
    }).values;
    expect(value).toMatchObject({
      id: 'supply',
      label: { languages: new Map([['en', { value: { parts: [{ text: 'Supply' }] } }]]) },
      limits: { kind: 'choice', entries: [{ value: { kind: 'choice' } }, { value: { kind: 'one' } }] },
      nominal: { kind: 'one' },
      readWith: { kind: 'choice' },
      readAt: { value: 'beside' },
      decision: { value: 'three-zone' },
      only: { kind: 'keys' },
    });
  });

  it('may say in a branch that a state is then unknown', () => {
    const [step] = procedureWith({
      steps:
        '\n  - { id: look, do: Look., expect: It turns., otherwise: { go: stop, means: { height-range: unknown } } }',
    }).steps;
    expect(step?.otherwise?.means).toMatchObject({ kind: 'map', conditions: [{ test: { kind: 'unknown' } }] });
  });

  it('has steps with one hazard or several, a figure, an energized block and every branch', () => {
    const [step, question] = procedureWith({
      steps: `
  - id: read
    do: Read it.
    hazard: moving-header
    figure: { file: figures/a.svg, alt: An arm. }
    energized: { why: It reads only then., keep-away: Three feet., second-person: true }
    needs: { engine: [low-idle, working-speed] }
    sets: { oil-temperature: unknown }
    measure: x
    stale: [x]
    by: 1
    at: beside
    when: { low: up, high: { go: down, means: safe-to-reach-in }, unsure: look, fault: stop }
    waive: [{ code: long-sentence, because: It must be. }]
  - { id: look, ask: Is it so?, answers: { yes: done, no: { go: stop, label: Not at all, because: It broke. } } }`,
    }).steps;
    expect(ids(step?.hazards)).toEqual(['moving-header']);
    expect(step?.figure?.file.value).toBe('figures/a.svg');
    expect(step?.energized?.secondPerson?.languages.has('en')).toBe(true);
    expect(step?.sets).toMatchObject({ kind: 'map', conditions: [{ test: { kind: 'unknown' } }] });
    expect([...(step?.when.keys() ?? [])]).toEqual(['low', 'high', 'unsure', 'fault']);
    expect(step?.when.get('high')?.means).toMatchObject({ kind: 'bundle', name: { value: 'safe-to-reach-in' } });
    expect(question?.answers.map(({ key, label }) => [key.value, label !== undefined])).toEqual([
      ['yes', false],
      ['no', true],
    ]);
  });

  it('lets a waiver cover the map that it stands in, its key and the prose included', () => {
    const lines = Object.entries(required).map(([key, value]) => `${key}: ${value}\n`);
    const file = `---\n${lines.join('')}values:\n  x: { from: 1 V, waive: [{ code: unused-value, because: Later. }] }\nwaive: [{ code: long-sentence, because: So. }]\n---\nProse.\n`;
    const { waivers } = bookWith({ 'check-it.md': file }).procedures.get('check-it') ?? { waivers: [] };
    expect(waivers.map(({ code, within }) => [code.value, file.slice(within.start, within.end)])).toEqual([
      ['long-sentence', file],
      ['unused-value', 'x: { from: 1 V, waive: [{ code: unused-value, because: Later. }] }'],
    ]);
  });
});

describe('shared files', () => {
  it('may give tools as text or map, and texts by machine', () => {
    const book = bookWith({
      'tools.yaml': 'wrench: Wrench, 13 mm\nlamp: { label: Lamp }\nkey: { tarn-40: Long key, other: Key }\n',
    });
    expect([...book.tools.values()].map(({ id, label }) => [id, label.languages.get('en')?.kind])).toEqual([
      ['wrench', 'one'],
      ['lamp', 'one'],
      ['key', 'choice'],
    ]);
  });

  it('may give instruments by machine', () => {
    const book = bookWith({
      'instruments.yaml':
        'display: { quantity: voltage, range: { tarn-40: 0 to 5 V, other: 0 to 10 V }, resolution: 0.01 V, accuracy: { tarn-40: ± 0.02 V, other: 0.5 % of range } }\n',
    });
    expect(book.instruments.get('display')).toMatchObject({ range: { kind: 'choice' }, accuracy: { kind: 'choice' } });
  });

  it('may give the values of a state their own words', () => {
    const book = bookWith({ 'states.yaml': 'states:\n  engine: { is: { "off": Engine off, low-idle: Low idle } }\n' });
    expect(book.states.get('engine')?.values.map(({ id, label }) => [id.value, label !== undefined])).toEqual([
      ['off', true],
      ['low-idle', true],
    ]);
    const mixed = bookWith({
      'states.yaml':
        'states:\n  a: { is: ["off", { low-idle: Low idle }, { working: At work }] }\n  b: { is: { "off": , on: On } }\n',
    });
    const values = (id: string) =>
      mixed.states.get(id)?.values.map((value) => [value.id.value, value.label !== undefined]);
    expect(values('a')).toEqual([
      ['off', false],
      ['low-idle', true],
      ['working', true],
    ]);
    expect(values('b')).toEqual([
      ['off', false],
      ['on', true],
    ]);
  });

  it('may give the software of a unit by module, and headers by id', () => {
    const book = bookWith({
      'fleet.yaml':
        'units:\n  - { id: a, machine: tarn-40, software: { display: "4.2" }, options: none, headers: [row-12x20] }\n  - { id: b, machine: tarn-40, software: "3.10" }\n',
    });
    expect(
      book.fleet.map(({ software, headers }) => [
        software.map(({ module, version }) => [module?.value, version.value]),
        headers.length,
      ]),
    ).toEqual([
      [[['display', '4.2']], 1],
      [[[undefined, '3.10']], 0],
    ]);
  });

  it('may be empty or missing, all but book.yaml', () => {
    const files = new Map([
      ['book.yaml', englishFiles.get('book.yaml') ?? ''],
      ['states.yaml', '# nothing yet\n'],
    ] as const);
    expect(read(files).diagnostics).toEqual([]);
  });

  it('may let a machine agree with itself, call things by header, and start an open stretch of serials', () => {
    const book = bookWith({
      'machines/tarn-40.yaml': `name: Tarn 40
headers: row-12x20
serials: from 70-00100
options: { lamp: { tell: By the lamp. } }
words: { menu: { row-12x20: ROWS, other: HEADER }, page: 3 }
parameters: { a: 2, b: { tarn-40: 4, other: 5 } }
agree: [{ that: b, equals: 2 * a }]
waive: [{ code: unused-word, because: Later. }]
`,
    });
    const machine = book.machines.get('tarn-40');
    expect(machine?.serials).toMatchObject({ from: '70-00100' });
    expect(machine?.serials?.to).toBeUndefined();
    expect(machine?.options[0]).toMatchObject({ id: 'lamp', is: 'optional' });
    expect(machine?.words.get('menu')?.text.kind).toBe('choice');
    expect(machine?.agree).toHaveLength(1);
    expect(book.waivers.map(({ code }) => code.value)).toEqual(['unused-word']);
  });
});
