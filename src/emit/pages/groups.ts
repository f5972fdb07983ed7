// Rigs that are not told apart: all machines, or all headers of one. What they share gets pages of its own.

import type { ResolvedBook } from '../../model/resolved.js';
import { shortCodes } from '../short-code.js';
import { contentOf, machineFolder, versionsOf } from './addresses.js';
import type { CommonEntry, Group, Home, Place } from './site-map.js';

/** All homes, and those of each machine with several headers, as far as there is anything to tell apart. */
export function groupsOf(
  book: ResolvedBook,
  homes: readonly Home[],
  known: ReadonlyMap<string, string>,
): readonly Group[] {
  const { languages } = book.book.settings;
  const machines = [...new Set(homes.map(({ machine }) => machine))];
  const all = [
    { folder: 'any/', homes },
    ...machines.map((machine) => ({
      machine,
      folder: `${machineFolder(machine.id, languages)}any/`,
      homes: homes.filter((home) => home.machine === machine),
    })),
  ].filter((group) => group.homes.length > 1 && (machines.length > 1 || 'machine' in group));
  const groups = all.map(groupOf);
  const named = groups.flatMap(({ folder, homes: own, entries }) => [
    contentOf(folder, versionsOf(own.flatMap((home) => home.entries))),
    ...entries.map(commonContent),
  ]);
  const codes = shortCodes(named, new Set(known.values()));
  return groups.map((group) => ({
    ...group,
    code: codes.get(contentOf(group.folder, versionsOf(group.homes.flatMap((home) => home.entries)))) ?? '',
    entries: group.entries.map((entry) => ({ ...entry, code: codes.get(commonContent(entry)) ?? '' })),
  }));
}

function commonContent({ folder, places }: CommonEntry): string {
  return contentOf(
    folder,
    places.map(({ version }) => version),
  );
}

function groupOf(group: Pick<Group, 'machine' | 'folder' | 'homes'>): Group {
  const { folder, homes } = group;
  const procedures = new Map(homes.flatMap(({ entries }) => entries.map(({ id, procedure }) => [id, procedure])));
  const having = (id: string): readonly Home[] => homes.filter(({ byId }) => byId.has(id));
  const several = [...procedures].filter(([id]) => having(id).length > 1);
  return {
    ...group,
    code: '',
    entries: several.map(([id, procedure]) => ({
      id,
      procedure,
      folder: `${folder}${id}/`,
      code: '',
      partial: having(id).length < homes.length,
      places: placesOf(id, homes),
    })),
    singles: [...procedures.keys()]
      .filter((id) => having(id).length === 1)
      .flatMap((id) => placesOf(id, homes).slice(0, 1)),
  };
}

function placesOf(id: string, homes: readonly Home[]): readonly Place[] {
  return homes.flatMap((home) => (home.byId.get(id)?.versions ?? []).map((version) => ({ home, version })));
}
