// Plain prose is told from the rest: whatever is taken for plain, a parser of markdown reads in the same way.
// The parser is micromark, which passes the examples of CommonMark 0.31.

import fc from 'fast-check';
import type { RootContent } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table';
import { gfmTable } from 'micromark-extension-gfm-table';
import { describe, expect, it } from 'vitest';
import { blockMarkdown } from '../../src/emit/markdown.js';
import { plainHeadings, plainParagraphs } from '../../src/text/plain-prose.js';

const links = { link: () => undefined, figure: () => undefined };

function parsed(text: string): readonly RootContent[] {
  return fromMarkdown(text, { extensions: [gfmTable()], mdastExtensions: [gfmTableFromMarkdown()] }).children;
}

/** Pieces of which a line is made: what means something in markdown stands among words. */
const piece = fc.constantFrom(
  ...'the|Lower|{reading}|3.5 V|é|1.|-|+|*|_|#|##|>|`|``` |~~~|---|===|[a]|[a]: /b|![|](c)|<b>|<!--|&amp;|&|\\|:|(|)|"|¿Qué|https://a.example|www.a.example|a@b.example|'.split(
    '|',
  ),
  '|',
  '| - |',
  ' ',
  '  ',
  '    ',
  '\t',
  '\u00a0',
  '\u00ad',
  '\u2028',
  '\r',
);
const line = fc.array(piece, { maxLength: 5 }).map((pieces) => pieces.join(' '));
const glued = fc.array(piece, { maxLength: 3 }).map((pieces) => pieces.join(''));
const text = fc.array(fc.oneof(line, glued, fc.constant('')), { maxLength: 7 }).map((lines) => lines.join('\n'));
/** Mostly plain, so that most of what is tried is taken for plain. */
const words = fc.array(fc.constantFrom('Lower', 'the', 'header', '3.5\u00a0V', '{reading}', '-', '1.', '+', '='), {
  minLength: 1,
  maxLength: 5,
});
const plainText = fc
  .array(
    fc.oneof(
      words.map((some) => `The ${some.join(' ')}.`),
      words.map((some) => `## ${some.join(' ')}`),
      fc.constant(''),
    ),
    { maxLength: 8 },
  )
  .map((lines) => lines.join('\n'));

describe('plain prose', () => {
  it('has the headings and paragraphs that a parser finds, and nothing else', () => {
    let plain = 0;
    fc.assert(
      fc.property(fc.oneof(text, plainText), (prose) => {
        const headings = plainHeadings(prose);
        if (headings === undefined) return;
        plain += 1;
        const blocks = parsed(prose);
        expect(blocks.filter(({ type }) => type !== 'heading' && type !== 'paragraph')).toEqual([]);
        const found = blocks.flatMap((block) => (block.type === 'heading' ? [block] : []));
        expect(headings.map(({ depth, start, end }) => [depth, start, end])).toEqual(
          found.map(({ depth, position }) => [depth, position?.start.offset, position?.end.offset]),
        );
        const textsOf = (block: RootContent): unknown => ('children' in block ? block.children : undefined);
        expect(headings.map((heading) => [heading.text])).toEqual(
          found.map((block) => block.children.map((child) => (child.type === 'text' ? child.value : child.type))),
        );
        for (const block of blocks) expect(textsOf(block)).toMatchObject([{ type: 'text' }]);
      }),
      { numRuns: 3000 },
    );
    expect(plain).toBeGreaterThan(300);
  });

  it('is drawn as a renderer of markdown would draw it', () => {
    fc.assert(
      fc.property(fc.oneof(text, plainText), (prose) => {
        if (plainParagraphs(prose) === undefined) return;
        // a mark at the end makes the rest go through the parser
        const whole = blockMarkdown(`${prose}\n\n*end*`, { level: 2, links }).html;
        const drawn = blockMarkdown(prose, { level: 2, links }).html;
        expect(drawn === '' ? '<p><em>end</em></p>' : `${drawn}\n<p><em>end</em></p>`).toBe(whole);
      }),
      { numRuns: 3000 },
    );
  });

  it.each([
    ['a list', '- one'],
    ['a numbered list', '1. one'],
    ['a quote', '> one'],
    ['code', '    one'],
    ['a table', 'a | b\n--- | ---'],
    ['a heading that is underlined', 'One\n==='],
    ['a rule', 'One\n\n---'],
    ['emphasis', 'One *two*'],
    ['a link', 'One [two](three)'],
    ['HTML', 'One <b>two</b>'],
    ['an entity', 'One &amp; two'],
    ['an escaped sign', 'One \\# two'],
    ['a hard break', 'One  \ntwo'],
    ['a closed heading', '## One ##'],
    ['lines that end as in Windows', 'One\r\n\r\nTwo'],
  ])('is not %s', (_, prose) => {
    expect(plainHeadings(prose)).toBeUndefined();
  });

  it('tells where its headings are', () => {
    expect(plainHeadings('Before.\n\n## Look-0\n\nAfter\nthis.\n')).toEqual([
      { depth: 2, text: 'Look-0', start: 9, end: 18 },
    ]);
    expect(plainParagraphs('\nOne\ntwo.\n\n\nThree.\n')).toEqual(['One\ntwo.', 'Three.']);
  });
});
