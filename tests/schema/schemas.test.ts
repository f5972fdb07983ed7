// The schemas themselves: valid JSON Schema 2020-12, every property explained, every example true, nothing let through.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { schemaTexts } from '../../src/read/schemas.js';

interface Schema {
  readonly $id?: string;
  readonly $ref?: string;
  readonly title?: string;
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
}

const folder = join(import.meta.dirname, '../../schema');
// what is no file of a book is checked where it is written
const files = readdirSync(folder).filter(
  (file) =>
    file.endsWith('.schema.json') && !/^(?:compiled-|job-|guard-|release|comparison|records-|reprint)/.test(file),
);
const schemas = new Map(files.map((file) => [file, JSON.parse(readFileSync(join(folder, file), 'utf8')) as Schema]));

/** Every property of a schema, wherever it is declared, with the way to it. */
function* propertiesOf(schema: unknown, path: string): Iterable<{ path: string; property: Schema }> {
  if (Array.isArray(schema)) {
    for (const [index, part] of schema.entries()) yield* propertiesOf(part, `${path}/${index}`);
  }
  if (typeof schema !== 'object' || schema === null || Array.isArray(schema)) return;
  for (const [key, part] of Object.entries(schema)) {
    if (key === 'examples' || key === 'enum' || key === 'const') continue;
    if (key === 'properties') {
      for (const [name, property] of Object.entries(part as Record<string, Schema>)) {
        yield { path: `${path}/properties/${name}`, property };
      }
    }
    yield* propertiesOf(part, `${path}/${key}`);
  }
}

const all = [...schemas].flatMap(([file, schema]) => [...propertiesOf(schema, `${file}#`)]);

function newCompiler(): Ajv2020 {
  const ajv = new Ajv2020({ strict: false });
  for (const schema of schemas.values()) ajv.addSchema(schema as object);
  return ajv;
}

describe('the schemas', () => {
  it('are one for each kind of file, and one for what they share', () => {
    expect(files.map((file) => file.replace('.schema.json', '')).sort()).toEqual([
      'book',
      'common',
      'crops',
      'fleet',
      'header',
      'instruments',
      'issued',
      'machine',
      'procedure',
      'safety',
      'states',
      'terms',
      'tools',
      'translation',
    ]);
  });

  it('are schemas of the draft 2020-12', () => {
    const ajv = newCompiler();
    for (const [file, schema] of schemas) expect([file, ajv.validateSchema(schema as object)]).toEqual([file, true]);
  });

  it('explain every property by a title, a description and examples', () => {
    expect(all.length).toBeGreaterThan(200);
    const poor = all.filter(({ property }) => !property.title || !property.description || !property.examples?.length);
    expect(poor.map(({ path }) => path)).toEqual([]);
  });

  it('give examples that are valid themselves', () => {
    const ajv = newCompiler();
    const wrong = all.flatMap(({ path, property }) => {
      const pointer = path.replaceAll(/\/properties\/([^/]+)/g, (_, name: string) => `/properties/${encodeURI(name)}`);
      const validate = ajv.getSchema(pointer);
      if (!validate) return [`${path}: not found`];
      return (property.examples ?? [])
        .filter((example) => !validate(example))
        .map((example) => `${path}: ${JSON.stringify(example)}`);
    });
    expect(wrong).toEqual([]);
  });

  it('let no unknown key through', () => {
    const open: string[] = [];
    const visit = (schema: unknown, path: string): void => {
      if (typeof schema !== 'object' || schema === null) return;
      const { properties, additionalProperties, $ref } = schema as Schema;
      if (properties && additionalProperties === undefined && $ref === undefined) open.push(path);
      for (const [key, part] of Object.entries(schema)) if (key !== 'examples') visit(part, `${path}/${key}`);
    };
    for (const [file, schema] of schemas) visit(schema, file);
    expect(open).toEqual([]);
  });

  it('use no keyword that would report one fault several times', () => {
    const text = [...schemas.values()].map((schema) => JSON.stringify(schema)).join();
    expect(text).not.toContain('"oneOf"');
    // inside `if` it reports nothing
    expect(text.replaceAll(/"if":\{"not":\{"anyOf":/g, '')).not.toContain('"anyOf"');
  });

  it('are what the compiler carries; `node tests/scripts/embed-schemas.mjs` brings it up to date', () => {
    for (const [file, schema] of schemas) {
      const name = file.replace('.schema.json', '') as keyof typeof schemaTexts;
      expect([file, JSON.parse(schemaTexts[name])]).toEqual([file, schema]);
    }
  });
});
