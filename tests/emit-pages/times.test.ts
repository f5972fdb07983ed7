// Times that stand side by side on a page.

import { describe, expect, it } from 'vitest';
import { drawReady } from '../../src/emit/pages/before.js';
import { inOneUnit } from '../../src/emit/pages/times.js';
import { voiceFor } from '../../src/emit/voice.js';
import { bookOf, filesOfBook } from './books.js';

describe('times side by side', () => {
  it.each([
    [
      'are in the finest unit of them',
      ['122\u00a0min', '2\u00a0h', '2\u00a0min'],
      ['122\u00a0min', '120\u00a0min', '2\u00a0min'],
    ],
    ['keep each end of a range', ['1.5 to 2\u00a0h', '30\u00a0s'], ['5400 to 7200\u00a0s', '30\u00a0s']],
    ['keep what is only an upper end', ['at most 2\u00a0h', '5\u00a0min'], ['at most 120\u00a0min', '5\u00a0min']],
    ['stay as they are written in one unit', ['2.0\u00a0h', '1\u00a0h'], ['2.0\u00a0h', '1\u00a0h']],
    ['are none where there is none', [], []],
  ])('%s', (_, written, shown) => {
    expect(inOneUnit(written)).toEqual(shown);
  });

  it('are so on the page of a procedure, in each language', () => {
    const { texts } = filesOfBook('tests/books/base');
    const path = 'sensors/learn-height-range.md';
    const text = texts.get(path) ?? '';
    texts.set(path, text.replace(/^time: .*$/m, 'time: { hands-on: 2 h, waiting: 2 min, total: 122 min }'));
    expect(texts.get(path)).not.toBe(text);
    const [variant] = bookOf(texts, { proved: false }).resolved.variants;
    if (!variant) throw new Error('The book has no procedure');
    const said = (language: string): string => drawReady(variant.procedure, voiceFor(language, 'en')).html;
    expect(said('en')).toContain('122\u00a0min, 120\u00a0min of work, 2\u00a0min of waiting');
    expect(said('es')).toContain('122\u00a0min, 120\u00a0min de trabajo, 2\u00a0min de espera');
  });
});
