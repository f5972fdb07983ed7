// What the schema says of one place in a file: title, examples and wording of the property itself, before any `$ref`.

import { type FileKind, type SchemaName, schemaTexts } from './schemas.js';

/** The parts of a schema that words are made of. */
export interface Wording {
  readonly title?: string;
  readonly errorMessage?: string;
  readonly patternErrorMessage?: string;
  readonly examples?: readonly unknown[];
}

interface Schema extends Wording {
  readonly $ref?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly patternProperties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema;
  readonly then?: Schema;
  readonly else?: Schema;
  readonly $defs?: Readonly<Record<string, Schema>>;
}

/** A schema and the document that its `$ref` counts from. */
interface Found {
  readonly schema: Schema;
  readonly document: SchemaName;
}

const documents = new Map<SchemaName, Schema>();

function documentOf(name: SchemaName): Schema {
  const known = documents.get(name) ?? (JSON.parse(schemaTexts[name]) as Schema);
  documents.set(name, known);
  return known;
}

/** The wording for the place that keys and indices lead to; empty where the schema says nothing of it. */
export function wordingAt(kind: FileKind, path: readonly string[]): Wording {
  let found: Found | undefined = { schema: documentOf(kind), document: kind };
  for (const step of path) found = found && stepInto(found, step);
  return found ? Object.assign({}, ...alternatives(found).reverse().map(wordingOf)) : {};
}

function wordingOf({ schema: { title, errorMessage, patternErrorMessage, examples } }: Found): Wording {
  const all = { title, errorMessage, patternErrorMessage, examples };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

/** A schema with what it refers to, itself first. */
function alternatives(found: Found): Found[] {
  const { $ref } = found.schema;
  const target = $ref === undefined ? undefined : resolve($ref, found.document);
  return target ? [found, ...alternatives(target)] : [found];
}

function resolve(reference: string, document: SchemaName): Found | undefined {
  const [file = '', name = ''] = reference.split('#/$defs/');
  const target = file === '' ? document : (file.replace('.schema.json', '') as SchemaName);
  const schema = documentOf(target).$defs?.[name];
  return schema && { schema, document: target };
}

function stepInto(found: Found, step: string): Found | undefined {
  for (const { schema, document } of alternatives(found)) {
    for (const one of [schema, schema.then, schema.else]) {
      const property = one?.properties?.[step];
      if (property) return { schema: property, document };
    }
  }
  for (const { schema, document } of alternatives(found)) {
    const other = [schema, schema.then, schema.else].flatMap((one) => [one?.additionalProperties, one?.items]);
    const inner = other.find((one): one is Schema => typeof one === 'object');
    if (inner) return { schema: inner, document };
  }
  return undefined;
}
