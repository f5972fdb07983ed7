// `for-each`: what is written once is there for each side, in order, its names and references along with it.

import { describe, expect, it } from 'vitest';
import type { Procedure } from '../../src/model/procedure.js';
import type { Text } from '../../src/model/text.js';
import { englishFiles, placesOf, read } from './books.js';

const head = `---
title: Set the sensors
kind: adjustment
summary: Turns each sensor body.
revision: 1
status: draft
applies: all
tools: none
supplies: none
hazards: none
requires: none
leaves: none
`;

function procedureOf(typed: string, prose = ''): Procedure {
  const files = new Map(englishFiles).set('sensors/both.md', `${head}${typed}---\n${prose}`);
  const { book, diagnostics } = read(files);
  expect(placesOf(diagnostics, files)).toEqual([]);
  const found = book.procedures.get('both');
  if (!found) throw new Error('not read');
  return found;
}

function wordsOf(text: Text | undefined): string {
  const choice = text?.languages.get('en');
  if (choice?.kind !== 'one') return '';
  return choice.value.parts.map((part) => (part.kind === 'place' ? `<${part.path}>` : part.text)).join('');
}

const values = `for-each: { side: [left, right] }
values:
  "on_ground_{side}": { label: "Sensor, {side} end", quantity: voltage, limits: 3.6 to 4.2 V, read-with: display }
  difference: { label: Difference, from: on_ground_left - on_ground_right, limits: -0.1 to 0.1 V }
`;

