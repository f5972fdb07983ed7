// The command as it is built: exit codes, and threads that give what one alone gives. Needs `npm run build` before.

import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { guardBook } from '../../src/guard/guard.js';
import { bookAt } from './book.js';

const root = join(import.meta.dirname, '../..');

function guard(...words: readonly string[]): {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
} {
  const main = join(root, 'dist/commands/main.js');
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, 'guard', ...words], {
    cwd: root,
    encoding: 'utf8',
  });
  return { code: status, out: stdout, err: stderr };
}

describe('stepgauge guard', () => {
  it('gives the same in threads as alone, and exits with 0', () => {
    const { code, out } = guard(
      'tests/books/base',
      '--sample',
      '40',
      '--seed',
      '4',
      '--today',
      '2026-11-24',
      '--format',
      'json',
    );
    const alone = guardBook({ ...bookAt('tests/books/base'), sample: { size: 40, seed: 4 } }).result;
    expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(alone)));
    expect(code).toBe(0);
  }, 120_000);

  it('exits with 1 under --min', () => {
    const { code, out, err } = guard('tests/books/base', '--sample', '40', '--today', '2026-11-24', '--min', '100');
    expect(out).toContain('of what counts is noticed');
    expect(err).toContain('is under the 100 % asked for by --min');
    expect(code).toBe(1);
  }, 120_000);

  it('exits with 2 where the call is wrong', () => {
    expect(guard('tests/books/base', '--min', 'most').code).toBe(2);
    expect(guard('tests/books/base', '--sample', '-3').code).toBe(2);
    expect(guard('no-such-folder').code).toBe(2);
  }, 120_000);
});
