// The table of the rules is complete, names nothing that is not there, and is what the pages say.
// `npm run update` writes it anew.

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { catalogue } from '../../src/rules/catalogue.js';
import { pagesBelow } from './page.js';
import { type Asked, groupOf, writeTable } from './table.js';

const root = join(import.meta.dirname, '../..');
const file = join(root, 'src/rules/README.md');
const asked = JSON.parse(readFileSync(join(root, 'src/rules/asked.json'), 'utf8')) as Asked;
const pages = pagesBelow(join(root, 'src/rules'));

describe('the table of the rules', () => {
  it('gives every code one of the thirteen groups, and every group a code', () => {
    expect(asked.groups.length).toBe(13);
    const groups = pages.map((page) => groupOf(page, asked));
    expect(pages.filter((page) => groupOf(page, asked) === undefined).map(({ id }) => id)).toEqual([]);
    expect(asked.groups.filter((group) => !groups.includes(group))).toEqual([]);
    expect(pages.map(({ id }) => id).sort()).toEqual([...catalogue.keys()].sort());
  });

  it('has something that keeps each thing asked, and nothing that is not there', () => {
    expect(asked.asked.length).toBe(40);
    for (const { asks, codes, kept, source } of asked.asked) {
      expect([asks, source === '' ? 'no source' : '', codes.length + kept.length > 0]).toEqual([asks, '', true]);
      expect(codes.filter((code) => !catalogue.has(code))).toEqual([]);
      expect(kept.filter((test) => !existsSync(join(root, test)))).toEqual([]);
    }
    expect(Object.keys(asked.apart).filter((code) => !catalogue.has(code))).toEqual([]);
  });

  it('is what the pages say', () => {
    const table = writeTable(pages, asked, catalogue);
    if (process.env.UPDATE_PAGES === '1') writeFileSync(file, table);
    expect(readFileSync(file, 'utf8')).toBe(table);
  });
});
