// Diagnostics as people and programs get them: frames that underline exactly, JSON, SARIF.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellsOf } from '../../src/diagnostic/cells.js';
import { type Diagnostic, diagnose } from '../../src/diagnostic/diagnostic.js';
import { frame } from '../../src/diagnostic/frame.js';
import { renderJson } from '../../src/diagnostic/json.js';
import { locator } from '../../src/diagnostic/locate.js';
import { renderSarif } from '../../src/diagnostic/sarif.js';
import { renderSummary, renderText } from '../../src/diagnostic/text.js';

const plain = { color: false };

function sourcesOf(files: Readonly<Record<string, string>>) {
  return new Map(Object.entries(files).map(([path, text]) => [path, { path, text }]));
}

/** The place of `part` in a file's text. */
function at(files: Readonly<Record<string, string>>, file: string, part: string) {
  const start = (files[file] ?? '').indexOf(part);
  return { file, start, end: start + part.length };
}

function framed(text: string, part: string): string {
  const start = text.indexOf(part);
  const files = sourcesOf({ a: text });
  const region = locator(files)({ file: 'a', start, end: start + part.length });
  return frame({ path: 'a', text }, region, '^')
    .map((line) => line.text)
    .join('\n');
}

describe('a frame', () => {
  it.each([
    ['plain words', 'do: Turn it', 'Turn', 'do: Turn it\n    ^^^^'],
    ['a tab before', '\tdo: x', 'x', '    do: x\n        ^'],
    ['a tab inside', 'ab\tc: x', 'c', 'ab  c: x\n    ^'],
    ['wide characters before', '角度: x', 'x', '角度: x\n      ^'],
    ['wide characters marked', 'a 角度 b', '角度', 'a 角度 b\n  ^^^^'],
    ['combining marks', 'cafe\u0301: x', 'x', 'cafe\u0301: x\n      ^'],
    ['an emoji of several parts', '👩‍🔧: x', 'x', '👩‍🔧: x\n    ^'],
    ['Windows line ends', 'a: b\r\nc: d\r\n', 'd', 'c: d\n   ^'],
    ['old line ends', 'a: b\rc: d\r', 'd', 'c: d\n   ^'],
    ['signs that steer a terminal', 'a\u001b[31m: x', 'x', 'a␛[31m: x\n        ^'],
    ['signs that turn the reading direction', 'a\u202e: x', 'x', 'a\ufffd: x\n    ^'],
  ])('underlines exactly: %s', (_, text, part, expected) => {
    expect(framed(text, part)).toBe(expected);
  });

  it('marks a place without length, and one at the end of the file, by one sign', () => {
    const text = 'a: b\n';
    const region = (start: number) => locator(sourcesOf({ a: text }))({ file: 'a', start, end: start });
    const lines = (start: number) => frame({ path: 'a', text }, region(start), '^').map((line) => line.text);
    expect(lines(3)).toEqual(['a: b', '   ^']);
    expect(lines(4)).toEqual(['a: b', '    ^']);
    expect(lines(5)).toEqual(['', '^']);
  });

  it('goes over several lines from the first sign of each, and leaves out the middle of many', () => {
    expect(framed('a: b\n  c: d\nend', 'b\n  c: d')).toBe('a: b\n   ^\n  c: d\n  ^^^^');
    const many = Array.from({ length: 9 }, (_, i) => `k${i}: x`).join('\n');
    expect(framed(many, many)).toBe('k0: x\n^^^^^\n…\nk8: x\n^^^^^');
    expect(framed('a: b\nc: d\n', 'a: b\n')).toBe('a: b\n^^^^');
  });

  it('shows a stretch of a long line around the place', () => {
    const text = `${'word '.repeat(80)}HERE ${'more '.repeat(80)}`;
    const [code = '', marks = ''] = framed(text, 'HERE').split('\n');
    expect(code.length).toBeLessThan(120);
    expect(code.startsWith('… ')).toBe(true);
    expect(code.endsWith(' …')).toBe(true);
    expect(code.slice(marks.indexOf('^'), marks.lastIndexOf('^') + 1)).toBe('HERE');
    const all = framed(`a ${'x'.repeat(500)} b`, 'x'.repeat(500)).split('\n');
    expect(all.every((line) => line.length < 120)).toBe(true);
  });

  it('is as long as it is wide, whatever the text and the place', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), fc.nat(300), fc.nat(40), (text, start, length) => {
        const from = Math.min(start, text.length);
        const region = locator(sourcesOf({ a: text }))({
          file: 'a',
          start: from,
          end: Math.min(from + length, text.length),
        });
        const lines = frame({ path: 'a', text }, region, '^');
        expect(lines.some(({ kind }) => kind === 'mark')).toBe(true);
        for (const line of lines) {
          if (line.kind === 'mark') expect(line.text).toMatch(/^ *\^+$/);
          const width = cellsOf(line.text).reduce((sum, cell) => sum + cell.width, 0);
          expect(width).toBeLessThan(130);
        }
      }),
    );
  });
});

