// data/proof.json and `check --proof`: its schema explains all of it, and it claims what was done and no more.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import { gatherProof } from '../../src/emit/open-data/proof.js';
import { proveVariant } from '../../src/order/prove.js';
import { filesOf } from '../rules/page.js';

const root = join(import.meta.dirname, '../..');
const schema = JSON.parse(readFileSync(join(root, 'schema/compiled-proof.schema.json'), 'utf8'));
const ajv = new Ajv2020({ strict: false, allErrors: true });
const validate = ajv.compile(schema);
const base = filesOf(join(root, 'tests/books/base'));

function proofOf(changes: Readonly<Record<string, string>> = {}) {
  const files = new Map([...base, ...Object.entries(changes)]);
  const sources = new Map([...files].map(([path, text]) => [path, { path, text }]));
  const { resolved, proofs } = checkBook({ sources, figures: new Set(), today: '2026-11-24' });
  if (!resolved) throw new Error('The book was not read');
  return { resolved, proofs, proof: gatherProof({ resolved, proofs, bound: 200_000 }) };
}

const page = 'sensors/learn-height-range.md';

function changed(from: string, to: string): Readonly<Record<string, string>> {
  const text = base.get(page) ?? '';
  if (!text.includes(from)) throw new Error(`There is no ${from}`);
  return { [page]: text.replace(from, to) };
}

function* propertiesOf(node: unknown): Iterable<Readonly<Record<string, unknown>>> {
  if (typeof node !== 'object' || node === null) return;
  for (const [key, part] of Object.entries(node)) {
    if (key === 'examples') continue;
    if (key === 'properties') yield* Object.values(part as Record<string, Record<string, unknown>>);
    yield* propertiesOf(part);
  }
}

describe('the schema of the proof', () => {
  it('explains every property by title, description and example', () => {
    expect(ajv.validateSchema(schema)).toBe(true);
    const all = [...propertiesOf(schema)];
    expect(all.length).toBeGreaterThan(20);
    expect(all.filter(({ title, description, examples }) => !title || !description || !examples)).toEqual([]);
  });

  it('knows every kind of question that is asked', () => {
    const kinds = JSON.stringify(schema.$defs.variant.properties.asked);
    const { resolved } = proofOf();
    for (const variant of resolved.variants) {
      const { asked } = proveVariant(variant, resolved.world, { budget: 200_000 });
      for (const kind of asked.keys()) expect(kinds).toContain(`"${kind}"`);
    }
  });
});

describe('the proof of a book', () => {
  it('keeps its schema and says for every variant what was asked and kept', () => {
    const { proof, resolved, proofs } = proofOf();
    expect(validate(proof), JSON.stringify(validate.errors)).toBe(true);
    expect(proof.variants.map(({ id }) => id)).toEqual(resolved.variants.map(({ id }) => id));
    for (const variant of proof.variants) {
      expect(variant).toMatchObject({ result: 'proved', faults: 0, ends: ['done', 'call-service'] });
      expect(variant.states).toBe(proofs.get(variant.id)?.explored);
      expect(variant.asked.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['leaves-not-met', 'moves-when']));
    }
  });

  it('says which rules trigger, at how many steps, and whether they were kept', () => {
    const beside = changed('  - id: read-raised\n', '  - id: read-raised\n    at: beside\n');
    const { proof } = proofOf(beside);
    expect(validate(proof), JSON.stringify(validate.errors)).toBe(true);
    const [first] = proof.variants;
    expect(first?.result).toBe('faults');
    const broken = first?.rules.find(({ id }) => id === 'nothing-moves-over-people');
    expect(broken).toMatchObject({ held: false });
    expect(broken?.steps).toBeGreaterThan(0);
    expect(proof.rules.find(({ id }) => id === 'under-the-header')).toMatchObject({ variants: 0, steps: 0 });
  });

  it('claims nothing of what was not asked', () => {
    const { proof } = proofOf(changed('sets: { header: raised }', 'sets: { heder: raised }'));
    expect(validate(proof), JSON.stringify(validate.errors)).toBe(true);
    for (const variant of proof.variants) {
      expect(variant).toMatchObject({ result: 'not-proved', because: 'wrong-before', states: 0, rules: [], asked: [] });
    }
  });

  it('claims nothing where the bound was met', () => {
    const { resolved } = proofOf();
    const proofs = new Map(
      resolved.variants.map((variant) => [variant.id, proveVariant(variant, resolved.world, { budget: 10 })]),
    );
    const proof = gatherProof({ resolved, proofs, bound: 10 });
    expect(validate(proof), JSON.stringify(validate.errors)).toBe(true);
    for (const variant of proof.variants) {
      expect(variant).toMatchObject({ result: 'not-proved', because: 'bound-met', rules: [], asked: [] });
    }
  });
});
