// A worked-out book as the files of a static site. Pure: the same book gives the same bytes.

import type { GuardResult } from '../../model/guard-result.js';
import type { BookHistory } from '../../model/history.js';
import type { Reprint } from '../../model/reprint.js';
import type { ResolvedBook } from '../../model/resolved.js';
import type { OrderResult } from '../../order/result.js';
import { withdrawnCards } from '../cards/card-codes.js';
import { digest } from '../offline/digest.js';
import { workerName } from '../offline/shapes.js';
import { writeOpenBook } from '../open-data/compiled-book.js';
import type { BookProof } from '../open-data/proof.js';
import { buildSearch } from '../search/search-files.js';
import { guardPage, guardPath } from '../staff/guard-page.js';
import { reviewsCalendar } from '../staff/reviews.js';
import type { RuleText } from '../staff/rule-pages.js';
import { staffFolder } from '../staff/staff-page.js';
import { emitStaff } from '../staff/staff-pages.js';
import { withTrueLanguages } from '../translated.js';
import { type Voice, voiceFor } from '../voice.js';
import { hasInterface } from '../words/interface.js';
import { machineFolder } from './addresses.js';
import { anyPage, placeOfGroup } from './any-page.js';
import { calculatorsFile } from './calculators-link.js';
import { calculatorsPage } from './calculators-page.js';
import { cardPage, goneCardPage } from './card-page.js';
import { chooserPage } from './chooser-page.js';
import { codedPages, codePage } from './code-page.js';
import { commonPage, placeOfEntry } from './common-page.js';
import { type CardLink, type Cards, cardFolder, fileOf, languageFolder, type Page, type Site } from './context.js';
import { homePage } from './home-page.js';
import { jobsFile, jobsPage } from './jobs-page.js';
import { changesPage, symptomsPage, valuesPage } from './lists.js';
import { manifestFile, manifestName, notKeptPage } from './offline-pages.js';
import { codesPage, notFoundPage } from './other-pages.js';
import { procedurePage } from './procedure-page.js';
import { rigPage } from './rig-page.js';
import { type Entry, type Home, mapSite } from './site-map.js';
import { machinePage, startPage } from './start-pages.js';
import { placeUnits, unitPage, unitsPage } from './unit-pages.js';
import { walkPath, walkText } from './walk.js';

export interface SiteInput {
  /** By variant id: what is known at each step. */
  readonly proofs?: ReadonlyMap<string, OrderResult>;
  /** The book's pictures by path (`figures/arm.svg`). */
  readonly figures?: ReadonlyMap<string, Uint8Array>;
  /** What runs or shows in the browser, by path below `assets/`: `client.js`, `style.css`. */
  readonly assets?: ReadonlyMap<string, Uint8Array>;
  /** The printed cards that pages link to. */
  readonly cards?: readonly CardLink[];
  /** What the program brings along to explain its rules. */
  readonly rules?: readonly RuleText[];
  /** What `data/proof.json` says, where it is written. */
  readonly proof?: BookProof;
  /** What slips of the fingers came to; without it the page about them is not made. */
  readonly guard?: GuardResult;
  /** What the releases of the book tell. */
  readonly history?: BookHistory;
  /** What became of the cards that were issued; without it the page about them is not made. */
  readonly reprint?: Reprint;
  /** Whether drafts get pages. They have none where people work. */
  readonly drafts?: boolean;
}

type Files = Map<string, string | Uint8Array>;

/** Every file of the site by its path below the site's root. */
export function emitSite(resolved: ResolvedBook, input: SiteInput = {}): Map<string, string | Uint8Array> {
  const book = withTrueLanguages(resolved);
  const { languages } = book.book.settings;
  const [first = 'en', ...others] = languages;
  const site: Site = {
    book,
    map: mapSite(book, { drafts: input.drafts ?? false }),
    languages: [first, ...others.filter(hasInterface)],
    proofs: input.proofs ?? new Map(),
    figures: new Set(input.figures?.keys()),
    cards: sortCards(input.cards ?? []),
    assets: new Map([...(input.assets ?? [])].map(([name, bytes]) => [name, assetPath(name, bytes)])),
    drawn: new Map(),
    rendered: new Map(),
  };
  const files: Files = new Map();
  for (const [name, bytes] of input.assets ?? []) files.set(site.assets.get(name) ?? name, bytes);
  for (const [path, bytes] of input.figures ?? []) files.set(path, bytes);
  files.set('data/book.json', writeOpenBook(book, site.map, input));
  for (const language of site.languages) {
    emitLanguage(site, language, { files, history: input.history });
    emitStaffPages(site, language, { input, files });
    if (input.guard) emitGuard(site, language, { result: input.guard, files });
  }
  return files;
}

// The script and the style of another content have another name: a page that a phone kept never gets those of another
// version. Parts that the script fetches have their digest in their names already. The worker keeps its name, for its
// address says which pages it answers for.
function assetPath(name: string, bytes: Uint8Array): string {
  if (name === workerName) return name;
  const [, stem, ending] = /^(?!part-)([^/]+)\.(js|css)$/.exec(name) ?? [];
  return stem === undefined ? `assets/${name}` : `assets/${stem}-${digest(bytes).slice(0, 8)}.${ending}`;
}

function sortCards(cards: readonly CardLink[]): Cards {
  const by = (keysOf: (card: CardLink) => readonly string[]): ReadonlyMap<string, readonly CardLink[]> => {
    const sorted = new Map<string, CardLink[]>();
    for (const card of cards) {
      for (const key of keysOf(card)) {
        const known = sorted.get(key);
        if (known) known.push(card);
        else sorted.set(key, [card]);
      }
    }
    return sorted;
  };
  return { byCode: by(({ code, alsoCodes }) => [code, ...alsoCodes]), byVariant: by(({ variant }) => [variant]) };
}

