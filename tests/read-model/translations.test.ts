// Translations: texts by key, step id and state come together with their originals; what does not fit is reported.

import { describe, expect, it } from 'vitest';
import type { Text } from '../../src/model/text.js';
import { changed, englishFiles, type Files, placesOf, read, withoutHints } from './books.js';

const original = `---
title: Set the sensors
kind: adjustment
summary: Turns each sensor body.
revision: 3
status: draft
applies: all
tools: none
supplies: [Two cable ties]
hazards: none
requires:
  - { state: engine, is: "off", shown-by: The engine stands., if-missed: It may start. }
leaves: none
for-each: { side: [left, right] }
values:
  on_ground: { label: Sensor on the ground, quantity: voltage, limits: 3.6 to 4.2 V, read-with: display }
steps:
  - { id: turn, do: "Turn the {side} sensor.", expect: It turns., otherwise: { because: It is rusty., go: stop } }
  - { id: ask, ask: Is it tight?, answers: { yes: done, no: turn-left } }
---

## turn

The {side} screw is short.
`;

const translation = `---
translates: 3
title: Ajustar los sensores
summary: Gira cada sensor.
supplies: [Dos precintos]
requires:
  engine: { shown-by: El motor está parado., if-missed: Puede arrancar. }
for-each: { side: { left: izquierdo, right: derecho } }
values:
  on_ground: { label: Sensor en el suelo }
steps:
  turn: { do: "Gire el sensor {side}.", expect: Gira., otherwise: { because: Está oxidado. } }
  ask: { ask: ¿Está firme?, answers: { yes: Sí, no: "No" } }
---

## turn

El tornillo {side} es corto.
`;

function bookWith(files: Readonly<Record<string, string>>): Files {
  const bilingual = changed(englishFiles.get('book.yaml') ?? '', 'languages: [en]', 'languages: [en, es]');
  const safety = changed(
    englishFiles.get('safety.yaml') ?? '',
    /hazards:[\s\S]*?(?=conditions:)/.exec(englishFiles.get('safety.yaml') ?? '')?.[0] ?? '',
    '',
  );
  const book = new Map([...englishFiles, ['book.yaml', bilingual] as const, ['safety.yaml', safety] as const]);
  for (const [path, text] of Object.entries(files)) book.set(path, text);
  return book;
}

function spanish(text: Text | undefined): string | undefined {
  const choice = text?.languages.get('es');
  return choice?.kind === 'one'
    ? choice.value.parts.map((part) => (part.kind === 'words' ? part.text : `<${part.path}>`)).join('')
    : undefined;
}

const own = (files: Files, path: string) => {
  const { diagnostics } = read(files);
  return placesOf(diagnostics, files).filter((place) => place.startsWith(path));
};

