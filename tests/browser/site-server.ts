// The demo book's site in a real browser: built, served below a path, opened at the size of a phone.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { offlineFiles } from '../../src/emit/offline/offline-files.js';
import { emitSite } from '../../src/emit/pages/site.js';
import { mapSite } from '../../src/emit/pages/site-map.js';
import { demoBook, type TestBook } from '../emit-pages/books.js';

const root = join(import.meta.dirname, '../..');

/** Every file of the site of the demo book, with what the browser runs; without its printed cards. */
export function buildDemoSite(): ReadonlyMap<string, string | Uint8Array> {
  demo ??= buildSite(demoBook());
  return demo;
}

// the files of browser tests run one after the other, in one process
let demo: ReadonlyMap<string, string | Uint8Array> | undefined;

/** The same for any book. */
export function buildSite({ resolved, proofs, figures }: TestBook): ReadonlyMap<string, string | Uint8Array> {
  const files = emitSite(resolved, { proofs, figures, assets: bundle() });
  return new Map([...files, ...offlineFiles(resolved, mapSite(resolved, { drafts: false }), files)]);
}

let bundled: ReadonlyMap<string, Uint8Array> | undefined;

/** What the browser runs and shows, bundled once. */
export function bundle(): ReadonlyMap<string, Uint8Array> {
  bundled ??= makeBundle();
  return bundled;
}

function makeBundle(): ReadonlyMap<string, Uint8Array> {
  const folder = mkdtempSync(join(tmpdir(), 'stepgauge-site-'));
  try {
    execFileSync(process.execPath, [join(root, 'tests/scripts/bundle-site.mjs'), folder]);
    return new Map(
      readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name))
        .map((path) => [path.slice(folder.length + 1).replaceAll('\\', '/'), readFileSync(path)]),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const types: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  json: 'application/json; charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
  webmanifest: 'application/manifest+json; charset=utf-8',
  woff2: 'font/woff2',
};

export interface ServedSite {
  /** The address of the site, with the path it is served below. */
  readonly address: string;
  readonly server: Server;
  /** What is served from now on; `undefined` for a path that fails as a server under repair does. */
  files: ReadonlyMap<string, string | Uint8Array | undefined>;
  /** Nobody answers, as without signal. */
  isDown: boolean;
  /** Addresses that were asked for and are not there. */
  readonly missing: readonly string[];
}

/** Serves files below `base` on the loopback address. */
export async function serveBelow(base: string, files: ServedSite['files']): Promise<ServedSite> {
  const missing: string[] = [];
  const site = { files, missing, isDown: false };
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://127.0.0.1').pathname);
    const name = path.startsWith(base) ? path.slice(base.length) : undefined;
    const file = name === '' || name?.endsWith('/') ? `${name}index.html` : name;
    const body = file === undefined ? undefined : site.files.get(file);
    if (site.isDown) request.socket.destroy();
    else if (body === undefined && file !== undefined && site.files.has(file)) response.writeHead(503).end();
    else if (body === undefined) {
      missing.push(path);
      response.writeHead(404).end();
    } else {
      const type = types[file?.split('.').at(-1) ?? ''] ?? 'application/octet-stream';
      response.writeHead(200, { 'content-type': type }).end(body);
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return Object.assign(site, { address: `http://127.0.0.1:${port}${base}`, server });
}

/** How a Chromium is started that asks nothing of any network. */
export const browserOptions = {
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
  args: [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
};

/** A Chromium that asks nothing of any network. */
export function openBrowser(): Promise<Browser> {
  return chromium.launch(browserOptions);
}
