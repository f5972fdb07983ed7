// Which pages there are and where: a home for each machine with a header, and in it each procedure with its versions.
// Addresses are the same in every language but for the language's folder in front.

import { compareText } from '../../diagnostic/diagnostic.js';
import type { Header, Machine } from '../../model/book.js';
import type { ResolvedBook, ResolvedProcedure, Rig, Variant } from '../../model/resolved.js';
import { shortCodes } from '../short-code.js';
import { contentOf, headerFolder, identity, machineFolder, versionsOf } from './addresses.js';
import { groupsOf } from './groups.js';
import { rigAddress } from './rig-words.js';

/** One page of a procedure for a home: a variant and those of its rigs that this home has. */
export interface Version {
  readonly variant: Variant;
  readonly rigs: readonly Rig[];
  /** The folder of the page, with `/` at its end: `tarn-40/row-12x20/learn-height-range/`. */
  readonly folder: string;
  /** To read out on the telephone. */
  readonly code: string;
}

/** A procedure in a home. With more than one version its folder holds a page to choose from. */
export interface Entry {
  readonly id: string;
  readonly procedure: ResolvedProcedure;
  readonly folder: string;
  readonly versions: readonly [Version, ...Version[]];
  /** Of the page to choose a version from; empty where there is one version. */
  readonly code: string;
  /** The page of what all versions have in common, for whoever cannot tell which is theirs; only where there are several. */
  readonly common?: CommonEntry;
}

/** A procedure for rigs that are not told apart yet. */
export interface CommonEntry {
  readonly id: string;
  readonly procedure: ResolvedProcedure;
  /** `any/learn-height-range/`, or `any/` below the folder of an entry. */
  readonly folder: string;
  readonly code: string;
  /** All that it may turn out to be. */
  readonly places: readonly Place[];
  /** Whether some of the rigs have no such procedure. */
  readonly partial?: boolean;
}

/** The rigs of one machine whose header is not known, or of all machines. */
export interface Group {
  /** Missing where the machine is not known either. */
  readonly machine?: Machine;
  /** `any/` or `tarn-40/any/`. */
  readonly folder: string;
  readonly code: string;
  readonly homes: readonly Home[];
  /** Those that several homes have. */
  readonly entries: readonly CommonEntry[];
  /** Those that one home has. */
  readonly singles: readonly Place[];
}

/** A machine with a header: what an operator chooses once. */
export interface Home {
  readonly machine: Machine;
  readonly header: Header;
  /** `tarn-40/row-12x20/`. */
  readonly folder: string;
  /** Of its lists; those of procedures are theirs. */
  readonly code: string;
  /** What its rigs answer to in choices. */
  readonly keys: readonly string[];
  /** In the order of the book's jobs and, within one, of what has to come first. */
  readonly entries: readonly Entry[];
  /** The same by the id of the procedure. */
  readonly byId: ReadonlyMap<string, Entry>;
  /** Those that leave a state behind, by the state. */
  readonly givers: Givers;
}

type Givers = ReadonlyMap<string, readonly Entry[]>;

export interface SiteMap {
  readonly homes: readonly Home[];
  /** For whoever does not know the header, or the machine; none where there is nothing to tell apart. */
  readonly groups: readonly Group[];
  /** Where each variant has its pages, by its id. */
  readonly places: ReadonlyMap<string, readonly Place[]>;
}

export interface Place {
  readonly home: Home;
  readonly version: Version;
}

/** The homes of a book. Drafts are left out unless wanted: nobody has released them for work. */
export function mapSite(book: ResolvedBook, options: { readonly drafts: boolean }): SiteMap {
  const variants = book.variants.filter(({ procedure }) => options.drafts || procedure.status !== 'draft');
  const found = book.rigs.map((rig) => homeOf(book, rig, variants)).filter((home) => home !== undefined);
  const pages = found.flatMap(({ entries }) => entries.flatMap(({ versions }) => versions.map(identity)));
  // lists come last: the code of a procedure's page does not change because of them
  const lists = found.flatMap((home) => [contentOf(home.folder, versionsOf(home.entries)), ...listsOf(home.entries)]);
  const codes = shortCodes([...pages, ...lists]);
  const homes = found.map((home) => codedHome(home, codes));
  return { homes, groups: groupsOf(book, homes, codes), places: placesIn(homes) };
}

type Codes = ReadonlyMap<string, string>;

function codedHome(home: Omit<Home, 'byId' | 'givers' | 'code'>, codes: Codes): Home {
  const code = codes.get(contentOf(home.folder, versionsOf(home.entries))) ?? '';
  const bare = home.entries.map((entry) => {
    const [first, ...rest] = entry.versions;
    const coded = (version: Version): Version => ({ ...version, code: codes.get(identity(version)) ?? '' });
    return { ...entry, versions: [coded(first), ...rest.map(coded)] as const };
  });
  const shell = { ...home, code, entries: bare, byId: new Map(bare.map((entry) => [entry.id, entry])) };
  const place = { ...shell, givers: giversAmong(bare) };
  const entries = bare.map((entry): Entry => {
    if (entry.versions.length === 1) return entry;
    const { id, procedure } = entry;
    const folder = `${entry.folder}any/`;
    const places = entry.versions.map((version) => ({ home: place, version }));
    const common = { id, procedure, folder, places, code: codes.get(contentOf(folder, entry.versions)) ?? '' };
    return { ...entry, code: codes.get(contentOf(entry.folder, entry.versions)) ?? '', common };
  });
  return { ...place, entries, byId: new Map(entries.map((entry) => [entry.id, entry])), givers: giversAmong(entries) };
}