const files = {
  'steps.md': 'steps:\n  - id: lower\n    do: Lower it.\n  - id: turn\n    do: Turn it.\n',
  'safety.yaml': 'rules:\n  - { id: under, must: safe }\n',
};
const sources = sourcesOf(files);
const two = diagnose({
  code: 'rule-broken',
  severity: 'error',
  message: '`turn` breaks the rule `under`',
  at: at(files, 'steps.md', 'turn'),
  related: [{ message: 'the rule', at: at(files, 'safety.yaml', 'under') }],
  rigs: ['tarn-40', 'tarn-60', 'corrie-9', 'corrie-8', 'corrie-7'],
  help: 'Place the lift stop first.',
  note: 'A lift valve leaks.',
  fixes: [
    {
      title: 'Swap the steps',
      safe: false,
      edits: [
        { at: at(files, 'steps.md', 'lower'), text: 'turn' },
        { at: at(files, 'safety.yaml', 'safe'), text: 'x' },
      ],
    },
  ],
});
const path = diagnose({
  code: 'path',
  severity: 'warning',
  message: 'The header may be down',
  at: at(files, 'steps.md', 'Turn it.'),
  related: ['lower', 'turn', 'under'].map((part, i) => ({
    message: `step ${i + 1}`,
    at: at(files, part === 'under' ? 'safety.yaml' : 'steps.md', part),
    ...(part === 'under' ? {} : { onPath: true as const }),
  })),
});
const hint = diagnose({
  code: 'unused',
  severity: 'hint',
  message: 'Unused',
  at: { file: 'figures/a.svg', start: 0, end: 0 },
});

describe('text', () => {
  it('shows both places, the rigs, why and how to mend it', () => {
    expect(renderText([two], sources, plain)).toBe(
      [
        'error `turn` breaks the rule `under` [rule-broken]',
        '  --> steps.md:4:9',
        '  4 |   - id: turn',
        '    |         ^^^^',
        '  the rule:',
        '  --> safety.yaml:2:11',
        '  2 |   - { id: under, must: safe }',
        '    |           -----',
        '  rigs: tarn-40, tarn-60, corrie-9 and 2 more',
        '  why: A lift valve leaks.',
        '  help: Place the lift stop first.',
        '',
        '',
      ].join('\n'),
    );
  });

  it('lists a path by number', () => {
    expect(renderText([path], sources, plain)).toContain(
      ['  1. line 2         step 1', '  2. line 4         step 2', '  3. safety.yaml:2  step 3'].join('\n'),
    );
  });

  it('names a file that is no text, and prints nothing for nothing', () => {
    expect(renderText([hint], sources, plain)).toBe('hint Unused [unused]\n  --> figures/a.svg\n\n');
    expect(renderText([], sources, plain)).toBe('');
  });

  it('colours only where it is asked to, and never lets a message steer the terminal', () => {
    const odd = { ...hint, message: 'a \u001b[2J b' };
    expect(renderText([two, path, odd], sources, plain)).not.toContain('\u001b');
    const coloured = renderText([two, odd], sources, { color: true });
    expect(coloured).toContain('\u001b[1;31merror\u001b[0m');
    expect(coloured).not.toContain('\u001b[2J');
    const codes = new RegExp(`${String.fromCharCode(27)}\\[[0-9;]*m`, 'g');
    expect(coloured.replace(codes, '')).toBe(renderText([two, odd], sources, plain));
  });

  it.each([
    [[], 'no errors, no warnings'],
    [[two], '1 error, no warnings'],
    [[two, two, path, hint], '2 errors, 1 warning; 1 hint'],
    [[hint, hint], 'no errors, no warnings; 2 hints'],
    [[two, { ...path, at: at(files, 'safety.yaml', 'safe') }], '1 error, 1 warning in 2 files'],
  ])('sums up %#', (diagnostics, expected) => {
    expect(renderSummary(diagnostics as readonly Diagnostic[], plain)).toBe(expected);
  });
});

