// A terminal that keeps what is written to it, and folders that go away after the test.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import { run } from '../../src/commands/program.js';

export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the program with these words. */
export async function stepgauge(...words: readonly string[]): Promise<Outcome> {
  let [out, err] = ['', ''];
  const code = await run(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    color: false,
    progress: () => undefined,
  });
  return { code, out, err };
}

const folders: string[] = [];

afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A new empty folder. */
export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'stepgauge-test-'));
  folders.push(folder);
  return folder;
}
