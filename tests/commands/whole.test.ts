// The program starts from code that the build kept, and says the same where the engine does not take it.

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import process from 'node:process';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const env = { ...process.env, NODE_OPTIONS: '' };

function node(...words: readonly string[]): string {
  return execFileSync(process.execPath, words, { cwd: root, env, encoding: 'utf8' });
}

/** What becomes of the kept code in an engine that is started with these flags. */
function isRejected(...flags: readonly string[]): string {
  const text =
    "import { compileWhole } from './dist/commands/whole.js'; console.log(String(compileWhole().cachedDataRejected));";
  return node(...flags, '--input-type=module', '--eval', text).trim();
}

describe('the program as it is built', () => {
  it('takes the code that was kept', () => {
    expect(isRejected()).toBe('false');
  });

  it('is compiled anew by an engine that is set otherwise, and says the same', () => {
    expect(isRejected('--no-opt')).toBe('true');
    const words = ['dist/commands/main.js', 'explain', 'circular-parameter'];
    expect(node('--no-opt', ...words)).toBe(node(...words));
  });
});
