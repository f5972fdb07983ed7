// `stepgauge serve`: builds into memory, serves that on the loopback address, and builds again when the book changes.

import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { renderText } from '../diagnostic/text.js';
import { FileProblem, watchFolder } from '../io.js';
import { filesOf } from './build.js';
import { type Loaded, makeLoader, report } from './load.js';
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
  ics: 'text/calendar; charset=utf-8',
  woff2: 'font/woff2',
};

/** Serves until the process ends; builds again whenever the book changes, and tells the pages that are open. */
export async function runServe(book: string | undefined, options: ServeOptions, terminal: Terminal): Promise<number> {
  const port = portOf(options.port);
  const load = makeLoader();
  const first = load(book, options);
  const served: Served = { files: new Map(), faults: undefined, watchers: new Set() };
  take(first, served, options, terminal);
  const server = serveFiles(served);
  const taken = await listen(server, port);
  terminal.out(`The book is at http://127.0.0.1:${taken}/ (stop it with Ctrl-C)\n`);
  const stop = watchFolder(first.folder, () => {
    try {
      take(load(first.folder, options), served, options, terminal);
    } catch (fault) {
      // The folder may be gone for a moment, or its book.yaml: that is told, and the old pages stay.
      if (!(fault instanceof Misuse || fault instanceof FileProblem)) throw fault;
      served.faults = fault.message;
    }
    for (const watcher of served.watchers) tell(watcher, served);
  });
  await new Promise((resolve) => server.on('close', resolve));
  stop();
  return 0;
}

/** What is served now: the last build that held, and what is wrong with the book since. */
export interface Served {
  files: ReadonlyMap<string, string | Uint8Array>;
  faults: string | undefined;
  readonly watchers: Set<ServerResponse>;
}

function take(loaded: Loaded, served: Served, options: ServeOptions, terminal: Terminal): void {
  report(loaded, options, terminal);
  if (loaded.holds) {
    served.files = filesOf(loaded, true);
    served.faults = undefined;
    return;
  }
  const counted = loaded.diagnostics.filter(({ severity }) => severity !== 'hint');
  served.faults = renderText(counted, loaded.sources, { color: false });
}

function tell(watcher: ServerResponse, { faults }: Served): void {
  const event = faults === undefined ? 'event: built\ndata: -' : `event: faults\ndata: ${JSON.stringify(faults)}`;
  watcher.write(`${event}\n\n`);
}

function portOf(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65_535) throw new Misuse(`Unexpected \`--port ${text}\`, expected 0 to 65535`);
  return port;
}

/** A server of the files there are now; a folder's address gives its `index.html`. */
export function serveFiles(served: Served): Server {
  return createServer((request, response) => {
    const { files, faults } = served;
    const path = pathOf(request.url ?? '/');
    const name = path === '' || path.endsWith('/') ? `${path}index.html` : path;
    const body = files.get(name);
    if (path === eventsPath) listenTo(response, served);
    else if (path === scriptPath) send(response, { status: 200, name, body: script });
    else if (body !== undefined) send(response, { status: 200, name, body, asItIs: isForScript(request) });
    else if (files.has(`${name}/index.html`)) response.writeHead(308, { location: `/${name}/` }).end();
    else if (files.size === 0) send(response, { status: 503, name: 'index.html', body: faultsPage(faults ?? '') });
    else send(response, { status: 404, name: '404.html', body: files.get('404.html') ?? 'There is no such page.' });
  });
}

const eventsPath = '_serve/events';
const scriptPath = '_serve/reload.js';

function send(
  response: ServerResponse,
  { status, name, body, asItIs = false }: { status: number; name: string; body: string | Uint8Array; asItIs?: boolean },
): void {
  const type = types[name.slice(name.lastIndexOf('.') + 1)] ?? 'application/octet-stream';
  response.writeHead(status, { 'content-type': type, 'cache-control': 'no-cache' });
  response.end(typeof body === 'string' && name.endsWith('.html') && !asItIs ? withScript(body) : body);
}

// a phone that keeps a page compares it with its digest: it gets the page as it was built (W3C, Fetch Metadata)
function isForScript({ headers }: IncomingMessage): boolean {
  return headers['sec-fetch-dest'] === 'empty';
}

function withScript(page: string): string {
  return page.replace('</head>', `<script type="module" src="/${scriptPath}"></script>\n</head>`);
}

function listenTo(response: ServerResponse, served: Served): void {
  response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-cache' });
  response.write(': here\n\n');
  if (served.faults !== undefined) tell(response, served);
  served.watchers.add(response);
  response.on('close', () => served.watchers.delete(response));
}

/** What a page that is open does when the book changes: shows what is wrong above itself, or loads anew. */
const script = `const events = new EventSource('/${eventsPath}');
let box;
events.addEventListener('built', () => location.reload());
events.addEventListener('faults', (event) => {
  box ??= document.body.insertBefore(document.createElement('pre'), document.body.firstChild);
  box.setAttribute('role', 'alert');
  box.textContent = 'This page is of the last build that held. Since then:\\n\\n' + JSON.parse(event.data);
});
`;

function faultsPage(faults: string): string {
  const text = faults.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>The book has errors</title>
</head><body><h1>The book has errors</h1><p>It is built as soon as they are mended.</p><pre>${text}</pre></body></html>
`;
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
