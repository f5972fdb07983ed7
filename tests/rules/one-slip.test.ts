// One slip, one message: in a whole book, at the place of the slip, with what follows from it beside it.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeChecker } from '../../src/compile.js';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { filesOf } from './page.js';

const demo = filesOf(join(import.meta.dirname, '../../procedures'));
const figures = new Set([...demo.keys()].filter((path) => path.startsWith('figures/')));
const isText = (path: string): boolean => /\.(?:md|yaml)$/.test(path);
const check = makeChecker();

type Change = readonly [path: string, from: string | RegExp, to: string];

function checkWith(...changes: readonly Change[]): readonly Diagnostic[] {
  const texts = new Map([...demo].filter(([path]) => isText(path)));
  for (const [path, from, to] of changes) {
    const before = texts.get(path) ?? '';
    const after = before.replace(from, () => to);
    expect(after).not.toBe(before);
    texts.set(path, after);
  }
  const sources = new Map([...texts].map(([path, text]) => [path, { path, text }]));
  const { diagnostics } = check({ sources, figures, today: '2026-11-24' });
  return diagnostics.filter(({ severity }) => severity !== 'hint');
}

/** The step with this id, left out. */
function dropped(path: string, id: string): Change {
  return [path, new RegExp(`  - id: ${id.replaceAll(/[{}]/g, '\\$&')}\n(?:    .*\n)+`), ''];
}

/** `code path`, of each diagnostic. */
const told = (diagnostics: readonly Diagnostic[]): readonly string[] =>
  diagnostics.map(({ code, at }) => `${code} ${at.file}`);

const beside = (diagnostics: readonly Diagnostic[]): string =>
  diagnostics.flatMap(({ related }) => related.map(({ message }) => message)).join('\n');

const learn = 'first-pass/learn-height-range.md';
const sensors = 'first-pass/check-height-sensor.md';
const massFlow = 'in-the-crop/mass-flow.md';
const couple = 'hook-up/couple-header.md';

describe('a step that was lost', { timeout: 60_000 }, () => {
  it.each([
    ['is told where the order breaks', learn, 'store-high', `end-state-not-met ${learn}`],
    ['is told where a reading is missed', learn, 'read-on-ground', `derived-from-stale ${learn}`],
    ['is told where it is named', massFlow, 'judge', `unknown-step ${massFlow}`],
    ['is told where others are then passed by', couple, 'lift', `unreachable-step ${couple}`],
    ['is told by its translation', learn, 'store-low', 'extra-translation first-pass/learn-height-range.es.md'],
    ['of each side is told once', sensors, 'turn-{side}', 'extra-translation first-pass/check-height-sensor.es.md'],
    [
      'though it is spelt much like another',
      sensors,
      'clean-{side}',
      'extra-translation first-pass/check-height-sensor.es.md',
    ],
    ['is told once for the rigs of each step that counts on it', couple, 'relieve', `cannot-move-here ${couple}`],
    ['is told once, though it did more than one thing', couple, 'safe', `need-not-met ${couple}`],
    ['is told once for the rigs of what counts on it', couple, 'latch', `requires-not-met-at-run ${couple}`],
  ])('%s', (_, path, id, expected) => {
    expect(told(checkWith(dropped(path, id)))).toEqual([expected]);
  });

  it('has the heading of its detail, and what is then unused, beside it', () => {
    const found = checkWith(dropped(sensors, 'turn-{side}'));
    expect(beside(found)).toContain('No step has the id `turn-right`');
    expect(beside(found)).toContain('No step turns `turn_left`');
  });

  it('does not hush a heading that is another step misspelt', () => {
    const found = checkWith(dropped(learn, 'store-low'), [learn, '## note-span', '## note-spam']);
    expect(told(found)).toContain(`heading-like-step ${learn}`);
  });
});

describe('an instrument with a wrong number', { timeout: 60_000 }, () => {
  it.each([
    ['display', 'resolution: 0.01 V', 'resolution: 0.1 V'],
    ['multimeter', 'resolution: 0.001 V', 'resolution: 0.1 V'],
    ['tape', 'resolution: 0.05 in', 'resolution: 5 in'],
    ['mass-display', 'resolution: 10 lb', 'resolution: 1000 lb'],
  ])('is told once, where `%s` is described', (_, from, to) => {
    expect(told(checkWith(['instruments.yaml', from, to]))).toEqual(['counts-do-not-fit instruments.yaml']);
  });

  it('does not hush a value that is read with another', () => {
    const found = checkWith(
      ['instruments.yaml', 'resolution: 0.01 V', 'resolution: 0.1 V'],
      [sensors, 'limits: machine.sensor_supply', 'limits: 5.0 ± 0.001 V'],
    );
    expect(told(found)).toContain(`acceptance-empty ${sensors}`);
  });
});

describe('a value that is worked out from one thing twice', { timeout: 60_000 }, () => {
  it('is told there, with the limits that it then always keeps beside it', () => {
    const found = checkWith([massFlow, 'max(error) - min(error)', 'max(error) - max(error)']);
    expect(told(found)).toEqual([`argument-twice ${massFlow}`]);
    expect(beside(found)).toContain('`spread` can never miss its limits');
  });

  it('stands beside limits that it can never keep: that is an error', () => {
    const found = checkWith([learn, 'on_ground - raised', 'on_ground - on_ground']);
    expect(told(found)).toEqual([`derived-limits-impossible ${learn}`]);
    expect(beside(found)).toContain('`on_ground` again');
  });

  it('does not hush what is said of another result', () => {
    const found = checkWith(
      [massFlow, 'max(error) - min(error)', 'max(error) - max(error)'],
      [massFlow, 'from: mean(error)', 'from: mean(error) - mean(error)'],
    );
    expect(told(found)).toEqual([`argument-twice ${massFlow}`, `argument-twice ${massFlow}`]);
  });
});