function emitLanguage(
  site: Site,
  language: string,
  { files, history }: { readonly files: Files; readonly history: BookHistory | undefined },
): void {
  const voice = voiceFor(language, site.languages[0] ?? 'en');
  const write: Write = (path, home, draw) => {
    const page: Page = { site, voice, path, ...(home && { home }) };
    files.set(fileOf(page), draw(page));
  };
  write('index.html', undefined, startPage);
  write('codes.html', undefined, codesPage);
  write(jobsFile, undefined, jobsPage);
  emitUnits(site, write);
  emitCodes(site, voice, write);
  write(calculatorsFile, undefined, calculatorsPage);
  write('404.html', undefined, notFoundPage);
  write('not-kept.html', undefined, notKeptPage);
  write(manifestName, undefined, manifestFile);
  for (const code of site.cards.byCode.keys()) {
    write(`${cardFolder(code)}index.html`, undefined, (page) => cardPage(page, code, history?.cards.get(code)));
  }
  for (const card of [...(history?.gone ?? []), ...withdrawnCards(site.book)]) {
    if (!files.has(`${languageFolder(site, language)}${cardFolder(card.code)}index.html`))
      write(`${cardFolder(card.code)}index.html`, undefined, (page) =>
        goneCardPage(page, card, history?.cards.get(card.code)),
      );
  }
  for (const { id } of site.book.book.machines.values()) {
    const homes = site.map.homes.filter(({ machine }) => machine.id === id);
    write(`${machineFolder(id, site.book.book.settings.languages)}index.html`, undefined, (page) =>
      machinePage(page, homes),
    );
  }
  for (const home of site.map.homes) {
    write(`${home.folder}index.html`, home, (page) => homePage(page, home));
    write(`${home.folder}symptoms.html`, home, (page) => symptomsPage(page, home));
    write(`${home.folder}changes.html`, home, (page) => changesPage(page, home));
    write(`${home.folder}values.html`, home, (page) => valuesPage(page, home));
    const search = buildSearch(home, site.book, voice);
    const folder = languageFolder(site, language) + home.folder;
    files.set(`${folder}search.json`, JSON.stringify(search.main));
    files.set(`${folder}search-details.json`, JSON.stringify(search.details));
    write(`${home.folder}rig.html`, home, (page) => rigPage(page, home));
    for (const entry of home.entries) emitEntry(entry, home, write);
    emitWalks(home, { site, voice, path: '', home }, files);
  }
  for (const group of site.map.groups) {
    write(`${group.folder}index.html`, undefined, (page) => anyPage(page, group));
    for (const entry of group.entries) {
      write(`${entry.folder}index.html`, undefined, (page) =>
        commonPage(page, entry, placeOfGroup(page, group, entry)),
      );
    }
  }
}

/** The pages for desk and staff, and the calendar of reviews. */
function emitStaffPages(
  site: Site,
  language: string,
  { input, files }: { readonly input: SiteInput; readonly files: Files },
): void {
  const page: Page = { site, voice: voiceFor(language, site.languages[0] ?? 'en'), path: '' };
  emitStaff(
    {
      page,
      rules: input.rules ?? [],
      proof: input.proof,
      guarded: input.guard !== undefined,
      stretches: input.history?.stretches ?? [],
      reprint: input.reprint,
    },
    (path, draw) => {
      const own: Page = { ...page, path };
      files.set(fileOf(own), draw(own));
    },
  );
  if (language === site.languages[0]) files.set(`${staffFolder}reviews.ics`, reviewsCalendar(page));
}

/** The page about slips, for whoever keeps the book. */
function emitGuard(
  site: Site,
  language: string,
  { result, files }: { readonly result: GuardResult; readonly files: Files },
): void {
  const page: Page = { site, voice: voiceFor(language, site.languages[0] ?? 'en'), path: guardPath };
  files.set(fileOf(page), guardPage(page, result));
}

type Write = (path: string, home: Home | undefined, draw: (page: Page) => string) => void;

/** Addresses of codes, once for each page. */
function emitCodes(site: Site, voice: Voice, write: Write): void {
  for (const coded of codedPages({ site, voice, path: '' })) {
    write(`${cardFolder(coded.code)}index.html`, undefined, (page) => codePage(page, coded));
  }
}

function emitUnits(site: Site, write: Write): void {
  const units = placeUnits({ site });
  if (units.length === 0) return;
  write('units.html', undefined, (page) => unitsPage(page, units));
  for (const unit of units) write(`${unit.folder}index.html`, undefined, (page) => unitPage(page, unit));
}

function emitEntry(entry: Entry, home: Home, write: Write): void {
  const { common } = entry;
  if (common) {
    write(`${common.folder}index.html`, undefined, (page) => commonPage(page, common, placeOfEntry(page, home, entry)));
  }
  if (entry.versions.length > 1) write(`${entry.folder}index.html`, home, (page) => chooserPage(page, home, entry));
  for (const version of entry.versions) {
    write(`${version.folder}index.html`, home, (page) => procedurePage(page, entry, version));
  }
}

// nothing is walked through that was withdrawn
function emitWalks(home: Home, page: Page, files: Files): void {
  for (const { versions } of home.entries) {
    for (const version of versions) {
      const path = walkPath(page, version);
      if (version.variant.procedure.status !== 'withdrawn' && !files.has(path))
        files.set(path, walkText(page, version));
    }
  }
}
