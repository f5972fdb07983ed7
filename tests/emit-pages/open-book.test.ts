// data/book.json: its schema explains all of it, it keeps its schema, and its numbers are those of the pages.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { fromDecimal, type Rational } from '../../src/calc/rational.js';
import { findUnit, toBase, type Unit } from '../../src/calc/unit.js';
import { plainLimits, plainNumber } from '../../src/emit/open-data/plain-numbers.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { demoBook } from './books.js';
import { smallBook } from './small-book.js';

type Node = { readonly [key: string]: unknown };

const schema = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../schema/compiled-book.schema.json'), 'utf8'),
) as Node;
const ajv = new Ajv2020({ strict: false, allErrors: true });
const validate = ajv.compile(schema);

const demo = demoBook({ proved: false });
const files = emitSite(demo.resolved, { proofs: demo.proofs, figures: demo.figures });
const open = JSON.parse(String(files.get('data/book.json'))) as {
  variants: {
    id: string;
    pages: { path: string; code: string }[];
    procedure: {
      values: { shown?: string; limits?: { low?: number; high?: number; shown: string } }[];
      steps: { number: string }[];
    };
  }[];
  [key: string]: unknown;
};

/** Every property that a schema declares, with the way to it. */
function* propertiesOf(node: unknown, path: string): Iterable<readonly [string, Node]> {
  if (typeof node !== 'object' || node === null) return;
  for (const [key, part] of Object.entries(node)) {
    if (key === 'examples' || key === 'enum') continue;
    if (key === 'properties') {
      for (const [name, property] of Object.entries(part as Node)) yield [`${path}/${key}/${name}`, property as Node];
    }
    yield* propertiesOf(part, `${path}/${key}`);
  }
}

describe('the schema of the compiled book', () => {
  const properties = [...propertiesOf(schema, '#')];

  it('is one of the draft 2020-12', () => {
    expect(ajv.validateSchema(schema)).toBe(true);
  });

  it('explains every property by title, description and example', () => {
    const poor = properties.filter(
      ([, { title, description, examples }]) => !title || !description || !Array.isArray(examples),
    );
    expect(poor.map(([path]) => path)).toEqual([]);
    expect(properties.length).toBeGreaterThan(120);
  });

  it('gives examples that hold', () => {
    ajv.addSchema(schema, 'root');
    const wrong = properties.filter(([path, { examples }]) => {
      const check = ajv.getSchema(`root${path}`);
      return !check || (examples as unknown[]).some((example) => !check(example));
    });
    expect(wrong.map(([path]) => path)).toEqual([]);
  });
});

describe('the compiled book', () => {
  it('keeps its schema, for the demo book and for one with one of everything', () => {
    validate(open);
    expect(validate.errors ?? []).toEqual([]);
    const small = smallBook();
    validate(JSON.parse(String(emitSite(small.resolved, { proofs: small.proofs }).get('data/book.json'))));
    expect(validate.errors ?? []).toEqual([]);
  });

  it('would not keep it with a key too few, a key too many, or a number as text', () => {
    const { phone: _, ...less } = open;
    expect(validate(less)).toBe(false);
    expect(validate({ ...open, extra: 1 })).toBe(false);
    expect(validate({ ...open, version: '1' })).toBe(false);
    expect(validate({ ...open, variants: [{ ...open.variants[0], rigs: 'all' }] })).toBe(false);
  });

  it('says which pages there are', () => {
    const paths = open.variants.flatMap(({ pages }) => pages.map(({ path }) => `${path}index.html`));
    expect(paths.length).toBeGreaterThan(60);
    expect(paths.filter((path) => !files.has(path))).toEqual([]);
    for (const { pages } of open.variants) {
      for (const { path, code } of pages) {
        expect(String(files.get(`${path}index.html`))).toContain(`${code.slice(0, 3)}\u00a0${code.slice(3)}`);
      }
    }
  });

  it('has the limits that its pages show', () => {
    let seen = 0;
    for (const { pages, procedure } of open.variants) {
      const page = String(files.get(`${pages[0]?.path}index.html`)).replaceAll('\u00a0', ' ');
      for (const { limits } of procedure.values) {
        if (!limits || !page.includes('class="limits"')) continue;
        const numbers = [limits.low, limits.high].filter((number) => number !== undefined);
        // the same numbers, read from the words that are shown
        if (/^-?[\d.]+ to -?[\d.]+\s\S+$/u.test(limits.shown)) {
          expect(limits.shown.match(/-?\d+(?:\.\d+)?/g)?.map(Number)).toEqual(numbers);
          seen += 1;
        }
      }
    }
    expect(seen).toBeGreaterThan(20);
  });
});

describe('plain numbers', () => {
  const inch = findUnit('in') as Unit;
  const third = { num: 254n, den: 30000n } as Rational;

  it('are exact where their digits end, and rounded inward where they do not', () => {
    // 1 in = 25.4 mm exactly (NIST SP 811, B.6)
    expect(plainNumber({ num: 254n, den: 10000n } as Rational, inch)).toBe(1);
    const limits = plainLimits(
      { low: third, high: third, unit: inch, resolution: fromDecimal('1') as Rational },
      inch,
      '',
    );
    expect(limits.low).toBe(0.333333334);
    expect(limits.high).toBe(0.333333333);
  });

  it('have the same exact ends however they are written', () => {
    const of = (unit: string, low: string, high: string) => {
      const found = findUnit(unit) as Unit;
      const base = (text: string): Rational => toBase(fromDecimal(text) as Rational, found);
      const limits = { low: base(low), high: base(high), unit: found, resolution: fromDecimal('1') as Rational };
      return plainLimits(limits, found, '').exact;
    };
    expect(of('V', '3.6', '4.2')).toEqual({ low: '18/5', high: '21/5' });
    expect(of('mV', '3600', '4200')).toEqual(of('V', '3.60', '4.20'));
    // 1 ft = 0.3048 m exactly (NIST SP 811, B.6)
    expect(of('ft', '20', '20')).toEqual({ low: '762/125', high: '762/125' });
    // half a turn is pi radians: a fraction of a turn and a number of radians are never the same
    expect(of('deg', '180', '180')).toEqual({ low: '1/2', high: '1/2' });
    expect(of('rad', '3', '3').low).toMatch(/ pi\^-1$/);
  });
});
