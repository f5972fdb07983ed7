// Patterns for small letters find what patterns for any capitals find. The other method is the engine's own: the flags `iu`.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { caseless } from '../../src/text/caseless.js';

const shapes = [
  '(?<![\\p{L}\\p{N}-])(?:Left|paño)(?:s|es)?(?![\\p{L}\\p{N}-])',
  '^(\\p{L}+|\\d+)\\s+TIMES(?!\\p{L})',
  '(?:^|[\\s(|:=])as [^\\S\\n]*far[\\s|(]+$',
  '(?<unit>\\p{L}+) (?:and|[±y]) a half',
  '\\S\\b[A-F\\u00a0]+\\B',
  'x*',
];
const piece = fc.constantFrom(
  ...'left|Left|LEFTS|paño|PAÑOS|Paños|3|times|Times|as|far|AS|FAR|hour|Hour|and|y|±|a|half|-|(|:|.| |  |\n|\u00a0|é|É|İ|x|cafe|ABBA'.split(
    '|',
  ),
);
const texts = fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join(''));

describe('a pattern whatever the capitals', () => {
  it.each(shapes)('finds the same words at the same places as one with the flags iu: %s', (shape) => {
    const pattern = caseless(shape);
    fc.assert(
      fc.property(texts, (text) => {
        const all = [...text.matchAll(new RegExp(shape, 'giu'))];
        const places = all.map((found) => [found.index, found[0], found[1]?.toLowerCase()]);
        const own = pattern.matchAll(text).map((found) => [found.index, found[0], found[1]?.toLowerCase()]);
        expect(own).toEqual(places);
        expect(pattern.test(text)).toBe(all.length > 0);
        expect(pattern.exec(text)?.index).toBe(all[0]?.index);
        expect(pattern.cut(text)).toBe(text.replace(new RegExp(shape, 'iu'), ''));
      }),
    );
  });

  it('asked again after a text in which it found something, begins at the front', () => {
    const pattern = caseless('lower');
    expect(pattern.test('Raise, then lower')).toBe(true);
    expect(pattern.test('Lower')).toBe(true);
  });
});