describe('for-each', () => {
  it('repeats values with the word in their name, and leaves others alone', () => {
    const procedure = procedureOf(`${values}steps:\n  - { id: look, do: Look. }\n`);
    expect(procedure.values.map(({ id, label }) => [id, wordsOf(label)])).toEqual([
      ['on_ground_left', 'Sensor, left end'],
      ['on_ground_right', 'Sensor, right end'],
      ['difference', 'Difference'],
    ]);
  });

  it('repeats a run of steps whole, side by side, and its references follow', () => {
    const procedure = procedureOf(`${values}steps:
  - { id: start, do: Stop the engine. }
  - { id: turn, do: "Turn the {side} sensor." }
  - { id: read, do: "Read the {side} sensor: {on_ground_{side}}.", measure: "on_ground_{side}", when: { outside: { go: turn, at-most: 3, else: call-service } }, then: "wait-{side}" }
  - { id: "wait-{side}", do: "Wait at the {side} end." }
  - { id: end, do: Start the engine. }
`);
    expect(procedure.steps.map(({ id, do: act }) => [id.value, wordsOf(act)])).toEqual([
      ['start', 'Stop the engine.'],
      ['turn-left', 'Turn the left sensor.'],
      ['read-left', 'Read the left sensor: <on_ground_left>.'],
      ['wait-left', 'Wait at the left end.'],
      ['turn-right', 'Turn the right sensor.'],
      ['read-right', 'Read the right sensor: <on_ground_right>.'],
      ['wait-right', 'Wait at the right end.'],
      ['end', 'Start the engine.'],
    ]);
    const read = procedure.steps.find(({ id }) => id.value === 'read-right');
    expect(read?.measure.map(({ value }) => value)).toEqual(['on_ground_right']);
    expect(read?.when.get('outside')?.go.value).toBe('turn-right');
    expect(read?.when.get('outside')?.otherwise?.go.value).toBe('call-service');
    expect(read?.then?.go.value).toBe('wait-right');
    expect(read?.repeated).toEqual({ variable: 'side', value: 'right' });
    expect(procedure.steps[0]?.repeated).toBeUndefined();
  });

  it('takes two runs apart where a step without the word stands between them', () => {
    const procedure = procedureOf(`${values}steps:
  - { id: first, do: "See the {side} end." }
  - { id: middle, do: Go round. }
  - { id: second, do: "See the {side} end again." }
`);
    expect(procedure.steps.map(({ id }) => id.value)).toEqual([
      'first-left',
      'first-right',
      'middle',
      'second-left',
      'second-right',
    ]);
  });

  it('gives an adjuster its own direction on each side, and its name where the word is not in it', () => {
    const procedure = procedureOf(`${values}adjusters:
  sensor_turn:
    label: Turn the sensor body
    range: -12 to 12 deg
    positive: { left: clockwise, right: anticlockwise }
    moves: { "on_ground_{side}": 0.045 V/deg }
    watch: on_ground_{side}
steps:
  - { id: turn, do: "Turn it.", adjust: sensor_turn }
  - { id: read, do: Read it., measure: "on_ground_{side}" }
`);
    expect(
      procedure.adjusters.map(({ id, positive, moves, watch }) => [
        id,
        wordsOf(positive),
        moves.map(({ value }) => value.value),
        watch?.value,
      ]),
    ).toEqual([
      ['sensor_turn_left', 'clockwise', ['on_ground_left'], 'on_ground_left'],
      ['sensor_turn_right', 'anticlockwise', ['on_ground_right'], 'on_ground_right'],
    ]);
    expect(procedure.steps.map(({ id, adjust }) => [id.value, adjust.map(({ value }) => value)])).toEqual([
      ['turn-left', ['sensor_turn_left']],
      ['read-left', []],
      ['turn-right', ['sensor_turn_right']],
      ['read-right', []],
    ]);
  });

  it('follows values that are repeated under a longer name into expressions and texts', () => {
    const procedure = procedureOf(`for-each: { side: [left, right] }
values:
  low: { label: "Low, {side}", quantity: voltage, limits: 1 to 2 V, read-with: display }
  high: { label: "High, {side}", quantity: voltage, limits: 3 to 4 V, read-with: display }
  travel: { label: "Travel, {side}", from: high - low, limits: 1 to 3 V }
steps:
  - { id: read, do: "Read {low} and {high}.", measure: [low, high, travel] }
`);
    expect(procedure.values.map(({ id, from }) => [id, from?.source.value])).toEqual([
      ['low_left', undefined],
      ['low_right', undefined],
      ['high_left', undefined],
      ['high_right', undefined],
      ['travel_left', 'high_left - low_left'],
      ['travel_right', 'high_right - low_right'],
    ]);
    expect(procedure.steps.map(({ do: act, measure }) => [wordsOf(act), measure.map(({ value }) => value)])).toEqual([
      ['Read <low_left> and <high_left>.', ['low_left', 'high_left', 'travel_left']],
      ['Read <low_right> and <high_right>.', ['low_right', 'high_right', 'travel_right']],
    ]);
  });

  it('lets the groups of any order name steps as they are written', () => {
    const procedure = procedureOf(`${values}any-order: [["check-{side}"], [see, look]]
steps:
  - { id: "check-{side}", do: "Check the {side} end." }
  - { id: see, do: See. }
  - { id: look, do: Look. }
`);
    expect(procedure.anyOrder.map((group) => group.map(({ value }) => value))).toEqual([
      ['check-left', 'check-right'],
      ['see', 'look'],
    ]);
  });

  it('repeats the detail of a step in the prose', () => {
    const steps = 'steps:\n  - { id: turn, do: "Turn the {side} sensor." }\n';
    const procedure = procedureOf(values + steps, '\n## turn\n\nThe {side} screw is short.\n');
    expect(
      procedure.prose
        .get('en')
        ?.map(({ step, body }) => [step, body.parts.map((part) => part.kind === 'words' && part.text).join('')]),
    ).toEqual([
      ['turn-left', 'The left screw is short.'],
      ['turn-right', 'The right screw is short.'],
    ]);
  });

  it('shows a word of its own for a side, and keeps the id in names', () => {
    const procedure = procedureOf(`for-each: { side: { left: left-hand, right: right-hand } }
steps:
  - { id: "turn-{side}", do: "Turn the {side} sensor." }
`);
    expect(procedure.steps.map(({ id, do: act }) => [id.value, wordsOf(act)])).toEqual([
      ['turn-left', 'Turn the left-hand sensor.'],
      ['turn-right', 'Turn the right-hand sensor.'],
    ]);
  });

  it('points at what was written once', () => {
    const files = new Map(englishFiles).set(
      'sensors/both.md',
      `${head}for-each: { side: [left, right] }
values:
  "on_ground_{side}": { label: "Sensor, {side} end", quantity: voltage, limits: 3.6-4.2 V, read-with: display }
steps:
  - { id: look, do: Look. }
---
`,
    );
    expect(placesOf(read(files).diagnostics, files)).toEqual(['sensors/both.md:15:81-15:85 bad-limits']);
  });
});