describe('a translation', () => {
  const files = bookWith({ 'sensors/both.md': original, 'sensors/both.es.md': translation });

  it('is read without a word where it says all', () => {
    expect(own(files, 'sensors/both')).toEqual([]);
    expect(placesOf(withoutHints(read(files).diagnostics), files)).toEqual([]);
  });

  it('comes together with its original', () => {
    const procedure = read(files).book.procedures.get('both');
    expect(spanish(procedure?.title)).toBe('Ajustar los sensores');
    expect(procedure?.supplies.map(spanish)).toEqual(['Dos precintos']);
    expect(spanish(procedure?.requires[0]?.ifMissed)).toBe('Puede arrancar.');
    expect(spanish(procedure?.values[0]?.label)).toBe('Sensor en el suelo');
    expect(procedure?.steps.map((step) => [step.id.value, spanish(step.do), spanish(step.otherwise?.because)])).toEqual(
      [
        ['turn-left', 'Gire el sensor izquierdo.', 'Está oxidado.'],
        ['turn-right', 'Gire el sensor derecho.', 'Está oxidado.'],
        ['ask', undefined, undefined],
      ],
    );
    expect(procedure?.steps[2]?.answers.map(({ key, label }) => [key.value, spanish(label)])).toEqual([
      ['yes', 'Sí'],
      ['no', 'No'],
    ]);
    expect(procedure?.translations.get('es')).toMatchObject({ file: 'sensors/both.es.md', translates: { value: 3 } });
    const prose = procedure?.prose
      .get('es')
      ?.map(({ step, body }) => [step, body.parts.map((part) => part.kind === 'words' && part.text).join('')]);
    expect(prose).toEqual([
      ['turn-left', 'El tornillo izquierdo es corto.'],
      ['turn-right', 'El tornillo derecho es corto.'],
    ]);
  });

  const faults: readonly (readonly [string, string, string, readonly string[]])[] = [
    ['of an older revision', 'translates: 3', 'translates: 2', ['sensors/both.es.md:2:13-2:14 translation-behind']],
    ['without its revision', 'translates: 3\n', '', ['sensors/both.es.md:2:1-2:6 missing-key']],
    [
      'with a typed part',
      'on_ground: { label: Sensor en el suelo }',
      'on_ground: { label: Sensor, limits: 3 to 4 V }',
      ['sensors/both.es.md:10:31-10:37 typed-translation'],
    ],
    [
      'with a typed key',
      'title: Ajustar',
      'kind: adjustment\ntitle: Ajustar',
      ['sensors/both.es.md:3:1-3:5 typed-translation'],
    ],
    [
      'with a step that is not there',
      '  ask: { ask',
      '  asks: { ask',
      ['sensors/both.es.md:13:3-13:7 extra-translation', 'sensors/both.md:19:21-19:33 missing-translation'],
    ],
    [
      'with a text that is not there',
      'expect: Gira.,',
      'expect: Gira., note: Despacio.,',
      ['sensors/both.es.md:12:56-12:60 extra-translation'],
    ],
    [
      'with a state that is not there',
      '  engine: { shown',
      '  motor: { shown',
      [
        'sensors/both.es.md:7:3-7:8 extra-translation',
        'sensors/both.md:12:43-12:61 missing-translation',
        'sensors/both.md:12:74-12:87 missing-translation',
      ],
    ],
    [
      'with a text too many',
      '[Dos precintos]',
      '[Dos precintos, Cinta]',
      ['sensors/both.es.md:5:27-5:32 extra-translation'],
    ],
    ['that lacks a text', 'summary: Gira cada sensor.\n', '', ['sensors/both.md:4:10-4:33 missing-translation']],
    [
      'with a misspelt key',
      'summary: Gira',
      'sumary: Gira',
      ['sensors/both.es.md:4:1-4:7 unknown-key', 'sensors/both.md:4:10-4:33 missing-translation'],
    ],
  ];
  for (const [name, from, to, places] of faults) {
    it(`${name} is reported`, () => {
      const changedFiles = bookWith({
        'sensors/both.md': original,
        'sensors/both.es.md': changed(translation, from, to),
      });
      expect(own(changedFiles, 'sensors/both')).toEqual(places);
    });
  }

  it('that is missing as a whole is one hint', () => {
    const alone = bookWith({ 'sensors/both.md': original });
    expect(own(alone, 'sensors/both')).toEqual(['sensors/both.md:2:8-2:23 missing-translation']);
    expect(withoutHints(read(alone).diagnostics)).toEqual([]);
  });

  it('of nothing, or into a language that the book has not, is reported', () => {
    const stray = bookWith({ 'sensors/other.es.md': translation });
    expect(own(stray, 'sensors/other')).toEqual(['sensors/other.es.md:1:1-1:4 translation-without-original']);
    const french = bookWith({
      'sensors/both.md': original,
      'sensors/both.es.md': translation,
      'sensors/both.fr.md': translation,
    });
    expect(own(french, 'sensors/both')).toEqual(['sensors/both.fr.md:1:1-1:4 unknown-language']);
    const twice = bookWith({
      'sensors/both.md': original,
      'sensors/both.es.md': translation,
      'sensors/both.en.md': translation,
    });
    expect(own(twice, 'sensors/both')).toEqual(['sensors/both.en.md:1:1-1:4 unknown-language']);
  });
});

describe('texts by language', () => {
  it('may be nested with choices by machine, either way round', () => {
    const title = '{ en: { tarn-40: One, other: Two }, es: { tarn-40: Uno, other: Dos } }';
    const turned = '{ tarn-40: { en: One, es: Uno }, other: { en: Two, es: Dos } }';
    for (const text of [title, turned]) {
      const files = bookWith({
        'sensors/both.md': changed(original, 'title: Set the sensors', `title: ${text}`),
        'sensors/both.es.md': changed(translation, 'title: Ajustar los sensores\n', ''),
      });
      expect(own(files, 'sensors/both')).toEqual([]);
      const choice = read(files).book.procedures.get('both')?.title.languages.get('es');
      expect(choice).toMatchObject({
        kind: 'choice',
        entries: [
          { key: { value: 'tarn-40' }, value: { value: { parts: [{ text: 'Uno' }] } } },
          { key: { value: 'other' }, value: { value: { parts: [{ text: 'Dos' }] } } },
        ],
      });
    }
  });

  it('must have the first language, and no other than the book has', () => {
    const files = bookWith({
      'tools.yaml': 'wrench: { es: Llave }\nhammer: { en: Hammer, es: Martillo, fr: Marteau }\n',
    });
    expect(own(files, 'tools')).toEqual([
      'tools.yaml:1:9-1:22 missing-language',
      'tools.yaml:2:37-2:39 unknown-language',
    ]);
  });

  it('of hazards must be there in every language', () => {
    const files = bookWith({ 'safety.yaml': englishFiles.get('safety.yaml') ?? '' });
    const found = withoutHints(read(files).diagnostics);
    expect(found.map(({ code, severity }) => [code, severity])).toEqual([
      ['missing-language', 'error'],
      ['missing-language', 'error'],
      ['missing-language', 'error'],
    ]);
  });

  it('elsewhere are one hint for each file', () => {
    const files = bookWith({});
    const hints = read(files).diagnostics.filter(({ at }) => at.file === 'instruments.yaml');
    expect(hints.map(({ message, related }) => [message, related.length])).toEqual([
      ['3 texts of this file are not translated into `es`', 2],
    ]);
  });
});
