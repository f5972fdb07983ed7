// Addresses: links that work below any path, codes to read out, labels of steps.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { relativeLink } from '../../src/emit/pages/context.js';
import { shortCode, shortCodes, spokenCode } from '../../src/emit/short-code.js';
import { stepLabel } from '../../src/emit/step-label.js';

const segment = fc.constantFrom('a', 'b', 'c', 'row-12x20');
const folder = fc.array(segment, { maxLength: 4 }).map((parts) => parts.map((part) => `${part}/`).join(''));

describe('a link between two pages', () => {
  // resolved by the URL Standard (WHATWG), as a browser does
  it('leads from any page to any other, whatever path the site stands under', () => {
    fc.assert(
      fc.property(
        folder,
        folder,
        fc.constantFrom('', 'page.html', 'data/book.json'),
        folder,
        (from, to, file, base) => {
          const start = `https://host.example/${base}${from}index.html`;
          const goal = `https://host.example/${base}${to}${file}`;
          expect(new URL(relativeLink(`${from}index.html`, to + file), start).href).toBe(goal);
        },
      ),
    );
  });

  it('never begins with a slash or a scheme', () => {
    expect(relativeLink('a/b/index.html', 'a/b/')).toBe('./');
    expect(relativeLink('index.html', 'a/')).toBe('a/');
    expect(relativeLink('a/b/index.html', '')).toBe('../../');
  });
});

describe('a short code', () => {
  it('is six signs that neither look nor sound alike, the same each time', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(shortCode(text)).toMatch(/^[2-9ACDEFGHJKMNPQRTWXYZ]{6}$/);
        expect(shortCode(text)).toBe(shortCode(text));
      }),
    );
    expect(spokenCode('KYA4TY')).toBe('KYA\u00a04TY');
  });

  it('is another one for each of many pages', () => {
    const pages = Array.from({ length: 30_000 }, (_, i) => `tarn-40/row-12x20/page-${i}/ 3 hash`);
    const codes = shortCodes(pages);
    expect(new Set(codes.values()).size).toBe(pages.length);
  });
});

describe('the label of a step', () => {
  it('counts what a step runs under it, and what an end runs by a letter', () => {
    expect(stepLabel({ number: 6 })).toBe('6');
    expect(stepLabel({ number: 2 }, '4')).toBe('4.2');
    expect(stepLabel({ number: 2 }, '4.1')).toBe('4.1.2');
    expect(stepLabel({ number: 1 }, 'E')).toBe('E1');
    expect(stepLabel({ number: 3 }, 'E1')).toBe('E1.3');
  });
});
