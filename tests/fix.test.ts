// Fixes that are made without asking: nothing but what they name is changed, they come to an end, and they mend.

import { chmodSync, cpSync, existsSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { array, assert, constantFrom, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../src/compile.js';
import { applySafeFixes } from '../src/diagnostic/apply-fixes.js';
import { diagnose, type Fix } from '../src/diagnostic/diagnostic.js';
import { fixBook } from '../src/fix.js';
import { rewriteText } from '../src/io.js';
import { newFolder, stepgauge } from './commands/terminal.js';
import { filesOf } from './rules/page.js';

const base = filesOf(join(import.meta.dirname, 'books/base'));
const page = 'sensors/learn-height-range.md';

function inputOf(files: ReadonlyMap<string, string>) {
  const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
  return { sources, figures: new Set<string>(), today: '2026-11-24' };
}

function fixed(files: ReadonlyMap<string, string>, only?: string) {
  const { sources, applied } = fixBook(inputOf(files), checkBook, only);
  return { texts: new Map([...sources].map(([path, { text }]) => [path, text])), applied };
}

function swapped(text: string, from: string, to: string): string {
  if (!text.includes(from)) throw new Error(`There is no ${from}`);
  return text.replace(from, to);
}

const slips: readonly (readonly [path: string, right: string, slip: string, mended: string])[] = [
  [
    page,
    'do: Lower the header until',
    'do: Lower: the header until',
    'do: "Lower: the header until the feeder house stops."',
  ],
  [page, 'limits: 2.6 to 3.4 V', 'limits: 2.6-3.4 V', 'limits: 2.6 to 3.4 V'],
  [page, '{ state: engine, is: low-idle', '{ state:engine, is: low-idle', '{ state: engine, is: low-idle'],
  ['book.yaml', 'phone: 555-0134', 'phone: 0555', 'phone: "0555"'],
];

describe('Safe fixes', () => {
  it.each(slips)('in %s mend `%s` written `%s`', (path, right, slip, mended) => {
    const { texts, applied } = fixed(new Map(base).set(path, swapped(base.get(path) ?? '', right, slip)));
    expect(applied.length).toBe(1);
    expect(texts.get(path)).toContain(mended);
    for (const [other, text] of base) if (other !== path) expect(texts.get(other)).toBe(text);
  });

  it('change no digit, no unit and no word, whatever is wrong together, and leave none behind', () => {
    const words = (text: string | undefined): string => (text ?? '').replaceAll(/[^\p{L}\p{N}]|\bto\b/gu, '');
    assert(
      property(array(constantFrom(...slips), { minLength: 1, maxLength: 4 }), (chosen) => {
        const files = new Map(base);
        for (const [path, right, slip] of new Set(chosen))
          files.set(path, (files.get(path) ?? '').replace(right, slip));
        const { texts } = fixed(files);
        for (const [path, text] of files) expect(words(texts.get(path))).toBe(words(text));
        expect(fixed(texts).applied).toEqual([]);
        expect(checkBook(inputOf(texts)).diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
      }),
      { numRuns: 8, seed: 3 },
    );
  });

  it('leave alone what has more than one reading, or changes a number', () => {
    for (const slip of [
      'limits: 2,6 to 3,4 V',
      'limits: 2.6 to 3.4 Vv',
      'limits: 3.4 to 2.6 V',
      'limit: 2.6 to 3.4 V',
    ]) {
      const files = new Map(base).set(page, swapped(base.get(page) ?? '', 'limits: 2.6 to 3.4 V', slip));
      expect(fixed(files)).toMatchObject({ texts: files, applied: [] });
    }
  });

  it('keep to one code where one is asked for', () => {
    const files = new Map(base);
    for (const [path, right, slip] of slips) files.set(path, (files.get(path) ?? '').replace(right, slip));
    const { applied } = fixed(files, 'text-read-as-number');
    expect(applied.map(({ diagnostic }) => diagnostic.code)).toEqual(['text-read-as-number']);
  });
});

describe('Edits', () => {
  const text = 'abcdef';
  const sources = new Map([['a', { path: 'a', text }]]);
  const fault = (...edits: readonly (readonly [number, number, string])[]) => {
    const fix: Fix = {
      title: '',
      safe: true,
      edits: edits.map(([start, end, by]) => ({ at: { file: 'a', start, end }, text: by })),
    };
    return diagnose({ code: 'x', severity: 'error', message: '', at: { file: 'a', start: 0, end: 1 }, fixes: [fix] });
  };
  const apply = (...faults: readonly ReturnType<typeof fault>[]) => {
    const { sources: after, applied } = applySafeFixes(sources, faults);
    return [after.get('a')?.text, applied.length];
  };

  it('are made from behind, so that no place moves', () => {
    expect(apply(fault([0, 1, 'ZZZ'], [4, 5, '']))).toEqual(['ZZZbcdf', 1]);
  });
  it('of one fix are made all or none', () => {
    expect(apply(fault([0, 2, 'X']), fault([1, 3, 'Y'], [5, 6, 'Z']))).toEqual(['Xcdef', 1]);
    expect(apply(fault([0, 1, 'X'], [5, 99, 'Y']))).toEqual([text, 0]);
    expect(apply(fault([0, 3, 'X'], [2, 4, 'Y']))).toEqual([text, 0]);
  });
  it('that touch wait: which of two stands first at one place is not known', () => {
    expect(apply(fault([2, 2, 'X']), fault([2, 2, 'Y']))).toEqual(['abXcdef', 1]);
  });
});

describe('check --fix', () => {
  it('writes what it mended, says so, and checks again', async () => {
    const folder = join(newFolder(), 'book');
    cpSync(join(import.meta.dirname, 'books/base'), folder, { recursive: true });
    const path = join(folder, page);
    writeFileSync(
      path,
      `\ufeff${swapped(readFileSync(path, 'utf8'), 'do: Lower the header until', 'do: Lower: the header until')}`,
    );
    chmodSync(path, 0o640);
    const { code, out, err } = await stepgauge('check', folder, '--fix', '--today', '2026-11-24');
    expect({ code, out: out.split('\n').at(-2) }).toMatchObject({ code: 0, out: expect.stringContaining('no errors') });
    expect(err).toContain(`fixed ${page}:55:14 Put the text in quotes [colon-in-text]\nFixed 1 fault in 1 file.\n`);
    expect(readFileSync(path, 'utf8').startsWith('\ufeff---\n')).toBe(true);
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect((await stepgauge('check', folder, '--fix', '--today', '2026-11-24')).err).toBe(
      'Nothing can be fixed without asking.\n',
    );
  });

  it('writes nothing over what somebody else has changed meanwhile, and through a link the file itself', () => {
    const folder = newFolder();
    const path = join(folder, 'a.md');
    writeFileSync(path, 'now');
    expect(() => rewriteText(path, 'before', 'after')).toThrow(/changed by somebody else/);
    expect(readFileSync(path, 'utf8')).toBe('now');
    symlinkSync('a.md', join(folder, 'link.md'));
    rewriteText(join(folder, 'link.md'), 'now', 'after');
    expect(readFileSync(path, 'utf8')).toBe('after');
  });
});

describe('check --proof', () => {
  const folder = join(import.meta.dirname, 'books/base');
  it('prints the proof alone, or writes it to a file', async () => {
    const printed = await stepgauge('check', folder, '--today', '2026-11-24', '--proof');
    expect(JSON.parse(printed.out)).toMatchObject({
      format: 'stepgauge-proof',
      variants: [{ result: 'proved' }, { result: 'proved' }],
    });
    expect(printed.err).toContain('no errors');
    const file = join(newFolder(), 'deep/proof.json');
    const written = await stepgauge('check', folder, '--today', '2026-11-24', '--proof', file);
    expect(written.code).toBe(0);
    expect(readFileSync(file, 'utf8')).toBe(printed.out);
    expect((await stepgauge('check', '--proof', folder)).code).toBe(2);
  });

  it('does not take the name of a book for the file to write', async () => {
    const away = join(newFolder(), 'mybook');
    const called = await stepgauge('check', '--proof', away);
    expect(called.code).toBe(2);
    expect(called.err).toContain(`check ${away} --proof`);
    expect(existsSync(away)).toBe(false);
  });
});
