// Prose and texts: sections, placeholders, links, and what must not reach a page.

import { describe, expect, it } from 'vitest';
import { readProse } from '../../src/read/markdown.js';
import { readTemplate } from '../../src/read/template.js';

function prose(text: string, steps: readonly string[] = []) {
  const before = '---\ntitle: x\n---\n';
  const file = { path: 'a.md', text: before + text };
  const { value, diagnostics } = readProse(file, { start: before.length, end: file.text.length }, new Set(steps));
  const under = (at: { start: number; end: number }): string => file.text.slice(at.start, at.end);
  return {
    sections: value.map(({ heading, step, body }) => [heading?.text, step, under(body.source.at)]),
    value,
    faults: diagnostics.map(({ code, at }) => `${code} ${under(at)}`),
    under,
  };
}

describe('sections', () => {
  it('are cut at the headings of the page, and know their step', () => {
    const found = prose('Intro.\n\n## Why *it*\n\nWords.\n\nlower\n-----\n### Deep\r\nEnd\r\n', ['lower']);
    expect(found.sections).toEqual([
      [undefined, undefined, 'Intro.'],
      ['Why it', undefined, 'Words.'],
      ['lower', 'lower', ''],
      ['Deep', undefined, 'End'],
    ]);
    expect(found.value.map(({ heading }) => heading && found.under(heading.at))).toEqual([
      undefined,
      '## Why *it*',
      'lower\n-----',
      '### Deep',
    ]);
  });

  it('are not cut inside code, quotes or lists, and an empty start is none', () => {
    const found = prose('\n\n# One\n```\n# no\n```\n> # no\n\n- # no\n');
    expect(found.sections.map(([heading]) => heading)).toEqual(['One']);
    expect(prose('').sections).toEqual([]);
    expect(prose(' \n').sections).toEqual([]);
  });

  it('keep an indented start, and hold links and pictures with their places', () => {
    const found = prose(
      '    code\n\n[a](learn.md#x) ![b](figures/a.svg "t") [c](https://x.example) <https://y.example> [d]\n\n[d]: other.md\n',
    );
    const [section] = found.value;
    expect(found.sections[0]?.[2]).toMatch(/^ {4}code/);
    expect(section?.links.map(({ value, at }) => [value, found.under(at)])).toEqual([
      ['learn.md#x', 'learn.md#x'],
      ['other.md', 'other.md'],
    ]);
    expect(section?.images.map(({ value, at }) => [value, found.under(at)])).toEqual([
      ['figures/a.svg', 'figures/a.svg'],
    ]);
    expect(found.faults).toEqual([]);
  });
});

describe('what must not reach a page', () => {
  it.each([
    ['Press <LEARN> now\n', ['raw-html <LEARN>']],
    ['A <b>bold</b> word\n', ['raw-html <b>']],
    ['<script>alert(1)</script>\n', ['raw-html <script>']],
    ['<img src=x onerror=alert(1)>\n', ['raw-html <img src=x onerror=alert(1)>']],
    ['<!-- c --><iframe src="x">\n', ['raw-html <iframe src="x">']],
    ['[a](javascript:alert(1))\n', ['unsafe-link javascript:alert(1)']],
    ['[a](JaVaScRiPt:alert)\n', ['unsafe-link JaVaScRiPt:alert']],
    ['[a](java&#115;cript:alert)\n', ['unsafe-link [a](java&#115;cript:alert)']],
    ['<javascript:alert(1)>\n', ['unsafe-link javascript:alert(1)']],
    ['[a](data:text/html,x)\n', ['unsafe-link data:text/html,x']],
    ['[a](//x.example)\n', ['unsafe-link //x.example']],
    ['[a]\n\n[a]: vbscript:x\n', ['unsafe-link vbscript:x']],
    ['![a](https://x.example/a.png)\n', ['picture-outside-figures https://x.example/a.png']],
    ['![a](../a.png)\n', ['picture-outside-figures ../a.png']],
    ['![a](figures/../../a.png)\n', ['picture-outside-figures figures/../../a.png']],
    ['![a](figures/..)\n', ['picture-outside-figures figures/..']],
    ['![a](/etc/passwd)\n', ['picture-outside-figures /etc/passwd']],
    ['![a](data:image/png;base64,x)\n', ['picture-outside-figures data:image/png;base64,x']],
  ])('%s', (text, faults) => {
    expect(prose(text).faults).toEqual(faults);
  });

  it.each([
    'Below 3 < 4 V, <0.5 V\n',
    '<!-- a comment -->\n',
    'Words <!-- a\ncomment --> more\n',
    '`<b>`\n',
    '\\<LEARN>\n',
    '```\n<b>\n```\n',
  ])('is not: %s', (text) => expect(prose(text).faults).toEqual([]));

  it('is refused whole where it would take the parser too long', () => {
    expect(prose('> '.repeat(5000)).faults.map((fault) => fault.split(' ')[0])).toEqual(['nested-too-deep']);
    expect(prose('x'.repeat(200_001)).faults.map((fault) => fault.split(' ')[0])).toEqual(['prose-too-long']);
  });
});

