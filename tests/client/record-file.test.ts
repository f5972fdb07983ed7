// The files that a record is sent as: JSON by its schema, CSV by RFC 4180.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recordOf } from '../../site/client/job/record.js';
import { recordCsv, recordJson, recordName } from '../../site/client/job/record-file.js';
import { reportsJson } from '../../site/client/job/reports.js';
import { anyEntries, jobOf, learnPage, leave, reading, turn } from './jobs.js';

type Node = { readonly [key: string]: unknown };

const schema = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../schema/job-record.schema.json'), 'utf8'),
) as Node;
// dates are checked by hand: they are always those of `toISOString`
const ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: false });
ajv.addSchema(schema, 'record');

/** Every property that a schema declares, with the way to it. */
function* propertiesOf(node: unknown, path: string): Iterable<readonly [string, Node]> {
  if (typeof node !== 'object' || node === null) return;
  for (const [key, part] of Object.entries(node)) {
    if (key === 'examples' || key === 'enum' || key === 'const') continue;
    if (key === 'properties') {
      for (const [name, property] of Object.entries(part as Node)) yield [`${path}/${key}/${name}`, property as Node];
    }
    yield* propertiesOf(part, `${path}/${key}`);
  }
}

function faultsOf(json: string): unknown {
  const validate = ajv.getSchema('record');
  if (!validate) throw new Error('The schema does not compile');
  return validate(JSON.parse(json)) ? [] : validate.errors;
}

/** A CSV file taken apart by RFC 4180, written the slow way. */
function parseCsv(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [[]];
  let [cell, isQuoted] = ['', false];
  for (let i = 0; i < text.length; i += 1) {
    const sign = text[i] ?? '';
    if (isQuoted && sign === '"' && text[i + 1] === '"') {
      cell += '"';
      i += 1;
    } else if (sign === '"') isQuoted = !isQuoted;
    else if (!isQuoted && (sign === ',' || sign === '\n')) {
      rows.at(-1)?.push(cell);
      cell = '';
      if (sign === '\n') rows.push([]);
    } else if (isQuoted || sign !== '\r') cell += sign;
  }
  return rows.slice(0, -1);
}

describe('a report of a wrong page', () => {
  it('keeps its schema: what the page alone needs to know stays on the phone', () => {
    const list = JSON.parse(
      readFileSync(join(import.meta.dirname, '../../schema/job-wrong-pages.schema.json'), 'utf8'),
    ) as Node;
    const validate = ajv.compile(list);
    const json = reportsJson([
      { page: learnPage, step: '2', text: 'The lamp is on the right.', at: '2026-11-29T12:00:00.000Z' },
    ]);
    expect([validate(JSON.parse(json)), validate.errors]).toEqual([true, null]);
  });
});

describe('the schema of a record', () => {
  const properties = [...propertiesOf(schema, '#')];

  it('is one of the draft 2020-12, and lets no unknown key through', () => {
    expect(ajv.validateSchema(schema)).toBe(true);
    const record = JSON.parse(recordJson(recordOf(jobOf([])))) as Node;
    expect(faultsOf(JSON.stringify({ ...record, more: 1 }))).not.toEqual([]);
  });

  it('explains every property by title, description and examples that are true', () => {
    expect(properties.length).toBeGreaterThan(90);
    for (const [path, { title, description, examples }] of properties) {
      expect([path, typeof title, typeof description]).toEqual([path, 'string', 'string']);
      const validate = ajv.getSchema(`record${path}`);
      const wrong = (examples as readonly unknown[]).filter((example) => !validate?.(example));
      expect([path, (examples as readonly unknown[]).length > 0, wrong]).toEqual([path, true, []]);
    }
  });
});

describe('a record as JSON', () => {
  it('keeps its schema, whatever was done', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const closed = entries.some(({ kind }) => kind === 'close');
        const record = recordOf({ ...jobOf([]), state: closed ? 'closed' : 'open', entries });
        expect(faultsOf(recordJson(record))).toEqual([]);
        expect(JSON.parse(recordJson(record))).toEqual(record);
      }),
    );
  });

  it('carries its pictures inside, and says nothing of one that is gone', () => {
    const photo = (name: string) => ({ kind: 'photo', step: '4', photo: name, type: 'image/heic' }) as const;
    const record = recordOf(jobOf([photo('a'), photo('b')]));
    const json = recordJson(record, new Map([['a', 'data:image/jpeg;base64,AAAA']]));
    expect(faultsOf(json)).toEqual([]);
    const { photos } = JSON.parse(json) as { photos: readonly { type: string; picture?: string }[] };
    expect(photos.map(({ type }) => type)).toEqual(['image/jpeg', 'image/heic']);
    expect(photos.map(({ picture }) => picture)).toEqual(['data:image/jpeg;base64,AAAA', undefined]);
  });

  it('is named after its procedure, its day and its job', () => {
    expect(recordName(recordOf(jobOf([])))).toBe('record-learn-height-range-2026-11-25-01234567');
  });
});

describe('a record as CSV', () => {
  const record = recordOf(
    jobOf([
      reading('on_ground', '3.41', { verdict: 'fail', side: 'low' }),
      leave('2', '3'),
      turn(['on_ground']),
      reading('on_ground', '3.9'),
      { kind: 'note', text: '=1+1, "quoted"\nand a line' },
      { kind: 'note', text: '-3.5' },
      { kind: 'note', text: '-a' },
    ]),
  );
  const rows = parseCsv(recordCsv(record));

  it('says which reading is as found and which as left', () => {
    const readings = rows.filter((row) => row[2] === 'reading');
    expect(readings.map((row) => [row[5], row[7], row[10]])).toEqual([
      ['3.41', 'fail, low', 'as found'],
      ['3.9', 'pass', 'as left'],
    ]);
  });

  // formulas in tables of foreign text: common practice, no source
  it('quotes what needs it, and gives no formula to a spreadsheet', () => {
    expect(rows.filter((row) => row[2] === 'note').map((row) => row[5])).toEqual([
      '\'=1+1, "quoted"\nand a line',
      '-3.5',
      "'-a",
    ]);
  });

  it('has as many fields in each row, whatever was done, and a row for each item', () => {
    fc.assert(
      fc.property(anyEntries, (entries) => {
        const table = parseCsv(recordCsv(recordOf({ ...jobOf([]), entries })).replace('\uFEFF', ''));
        expect(new Set(table.map((row) => row.length))).toEqual(new Set([12]));
        expect(table.length).toBe(13 + entries.filter(({ kind }) => kind !== 'close').length);
      }),
    );
  });
});

describe('a cell of words', () => {
  it('keeps the word of the book and what the page called it, in both files', () => {
    const job = jobOf([
      { kind: 'cell', step: '8', worksheet: 'loads', row: 1, column: 'flow', text: 'high', word: 'alto' },
    ]);
    const json = recordJson(recordOf(job));
    expect(faultsOf(json)).toEqual([]);
    expect(json).toContain('"text": "high"');
    expect(json).toContain('"word": "alto"');
    expect(recordCsv(recordOf(job))).toContain('high (alto)');
  });
});
