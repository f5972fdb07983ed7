// The figure of a book: what slips came to, always the same, in a shape that others can read.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { renderGuard } from '../../src/commands/guard.js';
import { type Guarded, guardBook } from '../../src/guard/guard.js';
import { sampleOf } from '../../src/guard/sample.js';
import type { GuardResult } from '../../src/model/guard-result.js';
import { bookAt } from './book.js';

const root = join(import.meta.dirname, '../..');

function resultOf({ result }: Guarded): GuardResult {
  if (!result) throw new Error('Nothing was tried');
  return result;
}

function guardBase(size: number, seed: number): GuardResult {
  return resultOf(guardBook({ ...bookAt('tests/books/base'), sample: { size, seed } }));
}

describe('guardBook', () => {
  const result = guardBase(120, 1);

  it('tells each slip once, and its figures are their sums', () => {
    const { total, kinds, files, survivors, noticed, apart } = result;
    expect(total.counted).toBe(survivors.length + noticed.length);
    expect(total.noticed).toBe(noticed.length);
    expect(total.small + total.same).toBe(apart.length);
    expect(total.counted + apart.length).toBe(120);
    for (const counts of [kinds, files]) {
      expect(counts.reduce((sum, { counted }) => sum + counted, 0)).toBe(total.counted);
      expect(counts.reduce((sum, one) => sum + one.noticed, 0)).toBe(total.noticed);
    }
    for (const { suggestion } of survivors) expect(suggestion).toMatch(/^[A-Z].*\.$/);
  });

  it('gives the same for the same seed', () => {
    expect(guardBase(120, 1)).toEqual(result);
  });

  it('keeps the shape that its schema says', () => {
    const schema = JSON.parse(readFileSync(join(root, 'schema/guard-result.schema.json'), 'utf8'));
    const validate = new Ajv2020({ strict: false }).compile(schema);
    expect(validate(JSON.parse(JSON.stringify(result))), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...result, total: { ...result.total, percent: 101 } })).toBe(false);
  });

  it('hears how far it is', () => {
    const heard: number[] = [];
    const progress = (done: number, of: number): void => void heard.push(of - done);
    guardBook({ ...bookAt('tests/books/base'), sample: { size: 3, seed: 2 }, progress });
    expect(heard).toEqual([3, 2, 1, 0]);
  });

  it('tries nothing in a book with errors', () => {
    const book = bookAt('tests/books/base');
    const sources = new Map(book.sources).set('tools.yaml', { path: 'tools.yaml', text: 'a: [' });
    const { result: none, diagnostics } = guardBook({ ...book, sources });
    expect(none).toBeUndefined();
    expect(diagnostics.some(({ severity }) => severity === 'error')).toBe(true);
  });

  it('notices 90 % of what counts in the demo', () => {
    const demo = resultOf(guardBook({ ...bookAt('procedures'), sample: { size: 100, seed: 11 } }));
    expect(demo.total.percent, renderGuard(demo, 40)).toBeGreaterThanOrEqual(90);
  }, 300_000);
});

describe('renderGuard', () => {
  it('says the figure first, and of survivors no more than was asked for', () => {
    const result = guardBase(60, 5);
    const text = renderGuard(result, 1);
    expect(text).toMatch(/^\d+(\.\d)? % of what counts is noticed: \d+ of \d+\n/);
    expect(text.match(/^ {2}\S+:\d+:\d+ /gm) ?? []).toHaveLength(Math.min(1, result.survivors.length));
  });
});

describe('sampleOf', () => {
  it('keeps the order, repeats nothing, and takes all where there are no more', () => {
    const all = Array.from({ length: 50 }, (_, i) => i);
    const drawn = sampleOf(all, { size: 20, seed: 9 });
    expect(drawn).toHaveLength(20);
    expect([...new Set(drawn)].sort((a, b) => a - b)).toEqual(drawn);
    expect(sampleOf(all, { size: 99, seed: 9 })).toEqual(all);
    expect(sampleOf(all, { size: 20, seed: 10 })).not.toEqual(drawn);
  });
});