describe('a step that does the wrong thing', { timeout: 60_000 }, () => {
  it.each([
    ['runs another procedure', couple, 'run: shut-down', 'run: back-to-work', 'requires-not-met-at-run'],
    ['sets what cannot be', sensors, 'sets: { motion: stopped }', 'sets: { motion: running }', 'state-not-possible'],
    [
      'moves what cannot move there',
      sensors,
      '  - id: cover-{side}\n',
      '  - id: cover-{side}\n    sets: { header: raised }\n',
      'cannot-move-here',
    ],
  ])('%s, and is told once', (_, path, from, to, code) => {
    expect(told(checkWith([path, from, to]))).toEqual([`${code} ${path}`]);
  });
});

describe('a word that the whole book counts on', { timeout: 120_000 }, () => {
  const states = 'states.yaml';
  const safety = 'safety.yaml';

  it.each([
    ['a start beside the machine', states, 'start: cab', 'start: beside', 'start-unlike-procedures'],
    ['a start of the lift stop', states, 'start: stowed', 'start: placed', 'start-unlike-procedures'],
    ['a rule for another place', safety, 'person: under-header', 'person: beside', 'rule-unlike-procedures'],
    ['a rule without its place', safety, '    when: { person: under-header }\n', '', 'rule-unlike-procedures'],
    [
      'a rule with `must` and `when` exchanged',
      safety,
      /when: (\{ person: under-header \})\n {4}must:/,
      'must: { person: under-header }\n    when:',
      'rule-unlike-procedures',
    ],
  ])('is told once, where it stands: %s', (_, path, from, to, code) => {
    const found = checkWith([path, from, to]);
    expect(told(found)).toEqual([`${code} ${path}`]);
    expect(found[0]?.related.length).toBeGreaterThan(2);
  });

  it('does not hush a procedure that is wrong by itself', () => {
    const found = checkWith(
      [states, 'start: cab', 'start: well-clear'],
      [learn, 'sets: { header: on-ground }\n    then: done', 'sets: { header: working-height }\n    then: done'],
    );
    expect(told(found)).toContain(`end-state-not-met ${learn}`);
    expect(told(found)).toContain(`start-unlike-procedures ${states}`);
  });
});

describe('steps in any order that need one another', { timeout: 60_000 }, () => {
  it.each([
    [sensors, 'leaves: {', 'any-order: [[engine-off, wait-still, key-live]]\nleaves: {'],
    [learn, 'leaves: {', 'any-order: [[lower, read-on-ground, raise, read-raised]]\nleaves: {'],
    [
      couple,
      'any-order: [[cable, shafts]]',
      'any-order: [[relieve, latch, wipe, hoses-early, plate, hoses-corrie, cable, shafts]]',
    ],
  ])('are told once, where they are said to be free, in %s', (path, from, to) => {
    expect(told(checkWith([path, from, to]))).toEqual([`any-order-unlike-steps ${path}`]);
  });
});

describe('a word of one procedure', { timeout: 60_000 }, () => {
  it.each([
    ['a state that its words show otherwise', learn, 'is: low-idle', 'is: "off"', 'requirement-unlike-steps'],
    [
      'a state that its callers have otherwise',
      sensors,
      'is: low-idle',
      'is: working-speed',
      'requirement-unlike-steps',
    ],
    ['a state whose step is not there', sensors, '    is: set', '    is: released', 'requirement-unlike-steps'],
    [
      'an instrument that is read elsewhere',
      learn,
      'read-with: display',
      'read-with: multimeter',
      'instrument-unlike-steps',
    ],
    [
      'an instrument that reads less',
      sensors,
      'read-with: multimeter',
      'read-with: display',
      'limits-outside-instrument',
    ],
    [
      'a list of states as a map',
      learn,
      /requires:\n[\s\S]*?\nvalues:/,
      'requires: { engine: low-idle }\n\nvalues:',
      'wrong-type',
    ],
    [
      'a state as a key',
      sensors,
      '- state: automatic-height\n    is: "off"',
      '- automatic-height: "off"',
      'unknown-key',
    ],
    ['a branch that is gone', learn, / {4}when:\n {6}outside:.*\n {6}fault:.*\n/, '', 'failing-reading-without-branch'],
  ])('is told once, where it stands: %s', (_, path, from, to, code) => {
    expect(told(checkWith([path, from, to]))).toEqual([`${code} ${path}`]);
  });

  it('is offered as it should be', () => {
    const [{ fixes = [] } = {}] = checkWith([learn, 'is: low-idle', 'is: "off"']);
    expect(fixes.map(({ safe, edits }) => [safe, ...edits.map(({ text }) => text)])).toEqual([[false, 'low-idle']]);
  });

  it('is not told of a caller that lost a step', () => {
    const found = checkWith(dropped('wrong/range-not-stored.md', 'idle'));
    expect(told(found).join()).not.toContain('requirement-unlike-steps');
  });
});
