import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { resolveCodes } from '../../src/diagnostic/resolving-codes.js';
import { filesOf } from '../rules/page.js';

const root = join(import.meta.dirname, '../..');
const source = [...filesOf(join(root, 'src/resolve'))].map(([, text]) => text);
const tests = [...filesOf(join(root, 'tests/resolve'))].map(([, text]) => text);
describe('the codes of this phase', () => {
  it('are those that it reports, in the order of the alphabet', () => {
    const codes = Object.keys(resolveCodes);
    expect(codes).toEqual([...codes].sort());
    expect(codes.filter((code) => !source.some((text) => text.includes(`'${code}'`)))).toEqual([]);
  });

  it('are each shown by a test', () => {
    const untested = Object.keys(resolveCodes).filter((code) => !tests.some((text) => text.includes(`'${code}`)));
    expect(untested).toEqual([]);
  });

  it('say what is wrong and how to mend it', () => {
    const withoutHelp = [...filesOf(join(root, 'src/resolve'))].flatMap(([path, text]) =>
      [...text.matchAll(/report\(\{[\s\S]*?\n {2,}\}\);/g)].filter(([call]) => !call.includes('help')).map(() => path),
    );
    expect(withoutHelp).toEqual([]);
  });
});
