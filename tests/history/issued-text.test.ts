// New lines for the register: whatever stands in it stays, and what is added is read as it was meant.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addIssued, type NewIssue } from '../../src/history/issued-text.js';
import type { IssuedCard } from '../../src/model/book.js';
import { readBook } from '../../src/read/book.js';

const bookText = `# yaml-language-server: $schema=../schema/book.schema.json
title: Book
owner: Desk
phone: 555-0134
url: https://book.example/
languages: [en]
units: us
decision: guarded
`;

const card: NewIssue = {
  code: '234567',
  procedure: 'learn-height-range',
  revision: 3,
  language: 'no',
  rigs: ['tarn-40+row-12x20~tilt@4.2|3.10#(70-00299)..'],
  printed: '1234-5678-9012-3456',
  content: '5f3c-0e91-77ab-42d0',
  unit: 'unit-17',
  place: 'Aldous Farm, cab: left # door',
  on: '2026-11-29',
};

function read(text: string): readonly IssuedCard[] {
  const files = { 'book.yaml': bookText, 'issued.yaml': text };
  const sources = new Map(Object.entries(files).map(([path, own]) => [path, { path, text: own }]));
  const { value, diagnostics } = readBook(sources, new Set());
  expect(diagnostics.filter(({ at, severity }) => at.file === 'issued.yaml' && severity === 'error')).toEqual([]);
  return value?.issued ?? [];
}

function add(text: string | undefined, cards: readonly NewIssue[]): string | undefined {
  return addIssued(
    { issued: text === undefined ? [] : read(text), bookText, ...(text !== undefined && { text }) },
    cards,
  );
}

function plain({ code, procedure, revision, language, rigs, printed, content, unit, place, on }: IssuedCard): NewIssue {
  return {
    code: code.value,
    procedure: procedure.value,
    revision: revision.value,
    language: language.value,
    rigs: rigs.map(({ value }) => value),
    printed: printed.value,
    content: content.value,
    ...(unit && { unit: unit.value }),
    place: place?.value ?? '',
    on: on.value,
  };
}

describe('cards are added', () => {
  it('to a book without a register, with a comment that says what it is and where its schema lies', () => {
    const text = add(undefined, [card]) ?? '';
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=../schema/issued.schema.json');
    expect(read(text).map(plain)).toEqual([card]);
  });

  it.each([
    ['an empty file', ''],
    ['comments alone', '# Nothing yet.\n'],
    ['an empty list', '# Mine.\ncards: []  # none yet\n'.replace('  # none yet', '')],
  ])('to %s', (_, text) => {
    expect(read(add(text, [card]) ?? '').map(plain)).toEqual([card]);
  });

  it('behind the last, with its indent, and nothing else is touched', () => {
    const start = add(undefined, [card]) ?? '';
    const flush = `cards:\n${start.split('\n').at(-2)?.trim()}  # the left one\n\n# To the end.\nwaive: [{ code: issued-to-unknown-unit, because: Sold. }]\n`;
    const after = add(flush, [{ ...card, on: '2026-12-01' }]) ?? '';
    expect(after.split('\n').filter((line) => !flush.split('\n').includes(line))).toHaveLength(1);
    expect(read(after).map(({ on }) => on.value)).toEqual(['2026-11-29', '2026-12-01']);
    expect(after).toContain('# To the end.\nwaive:');
  });

  it('behind a card that is written on lines of its own, and one without a line feed at its end', () => {
    const block = `cards:\n    - code: "234567"\n      procedure: x\n      revision: 3\n      language: en\n      rigs:\n        - "tarn-40+row-12x20"\n      printed: 5f3c-0e91-77ab-42d0\n      content: 5f3c-0e91-77ab-42d0\n      on: 2026-01-01\n`;
    expect(read(add(block, [card]) ?? '').map(({ on }) => on.value)).toEqual(['2026-01-01', '2026-11-29']);
    expect(read(add(block.trimEnd(), [card]) ?? '')).toHaveLength(2);
    expect(read(add(`${block}\n# end\n`, [card]) ?? '')).toHaveLength(2);
  });

  it('not to a list that stands on one line', () => {
    const line = (add(undefined, [card]) ?? '').split('\n').at(-2)?.replace(/^ *- /, '');
    expect(add(`cards: [${line}]\n`, [card])).toBeUndefined();
  });

  it('with any place and code, and are read as they were meant', () => {
    const sign = fc.constantFrom(...'23456789ACDEFGHJKMNPQRTWXYZ');
    const any = fc.record({
      code: fc.array(sign, { minLength: 6, maxLength: 6 }).map((signs) => signs.join('')),
      place: fc
        .string({ unit: 'grapheme', minLength: 1, maxLength: 20 })
        .filter((text) => text.trim() === text && text !== 'none'),
      revision: fc.integer({ min: 1, max: 99 }),
    });
    fc.assert(
      fc.property(
        fc.array(any, { minLength: 1, maxLength: 4 }),
        fc.array(any, { minLength: 1, maxLength: 2 }),
        (first, more) => {
          const cards = [...first, ...more].map((one) => ({ ...card, ...one }));
          const text = add(add(undefined, cards.slice(0, first.length)), cards.slice(first.length)) ?? '';
          expect(read(text).map(plain)).toEqual(cards);
        },
      ),
      { numRuns: 150 },
    );
  });
});
