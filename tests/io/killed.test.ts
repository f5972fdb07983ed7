// A run that is killed while it writes leaves the old output whole, and the next run clears up after it.

import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeFolder } from '../../src/io.js';

const count = 3000;
let folder = '';
let script = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'killed-'));
  script = join(folder, 'write.mjs');
  const contents = `import { writeFolder } from './io.js';
    const files = new Map(Array.from({ length: ${count} }, (_, i) => ['deep/' + i + '.html', 'new'.repeat(500)]));
    writeFolder(process.argv[2], files);`;
  const resolveDir = join(import.meta.dirname, '../../src');
  await build({ stdin: { contents, resolveDir }, bundle: true, platform: 'node', format: 'esm', outfile: script });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the script and kills it as soon as it has written at least `after` files. */
async function killWhileWriting(above: string, after: number): Promise<void> {
  const child = spawn(process.execPath, [script, join(above, 'public')]);
  const ended = new Promise((resolve) => child.on('exit', resolve));
  const look = setInterval(() => {
    const fresh = readdirSync(above).find((name) => name.startsWith('.public-new-'));
    if (fresh === undefined) return;
    try {
      if (readdirSync(join(above, fresh, 'deep')).length >= after) child.kill('SIGKILL');
    } catch {
      // The folder is made, or swapped in, at this very moment: look again.
    }
  }, 1);
  await ended;
  clearInterval(look);
}

describe('a killed run', () => {
  it.each([0, 40, 400, 2000])('leaves the old output or the new one, never a part: after %i files', async (after) => {
    const above = mkdtempSync(join(folder, 'run-'));
    const out = join(above, 'public');
    writeFolder(out, new Map([['index.html', 'old']]));
    await killWhileWriting(above, after);
    // Killed between the two renames the old output stands beside its place, from where the next run takes it back.
    const beside = readdirSync(above).find((name) => name.startsWith('.public-old-'));
    const place = existsSync(out) || beside === undefined ? out : join(above, beside);
    const names = readdirSync(place).filter((name) => !name.startsWith('.'));
    if (names[0] === 'index.html') expect(readFileSync(join(place, 'index.html'), 'utf8')).toBe('old');
    else expect(readdirSync(join(place, 'deep')).length).toBe(count);
    writeFolder(out, new Map([['index.html', 'newer']]));
    expect(readdirSync(above)).toEqual(['public']);
    expect(readFileSync(join(out, 'index.html'), 'utf8')).toBe('newer');
  });
});