describe('placeholders', () => {
  function template(value: string) {
    const { value: read, diagnostics } = readTemplate({ value, at: { file: 'a', start: 0, end: value.length } });
    return {
      parts: read.parts.map((part) =>
        part.kind === 'words' ? part.text : [part.path, value.slice(part.at.start, part.at.end)],
      ),
      faults: diagnostics.map(({ code, at }) => `${code} ${value.slice(at.start, at.end)}`),
      diagnostics,
    };
  }

  it.each([
    [
      'Hold {machine.learn_key} for {hold}.',
      ['Hold ', ['machine.learn_key', '{machine.learn_key}'], ' for ', ['hold', '{hold}'], '.'],
    ],
    [
      '{a}{ b.tolerance }',
      [
        ['a', '{a}'],
        ['b.tolerance', '{ b.tolerance }'],
      ],
    ],
    ['{header.row-spacing}', [['header.row-spacing', '{header.row-spacing}']]],
    ['{{a}} {{{b}}}', ['{a} {', ['b', '{b}'], '}']],
    ['No braces', ['No braces']],
    ['', []],
  ])('%s', (text, parts) => {
    const found = template(text);
    expect(found.parts).toEqual(parts);
    expect(found.faults).toEqual([]);
  });

  it.each([
    ['Hold {hold for', ['unclosed-brace {'], 'Hold {{hold for'],
    ['Hold {hold\n}', ['unclosed-brace {'], 'Hold {{hold\n}}'],
    ['{a\n} {b c', ['unclosed-brace {', 'unclosed-brace {'], '{{a\n}} {{b c'],
    ['a } b', ['unopened-brace }'], 'a }} b'],
    ['a {} b', ['empty-placeholder {}'], undefined],
    ['a { } b', ['empty-placeholder { }'], undefined],
    ['{hold on}', ['odd-placeholder {hold on}'], '{{hold on}}'],
    ['{a.}', ['odd-placeholder {a.}'], '{{a.}}'],
    ['{3}', ['odd-placeholder {3}'], '{{3}}'],
    ['{a{b}', ['unclosed-brace {'], '{{a{b}'],
  ])('%s is reported at its place, and can be meant as it stands', (text, faults, meant) => {
    const found = template(text);
    expect(found.faults).toEqual(faults);
    if (meant === undefined) return;
    const edits = found.diagnostics
      .flatMap(({ fixes }) => fixes?.[0]?.edits ?? [])
      .sort((a, b) => b.at.start - a.at.start);
    const mended = edits.reduce((done, { at, text: put }) => done.slice(0, at.start) + put + done.slice(at.end), text);
    expect(mended).toBe(meant);
    expect(template(mended).faults).toEqual([]);
  });

  it('have exact places in a text that YAML folded', () => {
    // a "{b}" c  as it stands in  "a \"{b}\"<line end>  c", which starts at 2
    const value = 'a "{b}" c';
    const offsets = [3, 4, 5, 7, 8, 9, 10, 12, 15, 16];
    const { value: read } = readTemplate({ value, at: { file: 'a', start: 3, end: 16 }, offsets });
    expect(read.parts.flatMap((part) => (part.kind === 'place' ? [part.at] : []))).toEqual([
      { file: 'a', start: 7, end: 10 },
    ]);
  });
});
