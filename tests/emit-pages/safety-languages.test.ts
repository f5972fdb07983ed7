// Safety texts in every language of the book: one that is missing is an error, and nothing is built.

import { describe, expect, it } from 'vitest';
import { readBook } from '../../src/read/book.js';
import { filesOfBook } from './books.js';

const { texts, figures } = filesOfBook('procedures');

/** Errors of the demo book with one of its files in other words. */
function errorsWith(file: string, text: string): readonly string[] {
  const sources = new Map([...texts].map(([path, own]) => [path, { path, text: path === file ? text : own }]));
  const { diagnostics } = readBook(sources, new Set(figures.keys()));
  return diagnostics.filter(({ severity }) => severity === 'error').map(({ code }) => code);
}

describe('the demo book', () => {
  const safety = texts.get('safety.yaml') ?? '';
  const hazards = safety.slice(safety.indexOf('hazards:'), safety.indexOf('conditions:'));

  it('is in order as it is', () => {
    expect(errorsWith('safety.yaml', safety)).toEqual([]);
  });

  it('is refused without any one of its Spanish safety texts', () => {
    const inline = [...hazards.matchAll(/(?:what|harm|avoid): \{ en: .*?, es: .*? \}/g)].map(([text]) => text);
    const blocks = [...hazards.matchAll(/\n {6}es: .*/g)].map(([text]) => text);
    expect(inline.length + blocks.length).toBeGreaterThan(20);
    for (const text of inline) {
      const without = safety.replace(text, text.replace(/, es: .* \}$/, ' }'));
      expect([text, without === safety, errorsWith('safety.yaml', without)]).toEqual([
        text,
        false,
        ['missing-language'],
      ]);
    }
    for (const text of blocks) {
      expect([text, errorsWith('safety.yaml', safety.replace(text, ''))]).toEqual([text, ['missing-language']]);
    }
  });
});
