// What YAML itself refuses, or a book does not want of it: one diagnostic each, at its place, in plain words.

import { describe, expect, it } from 'vitest';
import { splitFrontMatter } from '../../src/read/front-matter.js';
import { readYaml } from '../../src/read/yaml.js';
import { read } from './reading.js';

describe('faults of YAML', () => {
  it.each([
    ['a key given twice', 'a: 1\nb: 2\na: 3\n', ['duplicate-key "a"'], { a: 1, b: 2 }],
    ['the same key in two ways', '3.0: a\n"3.0": b\n', ['duplicate-key "\\"3.0\\""'], { '3.0': 'a' }],
    ['an alias', 'a: &x\n  b: 1\nc: *x\n', ['copied-part "&x"', 'copied-part "*x"'], { a: { b: 1 }, c: null }],
    ['an alias that leads nowhere', 'a: *x\n', ['copied-part "*x"'], { a: null }],
    ['a merge key', '<<: { a: 1 }\nb: 2\n', ['copied-part "<<"'], { b: 2 }],
    ['a tag', 'a: !!str 3\n', ['yaml-tag "!!str"'], { a: '3' }],
    ['another tag', 'a: !!python/object:os.system\n', ['yaml-tag "!!python/object:os.system"'], { a: '' }],
    ['another version', '%YAML 1.1\n---\na: off\n', ['yaml-version "%YAML 1.1"'], { a: 'off' }],
    ['another directive', '%TAG ! tag:x,2000:\n---\na: 1\n', ['yaml-directive "%TAG ! tag:x,2000:"'], { a: 1 }],
    ['two documents', 'a: 1\n---\nb: 2\n', ['several-documents "---"'], { a: 1 }],
    ['words behind the end', 'a: 1\n...\nb: 2\n', ['several-documents "..."'], { a: 1 }],
    ['a key that is a list', '? [a, b]\n: c\n', ['key-not-text "[a, b]"'], {}],
    ['an unknown escape', 'a: "C:\\path"\n', ['unknown-escape "\\\\"'], { a: 'C:\\path' }],
    ['a line too far left', 'a:\n    b: 1\n  c: 2\n', ['wrong-indent "c"'], { a: { b: 1 }, c: 2 }],
    ['a line without a colon', 'a: 1\nb\nc: 2\n', ['missing-colon "b"'], undefined],
    ['a list below a text', 'a: b\n- c\n', ['wrong-indent "-"'], { a: 'b' }],
    ['a dash among keys', 'a:\n  b: 1\n  - c\n', ['wrong-indent "-"'], undefined],
    ['a key among dashes', 'a:\n  - b\n  c: 1\n', ['wrong-indent "c"'], undefined],
    ['a key between dash and keys', 'a:\n  - b: 1\n   c: 1\n', ['wrong-indent "c"'], undefined],
    ['a part without a dash, first in a list', 'a:\n    { b: 1 }\n  - { b: 2 }\n', ['wrong-indent "{"'], undefined],
    ['a part without a dash among items', 'a:\n  - { b: 1 }\n  { b: 2 }\n', ['wrong-indent "{"'], undefined],
    ['no key before a colon', ': a\n', ['key-not-text ""'], {}],
    ['keys behind a list', '- a\nb: c\n', ['yaml-syntax "b"'], ['a']],
    [
      'a part without a value',
      'a: { lateral tilt }\n',
      ['missing-value "lateral tilt"'],
      { a: { 'lateral tilt': null } },
    ],
  ])('%s', (_, text, faults, value) => {
    const found = read(text);
    expect(found.faults).toEqual(faults);
    if (value !== undefined) expect(found.value).toEqual(value);
    for (const { message, help, severity } of found.diagnostics) {
      expect(severity).toBe('error');
      expect(message).not.toMatch(/[.!]$/);
      expect(help).toMatch(/\.$/);
    }
  });

  it('are all shown where they have nothing to do with each other', () => {
    const text = 'a: x #1\nb: { c: d, e f. }\ng: "h" i\nserial: 12\na: 2\nj: *k\n';
    expect(read(text).faults.map((fault) => fault.split(' ')[0])).toEqual([
      'text-cut-by-hash',
      'comma-in-text',
      'sign-before-text',
      'text-read-as-number',
      'duplicate-key',
      'copied-part',
    ]);
  });

  it('of one kind are shown at most twenty times in one file', () => {
    const found = read(Array.from({ length: 50 }, (_, i) => `a${i}: x #${i}\n`).join(''));
    expect(found.diagnostics.length).toBe(20);
    expect(found.diagnostics.at(-1)?.note).toContain('30 more of this kind');
  });

  it('keep a directive of this version and a leading line of dashes', () => {
    expect(read('%YAML 1.2\n---\na: off\n...\n')).toMatchObject({ faults: [], value: { a: 'off' } });
    expect(read('# a comment\n---\na: 1\n')).toMatchObject({ faults: [], value: { a: 1 } });
  });
});

