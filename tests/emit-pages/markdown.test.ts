// Markdown of the book on the page: what is wanted comes through, what could act does not.

import { describe, expect, it } from 'vitest';
import { blockMarkdown, inlineMarkdown, type Links, plainText } from '../../src/emit/markdown.js';

const links: Links = {
  link: (target) => (target === 'other.md' ? '../other/' : undefined),
  figure: (file) => (file === 'figures/arm.svg' ? '../figures/arm.svg' : undefined),
};
const block = (text: string): string => blockMarkdown(text, { level: 2, links }).html;

describe('one line of markdown', () => {
  it('keeps emphasis and code', () => {
    expect(inlineMarkdown('Hold **LEARN** until `LOW` *shows*.').html).toBe(
      'Hold <strong>LEARN</strong> until <code>LOW</code> <em>shows</em>.',
    );
  });

  it('takes no sign at its start for a list, a heading or a quote', () => {
    for (const text of ['- 12 V is too low', '1. Turn', '# 4 screw', '+ pole']) {
      expect(inlineMarkdown(`${text} **x**`).html).toBe(`${text} <strong>x</strong>`);
    }
    expect(inlineMarkdown('> 5 V **x**').html).toMatch(/^(?:>|&gt;|&#x3E;) 5 V <strong>x<\/strong>$/);
  });

  it('is plain without its marks', () => {
    expect(plainText('Hold **LEARN** now')).toBe('Hold LEARN now');
  });
});

describe('a step that is named by its id', () => {
  const steps: Links = {
    ...links,
    step: (id) => (id === 'lower' ? { href: '#step-4-1', label: '4.1', text: 'step 4.1' } : undefined),
  };
  const shown = (text: string): string => blockMarkdown(text, { level: 2, links: steps }).html;

  it('is shown by its number, which every reader sees beside it', () => {
    expect(shown('Repeat step `lower` now.')).toBe('<p>Repeat step <a href="#step-4-1">4.1</a> now.</p>');
    expect(shown('Steps `lower` and on.')).toBe('<p>Steps <a href="#step-4-1">4.1</a> and on.</p>');
  });

  it('has the word for steps with it, where the text does not say it', () => {
    expect(shown('Go back to `lower`.')).toBe('<p>Go back to <a href="#step-4-1">step 4.1</a>.</p>');
  });

  it('is left as it is, where no step is called so', () => {
    expect(shown('The display shows `LOW`.')).toBe('<p>The display shows <code>LOW</code>.</p>');
  });
});

// the kinds of injection are those of the OWASP Cross Site Scripting Prevention Cheat Sheet
const hostile = [
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  '[press](javascript:alert(1))',
  '[press](JaVaScRiPt:alert(1))',
  '[press](java\u0000script:alert(1))',
  '[press](&#106;avascript:alert(1))',
  '[press](data:text/html;base64,PHNjcmlwdD4=)',
  '[press](vbscript:x)',
  '![x](javascript:alert(1))',
  '![x](https://elsewhere.example/pixel.png)',
  '<a href="javascript:alert(1)">x</a>',
  '<svg onload=alert(1)>',
  '<iframe src="https://elsewhere.example"></iframe>',
  '<style>*{display:none}</style>',
  '"><script>alert(1)</script>',
  '[x]: javascript:alert(1)\n\n[x]',
  '<https://ok.example/"onmouseover="alert(1)>',
];

describe('hostile markdown', () => {
  for (const text of hostile) {
    it(`does not act: ${JSON.stringify(text)}`, () => {
      for (const written of [block(text), inlineMarkdown(text, links).html]) {
        const tags = [...written.matchAll(/<\/?([a-z0-9]+)((?:"[^"]*"|[^">])*)>/g)];
        expect(
          tags.map(([, name]) => name).filter((name) => !['p', 'a', 'strong', 'em', 'code'].includes(name ?? '')),
        ).toEqual([]);
        for (const [, , attributes = ''] of tags) {
          expect(attributes).toMatch(/^(?: (?:href|rel)="[^"]*")*$/);
          expect(attributes).not.toMatch(/href="(?!https?:|mailto:|tel:)/);
        }
      }
    });
  }
});

describe('prose', () => {
  it('keeps links of the book, outside links without a referrer, and pictures of the book', () => {
    expect(block('[a](other.md)')).toBe('<p><a href="../other/">a</a></p>');
    expect(block('[a](missing.md)')).toBe('<p>a</p>');
    expect(block('[a](https://x.example/)')).toBe('<p><a href="https://x.example/" rel="noreferrer">a</a></p>');
    expect(block('![The arm](figures/arm.svg)')).toBe('<p><img src="../figures/arm.svg" alt="The arm"></p>');
    expect(block('![The arm](https://x.example/a.png)')).toBe('<p>The arm</p>');
  });

  it('writes tables in a box that scrolls, aligned by class', () => {
    const table = block('| a | b |\n|---|--:|\n| 1 | 2 |');
    expect(table).toContain('<div class="scroll" tabindex="0"><table>');
    expect(table).toContain('<td class="align-right">2</td>');
    expect(table).not.toContain('style=');
  });

  it('puts its headings below the one they stand under', () => {
    expect(block('### Deep\n\nText')).toContain('<h4>Deep</h4>');
    expect(block('# Top\n\nText')).toContain('<h3>Top</h3>');
  });
});
