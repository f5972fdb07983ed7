// What every page is made from: the book, its site map, a voice, and links that work under any base path.

import type { ResolvedBook } from '../../model/resolved.js';
import type { Text } from '../../model/text.js';
import type { OrderResult } from '../../order/result.js';
import { anyone, type Reader, wordsOf } from '../book-text.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';
import type { Home, SiteMap } from './site-map.js';

/** A printed card, as pages link to it. */
export interface CardLink {
  readonly variant: string;
  readonly machine: string;
  readonly language: string;
  /** The file below the site. */
  readonly path: string;
  /** What stands on its foot, and in the address that its printed code leads to. */
  readonly code: string;
  /** Those that cards of the same rigs may have been printed with before. */
  readonly alsoCodes: readonly string[];
}

/** The folder that the printed code of a card leads to. */
export function cardFolder(code: string): string {
  return `c/${code.toLowerCase()}/`;
}

/** The printed cards there are. */
export interface Cards {
  /** Those that one printed code leads to: a card in each of its languages. */
  readonly byCode: ReadonlyMap<string, readonly CardLink[]>;
  readonly byVariant: ReadonlyMap<string, readonly CardLink[]>;
}

/** What all pages share. */
export interface Site {
  readonly book: ResolvedBook;
  readonly map: SiteMap;
  /** Those of the book that pages are written in, the first first. */
  readonly languages: readonly string[];
  /** By variant id. Without one a page shows no state strip, and hazards of a step's own list alone. */
  readonly proofs: ReadonlyMap<string, OrderResult>;
  /** Paths below the site of the pictures there are. */
  readonly figures: ReadonlySet<string>;
  readonly cards: Cards;
  /** Where each file of the browser's part stands in the output, by its own name: `client.js`. */
  readonly assets: ReadonlyMap<string, string>;
  /** Bodies of pages that were drawn already. */
  readonly drawn: DrawnBodies;
  /** Prose that was rendered already and links to nothing, by its markdown and the level of its headings. */
  readonly rendered: Map<string, Html>;
}

/**
 * A body is the same on the pages of several homes if every link that it asked for leads to the same place: those it
 * asked for stand beside it.
 */
export type DrawnBodies = Map<string, { readonly asked: ReadonlyMap<string, string>; readonly body: Html }[]>;

/** One page in one language. */
export interface Page {
  readonly site: Site;
  readonly voice: Voice;
  /** Without the language's folder: `tarn-40/row-12x20/index.html`. */
  readonly path: string;
  readonly home?: Home;
}

/** The folder of a language: none for the first. */
export function languageFolder(site: Site, language: string): string {
  return language === site.languages[0] ? '' : `${language}/`;
}

/** The path of a page's file in the output. */
export function fileOf(page: Page): string {
  return languageFolder(page.site, page.voice.language) + page.path;
}

/** A link to another page in the same language, by its path without the language's folder. */
export function linkTo(page: Page, to: string): string {
  return relativeLink(fileOf(page), languageFolder(page.site, page.voice.language) + to);
}

/** A link to a file that all languages share. */
export function linkToShared(page: Page, to: string): string {
  return relativeLink(fileOf(page), to);
}

/** A link to a file of the browser's part, by its own name. */
export function linkToAsset(page: Page, name: string): string {
  return linkToShared(page, page.site.assets.get(name) ?? `assets/${name}`);
}

/** The way from a file to another file or folder (with `/` at its end), both below the same root. */
export function relativeLink(from: string, to: string): string {
  const start = from.split('/').slice(0, -1);
  const goal = to.split('/');
  let same = 0;
  while (same < start.length && same < goal.length - 1 && start[same] === goal[same]) same += 1;
  const way = '../'.repeat(start.length - same) + goal.slice(same).join('/');
  return way === '' ? './' : way;
}

/** For whom the page reads texts of the book. */
export function readerOf(page: Page): Reader {
  return page.home ? { machine: page.home.machine, keys: page.home.keys } : anyone;
}

/** A text of a shared file, in the page's language. */
export function sayText(page: Page, text: Text | undefined): Html {
  return text ? page.voice.say(wordsOf(text, readerOf(page))) : html``;
}

/** The same as plain text. */
export function plainOf(page: Page, text: Text | undefined): string {
  return text ? page.voice.plain(wordsOf(text, readerOf(page))) : '';
}

/** `Tarn 40 · 12-row header, 20 in rows`. */
export function homeName(page: Page, home: Home): string {
  return `${plainOf(page, home.machine.name)} · ${plainOf(page, home.header.name)}`;
}

/** The dealership's number as a link that dials. */
export function phoneLink(page: Pick<Page, 'site'>): Html {
  return phoneAnchor(page.site.book.book.settings.phone.value);
}

/** A number as a link that dials; it stays on one line. */
export function phoneAnchor(phone: string): Html {
  return html`<a class="phone" href="tel:${phone.replaceAll(/[^\d+]/g, '')}">${phone.replaceAll('-', '\u2011').replaceAll(' ', '\u00a0')}</a>`;
}
