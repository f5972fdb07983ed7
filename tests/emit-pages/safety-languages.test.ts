// Safety texts in every language of the book: one that is missing is an error, and nothing is built.

import { describe, expect, it } from 'vitest';
import { compileBook } from '../../src/build.js';
import type { Site } from '../../src/emit/pages/context.js';
import { ruleName } from '../../src/emit/pages/proof-words.js';
import { voiceFor } from '../../src/emit/voice.js';
import { readBook } from '../../src/read/book.js';
import { bookOf, filesOfBook } from './books.js';

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
  const rules = safety.slice(safety.indexOf('rules:'));

  it('is in order as it is', () => {
    expect(errorsWith('safety.yaml', safety)).toEqual([]);
  });

  it('is refused without any one of its Spanish safety texts', () => {
    const own = [...hazards.matchAll(/(?:what|harm|avoid): \{ en: .*?, es: .*? \}/g)].map(([text]) => text);
    const labels = [...rules.matchAll(/label: \{ en: .*?, es: .*? \}/g)].map(([text]) => text);
    expect(labels.length).toBe([...rules.matchAll(/- id: /g)].length);
    const inline = [...own, ...labels];
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

  it('calls its rules by their labels in the language of the page, and one without a label by the words of its id', () => {
    const without = safety.replace(/\n {4}label: \{ en: Brake.*/, '');
    expect(without).not.toBe(safety);
    const { resolved } = bookOf(new Map([...texts, ['safety.yaml', without]]), { figures, proved: false });
    const named = (language: string): readonly string[] => {
      const page = { site: { book: resolved } as Site, voice: voiceFor(language, 'en') };
      return resolved.world.rules.map(({ id }) => ruleName(page, id).html);
    };
    expect(named('en')[0]).toBe('Under the header');
    expect(named('es')[0]).toBe('Debajo del cabezal');
    expect(named('es').at(-1)).toBe('brake before you get down');
    const { rules: open } = compileBook(resolved, figures);
    expect(open.map(({ label }) => label?.es)).toEqual([...named('es').slice(0, -1), undefined]);
  });
});