describe('hostile YAML', () => {
  const bomb = `a: &a [x, x]\n${Array.from({ length: 26 }, (_, i) => {
    const [name, before] = [String.fromCharCode(98 + i), String.fromCharCode(97 + i)];
    return `${name}: &${name} [*${before}, *${before}, *${before}, *${before}]\n`;
  }).join('')}`;
  it.each([
    ['an alias bomb', bomb, 'copied-part'],
    ['a hundred thousand brackets', '['.repeat(100_000), 'nested-too-deep'],
    ['a hundred thousand braces', '{a: '.repeat(100_000), 'nested-too-deep'],
    ['a hundred thousand dashes', '- '.repeat(100_000), 'nested-too-deep'],
    ['a staircase of keys', Array.from({ length: 900 }, (_, i) => `${' '.repeat(i)}a:\n`).join(''), 'nested-too-deep'],
    ['a key longer than YAML allows', `${'a'.repeat(5000)}: x\n"${'b'.repeat(5000)}": y\n`, undefined],
    ['a prototype', '__proto__: { polluted: 1 }\nconstructor: x\n', undefined],
  ])('%s is read in a moment, without a throw', (_, text, code) => {
    const { value, diagnostics } = readYaml({ path: 'a.yaml', text });
    if (code !== undefined) expect(diagnostics.map((one) => one.code)).toContain(code);
    expect(diagnostics.length).toBeLessThan(41);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(value === undefined || value.kind === 'map' || value.kind === 'list').toBe(true);
  });
});

describe('front matter', () => {
  const cut = (text: string) => splitFrontMatter({ path: 'a.md', text });

  it.each([
    ['---\na: 1\n---\nBody\n', 'a: 1\n', 'Body\n'],
    ['---\r\na: 1\r\n---\r\nBody', 'a: 1\r\n', 'Body'],
    ['--- \na: 1\n---\t', 'a: 1\n', ''],
    ['---\n---\n', '', ''],
    ['---\ra: 1\r---\rBody', 'a: 1\r', 'Body'],
    ['---\na: 1\n---\n\n---\nrule\n', 'a: 1\n', '\n---\nrule\n'],
  ])('is cut at its lines: %j', (text, front, body) => {
    const { value, diagnostics } = cut(text);
    expect(diagnostics).toEqual([]);
    expect(text.slice(value?.front.start, value?.front.end)).toBe(front);
    expect(text.slice(value?.body.start, value?.body.end)).toBe(body);
  });

  it.each([
    ['# Title\ntext\n', 'missing-front-matter', '# Title'],
    ['\n\n---\na: 1\n---\n', 'missing-front-matter', '---'],
    ['----\na: 1\n----\n', 'missing-front-matter', '----'],
    ['---\na: 1\n', 'unclosed-front-matter', '---'],
    ['---', 'unclosed-front-matter', '---'],
    ['', 'missing-front-matter', ''],
  ])('that is missing or open is one diagnostic: %j', (text, code, underlined) => {
    const { value, diagnostics } = cut(text);
    expect(value).toBeUndefined();
    expect(diagnostics.map((one) => [one.code, text.slice(one.at.start, one.at.end)])).toEqual([[code, underlined]]);
  });

  it('that is nearly closed shows the line that nearly does', () => {
    const text = '---\na: 1\n----\nBody\n';
    const { diagnostics } = cut(text);
    expect(diagnostics[0]?.related.map(({ at }) => text.slice(at.start, at.end))).toEqual(['----']);
  });
});
