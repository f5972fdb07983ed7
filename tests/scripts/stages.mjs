// Runs the named stages one after the other, all of them whatever fails, and closes with a line that a reader can count.
//   node tests/scripts/stages.mjs check     what needs no browser
//   node tests/scripts/stages.mjs test      that and the browser tests

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findBrowser } from './browser.mjs';

const withBrowser = process.argv[2] === 'test';
const folder = mkdtempSync(join(tmpdir(), 'stepgauge-stages-'));
const count = { passed: 0, failed: 0, skipped: 0 };
const fallen = [];

/** A stage that passes or fails as one. */
function stage(name, command, environment = {}) {
  process.stdout.write(`\n# ${name}\n`);
  const [program, ...rest] = command;
  const { status } = spawnSync(program, rest, { stdio: 'inherit', env: { ...process.env, ...environment } });
  count[status === 0 ? 'passed' : 'failed'] += 1;
  if (status !== 0) fallen.push(name);
}

/** A stage of tests, each of which counts. A run that reports nothing is one failure. */
function tests(name, project, environment = {}) {
  process.stdout.write(`\n# ${name}\n`);
  const report = join(folder, `${project}.json`);
  const command = ['vitest', 'run', '--config', 'tests/vitest.config.ts', '--project', project];
  const reporters = ['--reporter', 'default', '--reporter', 'json', `--outputFile.json=${report}`];
  const { status } = spawnSync('npx', [...command, ...reporters], {
    stdio: 'inherit',
    env: { ...process.env, CI: 'true', ...environment },
  });
  let seen;
  try {
    seen = JSON.parse(readFileSync(report, 'utf8'));
  } catch (error) {
    process.stdout.write(`The test runner left no report: ${error.message}\n`);
  }
  count.passed += seen?.numPassedTests ?? 0;
  count.skipped += (seen?.numPendingTests ?? 0) + (seen?.numTodoTests ?? 0);
  const failed = seen?.numFailedTests ?? 0;
  count.failed += status !== 0 ? Math.max(failed, 1) : failed;
  if (status !== 0) fallen.push(name);
}

stage('Build', ['npm', 'run', '--silent', 'build']);
stage('Types of the tests', ['npx', 'tsc', '-p', 'tests']);
stage('Types of the site', ['npx', 'tsc', '-p', 'site']);
stage('Lint and format', ['npx', 'biome', 'check', '--error-on-warnings', '.']);
stage('The demo book is clean', [
  'node',
  'dist/commands/main.js',
  'check',
  'procedures',
  '--strict',
  '--today',
  '2026-11-24',
]);
tests('Tests without a browser', 'node');
if (withBrowser) {
  const browser = findBrowser();
  if (browser.path) tests('Tests in a browser', 'browser', { CHROMIUM_PATH: browser.path });
  else {
    process.stdout.write(`\n${browser.why}\n`);
    count.failed += 1;
    fallen.push('Tests in a browser');
  }
}
rmSync(folder, { recursive: true, force: true });
if (fallen.length > 0) process.stdout.write(`\nFailed: ${fallen.join('; ')}\n`);
const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : '';
process.stdout.write(`\n${count.passed} passed, ${count.failed} failed${skipped}\n`);
process.exitCode = count.failed > 0 ? 1 : 0;
