// The store itself in a real browser: a phone that dies at random moments while it keeps what is done loses nothing that was
// acknowledged; pictures are kept small.

import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { learnPage } from '../client/jobs.js';
import { browserOptions, openBrowser, type ServedSite, serveBelow } from './site-server.js';

let browser: Browser;
let site: ServedSite;

beforeAll(async () => {
  const files = await Promise.all([pageOf('drive', drive), pageOf('photograph', photograph)]);
  site = await serveBelow('/books/small/', new Map(files.flat()));
  browser = await openBrowser();
});

/** A page that runs a script over the store, and the script. */
async function pageOf(name: string, contents: string): Promise<readonly (readonly [string, string])[]> {
  const bundled = await build({
    stdin: { contents, resolveDir: join(import.meta.dirname, '../../site/client/job'), loader: 'ts' },
    bundle: true,
    format: 'esm',
    write: false,
  });
  const page = `<!DOCTYPE html><html lang="en"><title>wait</title><body><script type="module" src="${name}.js"></script></html>`;
  return [
    [`${name}.html`, page],
    [`${name}.js`, bundled.outputFiles[0]?.text ?? ''],
  ];
}

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

/** A page that keeps pictures and says what was kept: how large, of which type, how many bytes. */
const photograph = `
  import { openJournal } from './open-journal.js';
  import { readPhoto } from './photos.js';
  const journal = await openJournal(${JSON.stringify(learnPage)});
  window.keepAndMeasure = async (blob) => {
    const kept = await readPhoto(await journal.keepPhoto(blob));
    const drawn = await createImageBitmap(kept).catch(() => undefined);
    return [drawn?.width, drawn?.height, kept.type, kept.size];
  };
  document.title = 'ready';
`;

/** A page that keeps numbers as fast as it can, from the one after the last that it finds, and says each that is kept. */
const drive = `
  import { openJournal } from './open-journal.js';
  const journal = await openJournal(${JSON.stringify(learnPage)});
  const found = journal.job.entries.map(({ text }) => Number(text));
  await window.foundAgain(found);
  for (let n = found.length; ; n += 1) {
    await journal.append({ kind: 'note', text: String(n) });
    void window.acknowledge(n);
  }
`;

/** What a page is driven to do, and what is known of it. */
interface Driver {
  /** Loads the page, waits for some acts to be kept, and gives back what it found there first. */
  readonly run: (acts: number) => Promise<readonly number[]>;
  /** The last number that came back as kept. */
  readonly acknowledged: () => number;
}