function listsOf(entries: readonly Entry[]): readonly string[] {
  return entries
    .filter(({ versions }) => versions.length > 1)
    .flatMap((entry) => [contentOf(entry.folder, entry.versions), contentOf(`${entry.folder}any/`, entry.versions)]);
}

function placesIn(homes: readonly Home[]): SiteMap['places'] {
  const places = new Map<string, Place[]>();
  for (const home of homes) {
    for (const version of home.entries.flatMap(({ versions }) => versions)) {
      const known = places.get(version.variant.id);
      if (known) known.push({ home, version });
      else places.set(version.variant.id, [{ home, version }]);
    }
  }
  return places;
}

function homeOf(
  book: ResolvedBook,
  rig: { readonly machine: string; readonly header: string },
  variants: readonly Variant[],
): Omit<Home, 'byId' | 'givers' | 'code'> | undefined {
  const machine = book.book.machines.get(rig.machine);
  const header = book.book.headers.get(rig.header);
  if (!machine || !header) return undefined;
  const folder = `${machineFolder(machine.id, book.book.settings.languages)}${headerFolder(header.id)}`;
  const byProcedure = new Map<string, { variant: Variant; rigs: readonly Rig[] }[]>();
  for (const variant of variants) {
    const rigs = variant.rigs.filter((one) => one.machine === rig.machine && one.header === rig.header);
    if (rigs.length === 0) continue;
    const list = byProcedure.get(variant.procedure.id) ?? [];
    byProcedure.set(variant.procedure.id, [...list, { variant, rigs }]);
  }
  const entries = [...byProcedure].map(([id, list]) => entryOf(id, { folder, machine }, list));
  const keys = [machine.id, header.id, header.type.value];
  return { machine, header, folder, keys, entries: inOrder(entries, book) };
}

function entryOf(
  id: string,
  home: Pick<Home, 'folder' | 'machine'>,
  list: readonly { variant: Variant; rigs: readonly Rig[] }[],
): Entry {
  const { machine } = home;
  const folder = `${home.folder}${id}/`;
  const versions = list.map(({ variant, rigs }) => {
    const address = list.length === 1 || rigs[0] === undefined ? '' : rigAddress(rigs[0], machine);
    return { variant, rigs, folder: address === '' ? folder : `${folder}${address}/`, code: '' };
  });
  const [first, ...rest] = versions;
  if (!first) throw new Error(`The procedure ${id} has no version`);
  const folders = new Set(versions.map((version) => version.folder));
  if (folders.size < versions.length || (versions.length > 1 && folders.has(folder))) {
    throw new Error(`Versions of ${id} in ${home.folder} cannot be told apart`);
  }
  return { id, procedure: first.variant.procedure, folder, versions: [first, ...rest], code: '' };
}

// by job, then what gives a state before what asks for it, then by title
function inOrder(entries: readonly Entry[], book: ResolvedBook): readonly Entry[] {
  const jobs = book.book.settings.jobs.map(({ id }) => id.value);
  const jobOf = (entry: Entry): number => {
    const place = jobs.indexOf(jobFolder(entry));
    return place < 0 ? jobs.length : place;
  };
  const depths = depthsOf(entries);
  const first = book.book.settings.languages[0] ?? 'en';
  const title = (entry: Entry): string => entry.procedure.title[first] ?? entry.id;
  return [...entries].sort(
    (a, b) =>
      jobOf(a) - jobOf(b) ||
      compareText(jobFolder(a), jobFolder(b)) ||
      (depths.get(a.id) ?? 0) - (depths.get(b.id) ?? 0) ||
      compareText(title(a), title(b)),
  );
}

/** The folder that a procedure stands in: the id of its job. */
export function jobFolder({ procedure }: Pick<Entry, 'procedure'>): string {
  return procedure.source.folder.split('/')[0] ?? '';
}

function depthsOf(entries: readonly Entry[]): ReadonlyMap<string, number> {
  const depths = new Map<string, number>();
  const giving = giversAmong(entries);
  const visit = (entry: Entry, trail: readonly string[]): number => {
    const known = depths.get(entry.id);
    if (known !== undefined) return known;
    if (trail.includes(entry.id)) return 0;
    const needed = giversOf(entry, giving).map((giver) => visit(giver, [...trail, entry.id]) + 1);
    const depth = Math.max(0, ...needed);
    depths.set(entry.id, depth);
    return depth;
  };
  for (const entry of entries) visit(entry, []);
  return depths;
}

function giversAmong(entries: readonly Entry[]): Givers {
  const givers = new Map<string, Entry[]>();
  for (const entry of entries) {
    const state = entry.procedure.gives;
    if (state !== undefined) givers.set(state, [...(givers.get(state) ?? []), entry]);
  }
  return givers;
}

/** The others that leave behind what an entry requires. */
function giversOf({ id, procedure }: Entry, givers: Givers): readonly Entry[] {
  const asked = new Set(procedure.requires.map(({ condition }) => condition.state));
  return [...asked].flatMap((state) => givers.get(state) ?? []).filter((giver) => giver.id !== id);
}
