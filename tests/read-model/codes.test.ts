// The list of codes that reading reports is whole.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readCodes } from '../../src/diagnostic/reading-codes.js';
import { filesOf } from '../rules/page.js';

const source = [...filesOf(join(import.meta.dirname, '../../src/read'))]
  .filter(([path]) => path !== 'codes.ts')
  .map(([, text]) => text)
  .join('\n');

describe('the codes of reading', () => {
  it('hold every code that a diagnostic is made with', () => {
    const made = [...source.matchAll(/\bcode: '([a-z-]+)'/g)].map(([, code = '']) => code);
    expect(made.length).toBeGreaterThan(40);
    expect([...new Set(made)].filter((code) => !(code in readCodes))).toEqual([]);
  });

  it('hold none that is not used', () => {
    expect(Object.keys(readCodes).filter((code) => !source.includes(`'${code}'`))).toEqual([]);
  });
});
