// All pages for desk and staff, and the list of them. Nothing here is needed to do a job, and no phone keeps it.

import type { Stretch } from '../../model/history.js';
import type { Reprint } from '../../model/reprint.js';
import { html } from '../html.js';
import type { BookProof } from '../open-data/proof.js';
import { linkTo, type Page } from '../pages/context.js';
import type { Home } from '../pages/site-map.js';
import { drawSticker, placeUnits, type UnitPlace } from '../pages/unit-pages.js';
import type { StaffKey } from '../words/staff.js';
import { clinicStart, handoutPage } from './clinic.js';
import { coveragePage } from './coverage.js';
import { issuedPage } from './issued.js';
import { termsPage, waiversPage } from './lists.js';
import { proofsPage } from './proofs.js';
import { questionsPage, questionsStart } from './questions.js';
import { releasesPage } from './releases.js';
import { reviewsPage } from './reviews.js';
import { type RuleText, ruleFolder, rulePage, rulesStart } from './rule-pages.js';
import { say, staffFolder, staffPage } from './staff-page.js';
import { changesStart, unitChangesFolder, unitChangesPage } from './unit-changes.js';

export type WriteStaff = (path: string, draw: (page: Page) => string) => void;

export interface StaffInput {
  readonly page: Page;
  /** The rules' pages; written in the first language alone. */
  readonly rules: readonly RuleText[];
  /** What `data/proof.json` says, where it is written. */
  readonly proof?: BookProof | undefined;
  /** Whether there is a `staff/guard.html` to link to. */
  readonly guarded: boolean;
  /** What changed between releases, the latest first; empty where the book has none. */
  readonly stretches: readonly Stretch[];
  /** What became of issued cards; missing where none was issued. */
  readonly reprint?: Reprint | undefined;
}

/** Writes them all in one language. */
export function emitStaff(
  { page: { site, voice }, rules, proof, guarded, stretches, reprint }: StaffInput,
  write: WriteStaff,
): void {
  const units = placeUnits({ site });
  const isFirst = voice.language === site.languages[0];
  const lists = {
    units: units.length > 0,
    rules: rules.length > 0,
    guard: guarded,
    releases: stretches.length > 0,
    issued: reprint !== undefined,
  };
  write(`${staffFolder}index.html`, (page) => staffStart(page, lists));
  write(`${staffFolder}questions/index.html`, questionsStart);
  write(`${staffFolder}clinic/index.html`, clinicStart);
  for (const home of site.map.homes) emitHome(home, write);
  write(`${staffFolder}coverage.html`, coveragePage);
  write(`${staffFolder}reviews.html`, reviewsPage);
  write(`${staffFolder}proofs.html`, (page) => proofsPage(page, proof));
  if (stretches.length > 0) write(`${staffFolder}releases.html`, (page) => releasesPage(page, stretches));
  if (reprint) write(`${staffFolder}issued.html`, (page) => issuedPage(page, reprint));
  write(`${staffFolder}waivers.html`, waiversPage);
  write(`${staffFolder}terms.html`, termsPage);
  if (units.length > 0) emitUnits(units, write);
  if (rules.length === 0) return;
  write(`${staffFolder}rules/index.html`, (page) => rulesStart(page, rules));
  // the rules' own pages are English; other languages lead to the same
  for (const rule of isFirst ? rules : []) write(`${ruleFolder(rule.code)}index.html`, (page) => rulePage(page, rule));
}

function emitHome(home: Home, write: WriteStaff): void {
  write(`${staffFolder}questions/${home.folder}index.html`, (page) => questionsPage(page, home));
  write(`${staffFolder}clinic/${home.folder}index.html`, (page) => handoutPage(page, home));
}

function emitUnits(units: readonly UnitPlace[], write: WriteStaff): void {
  write(`${staffFolder}changes/index.html`, (page) => changesStart(page, units));
  write(`${staffFolder}stickers.html`, (page) => stickersPage(page, units));
  for (const unit of units) write(`${unitChangesFolder(unit)}index.html`, (page) => unitChangesPage(page, unit));
}

function stickersPage(page: Page, units: readonly UnitPlace[]): string {
  return staffPage(page, {
    title: say(page, 'units'),
    why: say(page, 'units-why'),
    body: html`<div class="stickers">${units.map((unit) => drawSticker(page, unit))}</div>`,
  });
}

interface Lists {
  readonly units: boolean;
  readonly rules: boolean;
  readonly guard: boolean;
  readonly releases: boolean;
  readonly issued: boolean;
}

function staffStart(page: Page, lists: Lists): string {
  const doors: readonly (readonly [StaffKey, string, boolean])[] = [
    ['questions', 'questions/', true],
    ['changes', 'changes/', lists.units],
    ['clinic', 'clinic/', true],
    ['units', 'stickers.html', lists.units],
    ['coverage', 'coverage.html', true],
    ['reviews', 'reviews.html', true],
    ['proofs', 'proofs.html', true],
    ['releases', 'releases.html', lists.releases],
    ['issued', 'issued.html', lists.issued],
    ['guard', 'guard.html', lists.guard],
    ['waivers', 'waivers.html', true],
    ['terms', 'terms.html', true],
    ['rules', 'rules/', lists.rules],
  ];
  const rows = doors
    .filter(([, , isThere]) => isThere)
    .map(([key, path]) => html`<li><a href="${linkTo(page, staffFolder + path)}"><b>${say(page, key)}</b></a></li>`);
  return staffPage(page, {
    title: say(page, 'staff'),
    why: say(page, 'staff-why'),
    body: html`<ul class="entries doors">${rows}</ul>`,
  });
}