async function driverOf(page: Page): Promise<Driver> {
  let [acknowledged, goal] = [-1, 0];
  let found: readonly number[] = [];
  let enough = (): void => undefined;
  await page.exposeFunction('foundAgain', (numbers: readonly number[]) => {
    found = numbers;
  });
  await page.exposeFunction('acknowledge', (n: number) => {
    acknowledged = n;
    if (n >= found.length + goal) enough();
  });
  const run = async (acts: number): Promise<readonly number[]> => {
    const reached = new Promise<void>((resolve) => {
      enough = resolve;
    });
    goal = acts;
    // a load that the next one overtakes is no failure
    await page.goto(`${site.address}drive.html`, { waitUntil: 'commit' });
    await reached;
    return found;
  };
  return { run, acknowledged: () => acknowledged };
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

interface Phone {
  readonly page: Page;
  readonly kill: () => Promise<void>;
}

/** Browsers that share a folder, one after the other; all are dead and the folder is gone afterwards. */
async function withPhones(run: (start: () => Promise<Phone>) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stepgauge-killed-'));
  let kill = async (): Promise<void> => undefined;
  const start = async (tries = 5): Promise<Phone> => {
    const port = join(folder, 'DevToolsActivePort');
    rmSync(port, { force: true });
    const { executablePath, args } = browserOptions;
    const options = [...args, `--user-data-dir=${folder}`, '--remote-debugging-port=0'];
    const phone = spawn(executablePath, options, { stdio: 'ignore', detached: true });
    const dead = new Promise<void>((resolve) => phone.once('exit', () => resolve()));
    kill = () => {
      // the whole of it: it was started as a group of its own
      if (phone.pid !== undefined && phone.exitCode === null && phone.signalCode === null) {
        process.kill(-phone.pid, 'SIGKILL');
      }
      return dead;
    };
    while (!existsSync(port)) await pause(20);
    const [number = ''] = readFileSync(port, 'utf8').split('\n');
    const connected = await chromium
      .connectOverCDP(`http://127.0.0.1:${number}`, { timeout: 20_000 })
      .catch((fault: Error) => fault);
    // a browser that was killed comes back now and then without answering whoever drives it: that is one end more
    if (connected instanceof Error && tries > 1) {
      await kill();
      return start(tries - 1);
    }
    if (connected instanceof Error) throw connected;
    const page = await (connected.contexts()[0] ?? (await connected.newContext())).newPage();
    return { page, kill };
  };
  try {
    await run(start);
  } finally {
    await kill();
    // what was killed may still be letting go of its files
    await rm(folder, { recursive: true, force: true, maxRetries: 100, retryDelay: 100 });
  }
}

/** Numbers that look random and are the same in each run (Park and Miller, 1988). */
function newChance(): () => number {
  let seedNow = 20261125;
  return () => {
    seedNow = (seedNow * 48271) % 2147483647;
    return seedNow / 2147483647;
  };
}

/** That a page found all numbers from 0 on, and none missing that was acknowledged before. */
function expectAll(found: readonly number[], acknowledged: number): void {
  expect(found).toEqual(Array.from({ length: found.length }, (_, i) => i));
  expect(found.length).toBeGreaterThan(acknowledged);
}

describe('a hundred sudden ends lose nothing that was acknowledged', () => {
  it('seventy-eight tabs that are torn away while they write', async () => {
    const chance = newChance();
    const context = await browser.newContext();
    const page = await context.newPage();
    const driver = await driverOf(page);
    let acknowledged = -1;
    for (let round = 0; round < 78; round += 1) {
      expectAll(await driver.run(Math.floor(chance() * 4)), acknowledged);
      await pause(chance() * 12);
      await page.goto('about:blank');
      acknowledged = driver.acknowledged();
    }
    expect(acknowledged).toBeGreaterThan(78);
    await context.close();
  }, 120_000);

  it('sixteen tabs that crash', async () => {
    const chance = newChance();
    const context = await browser.newContext();
    let acknowledged = -1;
    for (let round = 0; round < 16; round += 1) {
      const page = await context.newPage();
      const driver = await driverOf(page);
      const session = await context.newCDPSession(page);
      expectAll(await driver.run(Math.floor(chance() * 4)), acknowledged);
      await pause(chance() * 12);
      const crashed = page.waitForEvent('crash');
      // what crashes answers no more
      void session.send('Page.crash').catch(() => undefined);
      await crashed;
      acknowledged = driver.acknowledged();
      await page.close();
    }
    expect(acknowledged).toBeGreaterThan(16);
    await context.close();
  }, 120_000);

  it('six browsers that are killed', async () => {
    const chance = newChance();
    let acknowledged = -1;
    await withPhones(async (start) => {
      for (let round = 0; round < 6; round += 1) {
        const phone = await start();
        const driver = await driverOf(phone.page);
        expectAll(await driver.run(Math.floor(chance() * 20)), acknowledged);
        await phone.kill();
        acknowledged = driver.acknowledged();
      }
    });
    expect(acknowledged).toBeGreaterThan(6);
  }, 300_000);
});

describe('a picture', () => {
  it('is kept small, without what the camera wrote into it, and as it came where it cannot be drawn', async () => {
    const page = await browser.newPage();
    await page.goto(`${site.address}photograph.html`);
    await page.waitForFunction(() => document.title === 'ready');
    const [large, odd] = await page.evaluate(async () => {
      const { keepAndMeasure } = window as unknown as { keepAndMeasure: (blob: Blob) => Promise<readonly unknown[]> };
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [3200, 2000];
      canvas.getContext('2d')?.fillRect(0, 0, 1600, 2000);
      const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
      // what follows the end of a PNG stands for all that a camera adds
      const camera = new Blob([blob ?? '', 'x'.repeat(5_000_000)], { type: 'image/png' });
      return [await keepAndMeasure(camera), await keepAndMeasure(new Blob(['no picture'], { type: 'image/odd' }))];
    });
    expect(large?.slice(0, 3)).toEqual([1600, 1000, 'image/jpeg']);
    expect(large?.[3]).toBeLessThan(200_000);
    expect(odd?.slice(2)).toEqual(['image/odd', 10]);
    await page.close();
  });
});
