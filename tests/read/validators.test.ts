// The validators that are written out when the program is built find what those find that are compiled when it runs.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type FileKind, schemaTexts } from '../../src/read/schemas.js';
import { validatorOf } from '../../src/read/validators.js';
import { filesOf } from '../rules/page.js';

const written = (await import(join(import.meta.dirname, '../../dist/commands/validators.js'))) as {
  readonly validatorOf: typeof validatorOf;
};
const kinds = Object.keys(schemaTexts).filter((name): name is FileKind => name !== 'common');

function kindOf(path: string): FileKind | undefined {
  if (path.startsWith('machines/')) return 'machine';
  if (path.startsWith('headers/')) return 'header';
  if (path.endsWith('.es.md')) return 'translation';
  return path.endsWith('.md') ? 'procedure' : kinds.find((kind) => path === `${kind}.yaml`);
}

const values = [...filesOf(join(import.meta.dirname, '../../procedures'))].flatMap(([path, text]) => {
  const kind = kindOf(path);
  if (!kind) return [];
  const front = path.endsWith('.md') ? (text.split(/^---$/m)[1] ?? '') : text;
  return [{ path, kind, value: parse(front) as unknown }];
});

/** What it may be instead, and maps and lists with more or less in them. */
function* slipsIn(value: unknown): Iterable<unknown> {
  yield* [null, 7, '', 'some words', [], [1, 1], {}, { constructor: 1 }];
  if (Array.isArray(value)) {
    yield [...value, ...value.slice(0, 1)];
    for (const [i, item] of value.entries()) for (const slip of slipsIn(item)) yield value.with(i, slip);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, part] of Object.entries(value)) {
      const { [key]: _, ...rest } = value as Record<string, unknown>;
      yield rest;
      yield { ...rest, [`${key}-x`]: part };
      for (const slip of slipsIn(part)) yield { ...value, [key]: slip };
    }
  }
}

function foundBy(validate: ReturnType<typeof validatorOf>, value: unknown): unknown {
  if (validate(value)) return [];
  return (validate.errors ?? []).map(({ schema: _, data: __, ...error }) => error);
}

describe('the validators of the built program', () => {
  it('are one for each kind of file', () => {
    for (const kind of kinds) expect(typeof written.validatorOf(kind), kind).toBe('function');
    expect(new Set(values.map(({ kind }) => kind)).size).toBeGreaterThan(8);
  });

  it('find in the demo book, and in it with slips, what those find that are compiled at run time', () => {
    let [tried, wrong] = [0, 0];
    for (const { path, kind, value } of values) {
      const slips = [value, ...slipsIn(value)];
      // a share of them, spread over the file
      for (const slip of slips.filter((_, i) => i % Math.ceil(slips.length / 80) === 0)) {
        const found = foundBy(validatorOf(kind), slip);
        expect(foundBy(written.validatorOf(kind), slip), path).toEqual(found);
        tried += 1;
        if (JSON.stringify(found) !== '[]') wrong += 1;
      }
    }
    expect(tried).toBeGreaterThan(2000);
    expect(wrong / tried).toBeGreaterThan(0.5);
  });
});
