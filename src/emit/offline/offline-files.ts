// The lists by which a phone keeps machines, and the status it asks for. Made last, from all other files of the output.

import type { UnprintedCard } from '../../model/history.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { withdrawnCards } from '../cards/card-codes.js';
import { machineFolder } from '../pages/addresses.js';
import { cardFolder } from '../pages/context.js';
import type { SiteMap } from '../pages/site-map.js';
import { hasInterface } from '../words/interface.js';
import { digest } from './digest.js';
import { awayPage, type Files, type HomePlace, keptPaths, linkedFiles, type Surroundings } from './kept-files.js';
import { type BookStatus, type KeptFile, listName, type SetList, statusName } from './shapes.js';

/**
 * The files to add to an output of that book: a list beside each home, and each page for rigs that are not told apart, in
 * each language, and the status. `gone` are the cards of releases whose codes nothing prints.
 */
export function offlineFiles(
  resolved: ResolvedBook,
  map: Pick<SiteMap, 'homes' | 'groups'> & { readonly gone?: readonly UnprintedCard[] },
  files: Files,
): ReadonlyMap<string, string> {
  const { book } = resolved;
  const { languages } = book.settings;
  const folders = languages
    .slice(1)
    .filter(hasInterface)
    .map((language) => `${language}/`);
  const around: Surroundings = {
    files,
    machines: [...book.machines.keys()].map((id) => machineFolder(id, languages)),
    languages: folders,
    stops: stopsOf([...(map.gone ?? []), ...withdrawnCards(resolved)], book),
    linksOf: remembered((path) => {
      const page = files.get(path);
      return typeof page === 'string' ? linkedFiles(path, page, files) : [];
    }),
  };
  const entryOf = remembered((path): KeptFile => {
    const content = files.get(path);
    if (content === undefined) throw new Error(`There is no ${path} to keep`);
    return [path, digest(content), typeof content === 'string' ? Buffer.byteLength(content) : content.length];
  });
  const lists = ['', ...folders].flatMap((languageFolder) =>
    [...map.homes, ...map.groups].map(({ folder }) => listSet({ languageFolder, folder }, { around, entryOf })),
  );
  const status = statusOf(map, lists);
  return new Map([
    ...lists.map((list) => [list.folder + listName, JSON.stringify(list)] as const),
    [statusName, JSON.stringify(status)] as const,
  ]);
}

function stopsOf(cards: readonly UnprintedCard[], { machines, settings }: ResolvedBook['book']): Surroundings['stops'] {
  const folderOf = (machine: string): string =>
    machines.has(machine) ? machineFolder(machine, settings.languages) : '';
  return new Map(cards.map(({ code, machine }) => [`${cardFolder(code)}index.html`, folderOf(machine)]));
}

interface Making {
  readonly around: Surroundings;
  readonly entryOf: (path: string) => KeptFile;
}

function listSet(home: HomePlace, { around, entryOf }: Making): SetList {
  const files = keptPaths(home, around).map(entryOf);
  return {
    format: 1,
    version: digest(files.map(([path, content]) => `${path} ${content}`).join('\n')).slice(0, 16),
    folder: home.languageFolder + home.folder,
    away: awayPage(home.languageFolder),
    bytes: files.reduce((sum, [, , bytes]) => sum + bytes, 0),
    files,
  };
}

function statusOf({ homes }: Pick<SiteMap, 'homes'>, lists: readonly SetList[]): BookStatus {
  const procedures = new Map(
    homes.flatMap(({ entries }) => entries.map(({ id, procedure }) => [id, procedure] as const)),
  );
  const ids = [...procedures.keys()].sort();
  const content = {
    procedures: Object.fromEntries(ids.map((id) => [id, procedures.get(id)?.revision ?? 0])),
    withdrawn: ids.filter((id) => procedures.get(id)?.status === 'withdrawn'),
    sets: Object.fromEntries(
      lists.map(({ folder, version, bytes, files }) => [folder, [version, bytes, files.length] as const]),
    ),
  };
  return { format: 1, version: digest(JSON.stringify(content)).slice(0, 16), ...content };
}

function remembered<T>(find: (path: string) => T): (path: string) => T {
  const known = new Map<string, T>();
  return (path) => {
    const before = known.get(path);
    if (before !== undefined) return before;
    const found = find(path);
    known.set(path, found);
    return found;
  };
}
