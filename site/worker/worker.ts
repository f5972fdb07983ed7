// Answers for the pages that this phone keeps. It holds nothing itself and knows no version: what is kept, and in which
// version, stands in the records, so it may be replaced at any time. What is not kept goes to the network untouched.

import { cardPart } from '../../src/emit/offline/shapes.js';
import { filesOfSet, type KeptSet, pathBelow, readFile, readSets } from '../client/offline/store.js';
import type { FetchEvent, WorkerScope } from './scope.js';

const worker = self as unknown as WorkerScope;
const root = worker.registration.scope;

worker.addEventListener('install', (event) => event.waitUntil(worker.skipWaiting()));
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  // what the client fetches to keep, or to know what holds, must come from the site itself
  if (request.method !== 'GET' || request.cache === 'no-store') return;
  const path = pathBelow(root, request.url);
  if (path !== undefined) event.respondWith(answer(event, path));
});

async function answer({ request, clientId }: FetchEvent, path: string): Promise<Response> {
  const sets = await readSets(root);
  const isPage = request.mode === 'navigate';
  for (const set of isPage ? ownFirst(sets, path) : await setsOfPage(sets, clientId)) {
    const content = await fromSet(set, path);
    if (content) return content;
    if (isPage && digestIn(set, `${path}/index.html`)) return Response.redirect(`${request.url}/`);
  }
  try {
    return await fetch(request);
  } catch (fault) {
    const away = isPage && ownFirst(sets, path)[0]?.list.away;
    if (!away || path === away) throw fault;
    return Response.redirect(root + away + (isCode(path) ? `#${cardPart}` : ''));
  }
}

/** Whether an address is one that is printed on cards. */
function isCode(path: string): boolean {
  return /(?:^|\/)c\/[^/]+\/index\.html$/.test(path);
}

/** The set of the page's own home before others that share the page. */
function ownFirst(sets: readonly KeptSet[], path: string): readonly KeptSet[] {
  const isOwn = ({ list }: KeptSet): boolean => path.startsWith(list.folder);
  const language = path.split('/')[0];
  const isNear = ({ list }: KeptSet): boolean => list.folder.split('/')[0] === language;
  const rank = (set: KeptSet): number => (isOwn(set) ? 0 : isNear(set) ? 1 : 2);
  return [...sets].sort((a, b) => rank(a) - rank(b));
}

/**
 * What a page asks for comes from the very set that the page itself came from, so that versions never mix; a page that is
 * not kept takes everything from the network.
 */
async function setsOfPage(sets: readonly KeptSet[], clientId: string): Promise<readonly KeptSet[]> {
  const page = clientId === '' || sets.length === 0 ? undefined : await worker.clients.get(clientId);
  const path = page && pathBelow(root, page.url);
  return path === undefined ? [] : ownFirst(sets, path).filter((set) => digestIn(set, path));
}

function digestIn(set: KeptSet, path: string): string | undefined {
  return filesOfSet(set).find(([name]) => name === path)?.[1];
}

async function fromSet(set: KeptSet, path: string): Promise<Response | undefined> {
  const digest = digestIn(set, path);
  return digest === undefined ? undefined : readFile(root, digest);
}
