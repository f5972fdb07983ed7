// `stepgauge serve`: builds into memory and serves that on the loopback address.

import { createServer, type Server } from 'node:http';
import { filesOf } from './build.js';
import { loadBook, report } from './load.js';
import { Misuse } from './misuse.js';
import type { CheckOptions } from './options.js';
import type { Terminal } from './terminal.js';

export interface ServeOptions extends CheckOptions {
  readonly port: string;
}

const types: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  json: 'application/json; charset=utf-8',
  webmanifest: 'application/manifest+json; charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  pdf: 'application/pdf',
  woff2: 'font/woff2',
};

/** Serves until the process ends. Gives 1 at once where the book does not hold. */
export async function runServe(book: string | undefined, options: ServeOptions, terminal: Terminal): Promise<number> {
  const port = portOf(options.port);
  const loaded = loadBook(book, options);
  report(loaded, options, terminal);
  if (!loaded.holds) {
    terminal.err('Nothing is served until the errors are mended.\n');
    return 1;
  }
  const server = serveFiles(filesOf(loaded, true));
  const taken = await listen(server, port);
  terminal.out(`The book is at http://127.0.0.1:${taken}/ (stop it with Ctrl-C)\n`);
  await new Promise((resolve) => server.on('close', resolve));
  return 0;
}

function portOf(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65_535) throw new Misuse(`Unexpected \`--port ${text}\`, expected 0 to 65535`);
  return port;
}

/** A server of a fixed set of files; a folder's address gives its `index.html`. */
export function serveFiles(files: ReadonlyMap<string, string | Uint8Array>): Server {
  return createServer((request, response) => {
    const path = pathOf(request.url ?? '/');
    const name = path === '' || path.endsWith('/') ? `${path}index.html` : path;
    const body = files.get(name);
    if (body === undefined && files.has(`${name}/index.html`)) {
      response.writeHead(308, { location: `/${name}/` }).end();
    } else if (body === undefined) {
      response.writeHead(404, { 'content-type': types.html }).end(files.get('404.html') ?? 'There is no such page.');
    } else {
      const type = types[name.slice(name.lastIndexOf('.') + 1)] ?? 'application/octet-stream';
      response.writeHead(200, { 'content-type': type, 'cache-control': 'no-cache' }).end(body);
    }
  });
}

function pathOf(url: string): string {
  try {
    return decodeURIComponent(new URL(url, 'http://127.0.0.1').pathname).slice(1);
  } catch {
    // An address that cannot be read is the address of nothing: it gets the page for that.
    return '404.html';
  }
}

/** Listens on the loopback address alone; a port in use gives way to any free one. */
async function listen(server: Server, port: number): Promise<number> {
  await new Promise<void>((resolve, reject) => {
    server.once('error', (fault: NodeJS.ErrnoException) => {
      if (fault.code === 'EADDRINUSE') server.listen(0, '127.0.0.1', resolve);
      else reject(fault);
    });
    server.listen(port, '127.0.0.1', resolve);
  });
  const address = server.address();
  return typeof address === 'object' && address ? address.port : port;
}
