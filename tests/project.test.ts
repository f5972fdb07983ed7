// The project's rules about itself: what lies at its top, what never stands in a file, what the lock file must not name.

import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '..');

/** Every file that the repository holds, or would hold; found without git where there is none. */
const files = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
  cwd: root,
  encoding: 'utf8',
})
  .split('\n')
  .filter((path) => path !== '' && existsSync(join(root, path)));

const texts = files.filter((path) => /\.(?:ts|mjs|md|ya?ml|json|css|html|svg|sh)$|^\.ci\/|^\.npmrc$/.test(path));

describe('the project', () => {
  it('has at its top only what belongs there', () => {
    const expected = [
      '.ci',
      '.gitignore',
      '.npmrc',
      'DEVELOPERS.md',
      'LICENSE',
      'README.md',
      'biome.json',
      'package-lock.json',
      'package.json',
      'procedures',
      'schema',
      'site',
      'src',
      'tests',
      'tsconfig.json',
    ];
    expect([...new Set(files.map((path) => path.split('/')[0]))].sort()).toEqual(expected);
  });

  it('names no host of a registry and no path of a machine', () => {
    const banned = [
      /registry\.[a-z]+\.(?:org|com)/i,
      /["'`\s(=]\/(?:work|root|home|Users)\/\w/,
      /file:\/\/\/(?:work|root|home)/,
    ];
    const wrong = texts
      .filter((path) => path !== 'tests/project.test.ts')
      .flatMap((path) => {
        const text = readFileSync(join(root, path), 'utf8');
        return banned.filter((ban) => ban.test(text)).map((ban) => `${path}: ${ban}`);
      });
    expect(wrong).toEqual([]);
  });

  it('leaves out the addresses of packages in the lock file', () => {
    expect(readFileSync(join(root, '.npmrc'), 'utf8')).toContain('omit-lockfile-registry-resolved=true');
    expect(readFileSync(join(root, 'package-lock.json'), 'utf8')).not.toContain('"resolved": "http');
  });

  it('has no test that runs alone, and no loose ends', () => {
    const loose = [/\b(?:it|test|describe)\.only\(/, /\bTODO\b|\bFIXME\b|\bXXX\b/];
    const wrong = files
      .filter((path) => /\.(?:ts|mjs)$/.test(path) && path !== 'tests/project.test.ts')
      .flatMap((path) => {
        const text = readFileSync(join(root, path), 'utf8');
        return loose.filter((one) => one.test(text)).map((one) => `${path}: ${one}`);
      });
    expect(wrong).toEqual([]);
  });

  it('opens its README with the job in one paragraph and the two commands on the first screen', () => {
    const readme = readFileSync(join(root, 'README.md'), 'utf8');
    expect(readme.split('\n\n')[1]).toMatch(/dealership .* calibrated/s);
    expect(readme).toContain('npm ci && npm start');
    expect(readme).toContain('npm ci && npm test');
    expect(readme.indexOf('npm ci && npm test')).toBeLessThan(2500);
  });

  it('runs in continuous integration the very test command of the README', () => {
    expect(readFileSync(join(root, '.ci/run'), 'utf8')).toMatch(/^npm ci\nnpm test$/m);
  });
});
