// What pages call the words to choose from in a worksheet: the original's own words or its ids, and those of translations.

import { describe, expect, it } from 'vitest';
import type { Text } from '../../src/model/text.js';
import { changed, englishFiles, type Files, placesOf, read } from './books.js';

const sheet = (choices: string): string => `---
title: Weigh loads
kind: calibration
summary: Fills a table in.
revision: 1
status: draft
applies: all
tools: none
supplies: none
hazards: none
requires: none
worksheets:
  loads:
    rows: 2
    columns:
      flow: { label: Flow, choices: ${choices} }
      mass: { label: Mass, unit: kg }
steps:
  - { id: weigh, do: Write both down., measure: loads }
leaves: none
---
`;

const spanish = (column: string): string => `---
translates: 1
title: Pesar cargas
summary: Llena una tabla.
worksheets:
  loads:
    columns:
      flow: { ${column} }
      mass: { label: Masa }
steps:
  weigh: { do: Anote ambas cosas. }
---
`;

function bookWith(choices: string, column: string): Files {
  const bilingual = changed(englishFiles.get('book.yaml') ?? '', 'languages: [en]', 'languages: [en, es]');
  return new Map([
    ...englishFiles,
    ['book.yaml', bilingual] as const,
    ['sensors/sheet.md', sheet(choices)] as const,
    ['sensors/sheet.es.md', spanish(column)] as const,
  ]);
}

function said(text: Text, language: string): string | undefined {
  const choice = text.languages.get(language);
  return choice?.kind === 'one' ? choice.value.source.value : undefined;
}

/** The words of the choices by language, and what is reported of the two files. */
function readWith(choices: string, column: string) {
  const files = bookWith(choices, column);
  const { book, diagnostics } = read(files);
  const [flow] = book.procedures.get('sheet')?.worksheets[0]?.columns ?? [];
  return {
    words: (flow?.choices ?? []).map(({ id, label }) => [id.value, said(label, 'en'), said(label, 'es')]),
    places: placesOf(diagnostics, files).filter((place) => place.startsWith('sensors/sheet')),
  };
}

describe('the words to choose from', () => {
  it('are their ids in the language of the book, and what the translation says in its own', () => {
    const { words, places } = readWith('[low, very-high]', 'label: Flujo, choices: { low: bajo, very-high: muy alto }');
    expect(words).toEqual([
      ['low', 'low', 'bajo'],
      ['very-high', 'very high', 'muy alto'],
    ]);
    expect(places).toEqual([]);
  });

  it('may have words of their own, in one language or in several', () => {
    const { words, places } = readWith(
      '{ low: Little grain, high: { en: Much grain, es: Mucho grano } }',
      'label: Flujo, choices: { low: Poco grano }',
    );
    expect(words).toEqual([
      ['low', 'Little grain', 'Poco grano'],
      ['high', 'Much grain', 'Mucho grano'],
    ]);
    expect(places).toEqual([]);
  });

  it('are missing where a translation lacks one, as any other text is', () => {
    const { places } = readWith('[low, high]', 'label: Flujo, choices: { low: bajo }');
    expect(places).toEqual(['sensors/sheet.md:16:43-16:47 missing-translation']);
    const all = readWith('[low, high]', 'label: Flujo');
    expect(all.places).toEqual([
      'sensors/sheet.md:16:38-16:41 missing-translation',
      'sensors/sheet.md:16:43-16:47 missing-translation',
    ]);
  });

  it('have no translation that the original lacks', () => {
    const { places } = readWith('[low, high]', 'label: Flujo, choices: { low: bajo, high: alto, hgih: alto }');
    expect(places).toEqual(['sensors/sheet.es.md:8:63-8:67 extra-translation']);
  });
});
