import { join } from 'node:path';
import { defineConfig } from 'vitest/config';

const root = join(import.meta.dirname, '..');

export default defineConfig({
  root,
  test: {
    env: { TZ: 'UTC', LANG: 'C', NO_COLOR: '1' },
    testTimeout: 60_000,
    hookTimeout: 120_000,
    allowOnly: false,
    // One process serves many files: starting one for each, and compiling everything in it anew, took half of all the time.
    // What a test puts in the place of something goes with it.
    isolate: false,
    maxWorkers: '100%',
    restoreMocks: true,
    unstubGlobals: true,
    unstubEnvs: true,
    projects: [
      { extends: true, test: { name: 'node', include: ['tests/**/*.test.ts'], exclude: ['tests/browser/**'] } },
      { extends: true, test: { name: 'browser', include: ['tests/browser/**/*.test.ts'], fileParallelism: false } },
    ],
  },
});
