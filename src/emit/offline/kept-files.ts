// Which files of the output belong to the set of a home: its own, and all that they lead to short of other machines.

import { compareText } from '../../diagnostic/diagnostic.js';

export type Files = ReadonlyMap<string, string | Uint8Array>;

/** A home, or the pages of what holds for rigs that are not told apart. */
export interface HomePlace {
  /** The language's folder: empty for the first. */
  readonly languageFolder: string;
  /** `tarn-40/row-12x20/`, `tarn-40/any/`, `any/`; without the language's folder. */
  readonly folder: string;
}

export interface Surroundings {
  readonly files: Files;
  /** Folders of all machines and languages, each with `/` at its end; none of the first language. */
  readonly machines: readonly string[];
  readonly languages: readonly string[];
  /** Pages of cards that hold no longer, by their path below the language's folder: the folder of the machine, empty where the
   * book has it no more. */
  readonly stops: ReadonlyMap<string, string>;
  /** Links of a page, worked out once. */
  readonly linksOf: (path: string) => readonly string[];
}

/** Folders whose pages are for the desk, for programs, or for whoever has not chosen yet: no phone keeps them with a home. */
const notKept = ['data/', 'staff/', 'any/', 'c/', 'u/'];

/** The page for what is not kept: no other leads there. */
export function awayPage(languageFolder: string): string {
  return `${languageFolder}not-kept.html`;
}

/** Paths of the set, in order. */
export function keptPaths(home: HomePlace, around: Surroundings): readonly string[] {
  const own = home.languageFolder + home.folder;
  const taken = new Set<string>();
  const queue: string[] = [];
  const take = (path: string): void => {
    if (taken.has(path)) return;
    taken.add(path);
    if (path.endsWith('.html')) queue.push(path);
  };
  const away = awayPage(home.languageFolder);
  for (const path of around.files.keys()) {
    if (path === away || path.startsWith('assets/') || path.startsWith(own) || leadsHome(path, home, around))
      take(path);
    else if (saysStop(path, home, around)) take(path);
  }
  for (let path = queue.pop(); path !== undefined; path = queue.pop()) {
    const isOwn = path.startsWith(own) || path.startsWith(`${home.languageFolder}c/`);
    for (const link of around.linksOf(path)) {
      if (belongs(link, home, around) && (isOwn || !link.startsWith('cards/'))) take(link);
    }
  }
  return [...taken].sort(compareText);
}

/** Whether a page is where a code of one of the home's cards or pages leads, or the sticker of a unit with that header. */
function leadsHome(path: string, home: HomePlace, around: Surroundings): boolean {
  const inner = path.startsWith(home.languageFolder) ? path.slice(home.languageFolder.length) : '';
  if (!/^[cu]\/.*\.html$/.test(inner)) return false;
  return around.linksOf(path).some((link) => link.startsWith(home.languageFolder + home.folder));
}

/** Whether a page says stop to whoever scans an old card of the machine, or of any where it is not known. */
function saysStop(path: string, { languageFolder, folder }: HomePlace, { stops }: Surroundings): boolean {
  if (!path.startsWith(languageFolder)) return false;
  const machine = stops.get(path.slice(languageFolder.length));
  return machine !== undefined && (folder === 'any/' || folder.startsWith(machine));
}

function belongs(path: string, { languageFolder, folder }: HomePlace, around: Surroundings): boolean {
  const inner = path.slice(languageFolder.length);
  if (/^(?:figures|cards|assets|walk)\//.test(path)) return true;
  if (!path.startsWith(languageFolder)) return false;
  if (languageFolder === '' && around.languages.some((other) => path.startsWith(other))) return false;
  if (inner.startsWith(folder)) return true;
  const machine = around.machines.find((one) => inner.startsWith(one));
  if (machine !== undefined) return folder.startsWith(machine) && inner === `${machine}index.html`;
  return !notKept.some((other) => inner.startsWith(other));
}

/**
 * The files that a page leads to, shows, or tells the client script to fetch, by their path below the site's root. Links to
 * elsewhere are left out.
 */
export function linkedFiles(path: string, page: string, files: Files): readonly string[] {
  const found = new Set<string>();
  for (const [, target = ''] of page.matchAll(/ (?:href|src|data-[a-z-]+)="([^"#?]+)/g)) {
    const file = resolveLink(path, target);
    if (file !== undefined && files.has(file)) found.add(file);
  }
  return [...found];
}

/** The file that a relative link leads to; nothing for one that leaves the site or is not relative. */
export function resolveLink(from: string, link: string): string | undefined {
  if (/^(?:[a-z][a-z0-9+.-]*:|\/)/i.test(link)) return undefined;
  const parts = from.split('/').slice(0, -1);
  for (const part of link.replaceAll('&amp;', '&').split('/')) {
    if (part === '..') {
      if (parts.pop() === undefined) return undefined;
    } else if (part !== '.') parts.push(part);
  }
  const path = parts.filter((part, i) => part !== '' || i === parts.length - 1).join('/');
  return path === '' || path.endsWith('/') ? `${path}index.html` : path;
}
