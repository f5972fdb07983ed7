// Check values from outside the project, one entry a test: each is computed, or it is said why not. Read from the folder
// OUTSIDE_VALUES; the same sources stand beside the numbers in the tests of each part, which run everywhere.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { outsideFolder } from './record.js';
import { checks, notComputed } from './values-checks.js';

interface Entry {
  readonly id: string;
  readonly what: string;
  readonly values: unknown;
  readonly source: string;
}

const folder = outsideFolder();

function numbersIn(values: unknown): readonly number[] {
  if (typeof values === 'number') return [values];
  if (typeof values !== 'object' || values === null) return [];
  return Object.values(values).flatMap(numbersIn);
}

describe.skipIf(folder === undefined)('check values', () => {
  const { entries }: { entries: readonly Entry[] } = folder
    ? JSON.parse(readFileSync(join(folder, 'values.json'), 'utf8'))
    : { entries: [] };
  const computed = entries.filter(({ id }) => checks[id] && !notComputed[id]);

  test('each is computed, or it is said why not', () => {
    const silent = entries.filter(({ id }) => !checks[id] && !notComputed[id] && !notComputed[id.slice(0, 1)]);
    expect(silent.map(({ id, what }) => `${id} ${what}`)).toEqual([]);
    expect(computed.length).toBeGreaterThan(70);
  });

  test.each(computed)('$id $what ($source)', ({ id, values }) => {
    const pairs = checks[id]?.(numbersIn(values), values) ?? [];
    expect(pairs.length).toBeGreaterThan(0);
    for (const [actual = Number.NaN, expected, within = 1e-12] of pairs)
      expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(
        within * Math.max(Math.abs(expected), expected === 0 ? 1 : 0),
      );
  });
});