describe('JSON', () => {
  it('has lines and columns from 1, ends exclusive, in UTF-16 units', () => {
    const text = { 'a.yaml': 'x\r\né😀: bad\r\n' };
    const one = diagnose({ code: 'c', severity: 'error', message: 'm', at: at(text, 'a.yaml', 'bad') });
    expect(renderJson([one], sourcesOf(text))).toEqual([
      {
        code: 'c',
        severity: 'error',
        message: 'm',
        file: 'a.yaml',
        line: 2,
        column: 6,
        endLine: 2,
        endColumn: 9,
        rigs: [],
        related: [],
        help: '',
        fixes: [],
      },
    ]);
  });

  it('holds related places and fixes', () => {
    expect(renderJson([two], sources)[0]).toMatchObject({
      rigs: ['tarn-40', 'tarn-60', 'corrie-9', 'corrie-8', 'corrie-7'],
      related: [{ message: 'the rule', file: 'safety.yaml', line: 2, column: 11 }],
      help: 'Place the lift stop first.',
      fixes: [
        {
          title: 'Swap the steps',
          safe: false,
          edits: [
            { file: 'steps.md', line: 2, column: 9, endLine: 2, endColumn: 14, text: 'turn' },
            { file: 'safety.yaml', line: 2, column: 24, endLine: 2, endColumn: 28, text: 'x' },
          ],
        },
      ],
    });
    expect(renderJson([hint], sources)[0]).toMatchObject({ file: 'figures/a.svg', line: 1, column: 1, endColumn: 1 });
  });
});

describe('SARIF', () => {
  const catalogue = new Map([
    ['rule-broken', 'error'],
    ['path', 'warning'],
    ['unused', 'hint'],
    ['other', 'hint'],
  ] as const);
  const log = renderSarif([two, path, hint], sources, catalogue);

  it('is valid by the schema that OASIS published', () => {
    const schema = JSON.parse(readFileSync(join(import.meta.dirname, 'sarif-2.1.0.schema.json'), 'utf8'));
    const validate = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile(schema);
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...log, runs: [{ tool: {} }] })).toBe(false);
  });

  it('holds rules, places, a path as a code flow, and fixes by file', () => {
    const [run] = log.runs;
    expect(run?.tool.driver.rules?.map(({ id, defaultConfiguration }) => [id, defaultConfiguration?.level])).toEqual([
      ['other', 'note'],
      ['path', 'warning'],
      ['rule-broken', 'error'],
      ['unused', 'note'],
    ]);
    const [broken, flow, unused] = run?.results ?? [];
    expect([broken, flow, unused].map((one) => run?.tool.driver.rules?.[one?.ruleIndex ?? -1]?.id)).toEqual([
      'rule-broken',
      'path',
      'unused',
    ]);
    expect(broken?.relatedLocations?.[0]?.physicalLocation?.region).toEqual({
      startLine: 2,
      startColumn: 11,
      endLine: 2,
      endColumn: 16,
    });
    expect(broken?.codeFlows).toBeUndefined();
    expect(broken?.fixes?.[0]?.artifactChanges.map(({ artifactLocation }) => artifactLocation.uri)).toEqual([
      'steps.md',
      'safety.yaml',
    ]);
    expect(flow?.codeFlows?.[0]?.threadFlows[0]?.locations.map(({ location }) => location?.message?.text)).toEqual([
      'step 1',
      'step 2',
      'The header may be down',
    ]);
    expect(unused?.level).toBe('note');
  });

  it('writes paths as addresses', () => {
    const odd = diagnose({
      code: 'c',
      severity: 'error',
      message: 'm',
      at: { file: 'in the crop/á%.md', start: 0, end: 0 },
    });
    const result = renderSarif([odd], new Map(), new Map()).runs[0]?.results?.[0];
    expect(result?.locations?.[0]?.physicalLocation?.artifactLocation?.uri).toBe('in%20the%20crop/%C3%A1%25.md');
  });
});
