// Finds a Chromium on this machine, or installs the system's package where that can be done. Downloads none from elsewhere.

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

/** `{ path }` of a browser, or `{ why }` in one sentence that says what to install. */
export function findBrowser() {
  const found = look();
  if (found) return { path: found };
  if (process.getuid?.() === 0 && onPath('apt-get')) {
    process.stdout.write('No Chromium on this machine: installing the Debian package chromium.\n');
    const quiet = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    spawnSync('apt-get', ['update', '-qq'], quiet);
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
    const installed = look();
    if (installed) return { path: installed };
  }
  return {
    why: 'The browser tests need Chromium: install it (on Debian or Ubuntu: apt-get install chromium), or set CHROMIUM_PATH to the program.',
  };
}

function look() {
  const named = process.env.CHROMIUM_PATH;
  if (named) return existsSync(named) ? named : undefined;
  return names.map(onPath).find((path) => path !== undefined);
}

function onPath(name) {
  return (process.env.PATH ?? '')
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find((path) => existsSync(path));
}
