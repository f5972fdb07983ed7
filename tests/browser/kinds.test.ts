// Every kind of page of the built demo on a phone, by day and night: one visit each, all that a page is held to.
// biome-ignore-all lint/performance/useDomNodeTextContent: what a person sees counts, not what the markup holds

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults, widthsAt320 } from './accessibility.js';
import { buildDemoSite, openBrowser, type ServedSite, serveBelow } from './site-server.js';
import { visit } from './visit.js';

let browser: Browser;
let site: ServedSite;

const rig = 'tarn-40/row-12x20/';

/** One page of each kind. */
const kinds: readonly string[] = [
  '',
  'tarn-40/',
  rig,
  `${rig}symptoms.html`,
  `${rig}changes.html`,
  `${rig}values.html`,
  `${rig}check-height-sensor/`,
  `${rig}learn-height-range/display-4.2/`,
  `${rig}mass-flow/`,
  `${rig}park-for-season/`,
  `${rig}rig.html`,
  `${rig}learn-height-range/`,
  `${rig}learn-height-range/any/`,
  'any/',
  'any/learn-height-range/',
  'units.html',
  'u/unit-17/',
  'staff/',
  `staff/questions/${rig}`,
  `staff/clinic/${rig}`,
  'staff/coverage.html',
  'staff/proofs.html',
  'es/staff/changes/unit-17/',
  'es/staff/reviews.html',
  'codes.html',
  'calculators.html',
  'es/calculators.html',
  'es/',
  `es/${rig}`,
  `es/${rig}symptoms.html`,
  'es/any/one-side-digs-in/',
  'es/u/unit-17/',
  `es/${rig}rig.html`,
  `es/${rig}learn-height-range/display-4.2/`,
  `es/${rig}mass-flow/`,
];

/** What one visit saw. */
interface Seen {
  readonly path: string;
  /** What is marked as hidden and yet shows, its first characters. */
  readonly shown: readonly string[];
  /** What a thumb in a glove would miss. */
  readonly small: readonly string[];
  readonly widths: readonly number[];
  readonly faults: readonly string[];
}

const seen: Seen[] = [];

function hiddenYetShown(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('[hidden]')]
      .filter((one) => one.checkVisibility({ visibilityProperty: true }))
      .map((one) => one.outerHTML.slice(0, 80)),
  );
}

/** 44 px: WCAG 2.2, 2.5.5 Target Size (Enhanced); links within a sentence are excepted there. */
function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        '.choices a, .entries a, .ticks label, summary, .way a, .search input, .skip',
      ),
    ]
      .filter((target) => !target.matches('.skip') && target.offsetParent !== null)
      .filter(
        (target) =>
          target.getBoundingClientRect().height <
          (target.matches('.entries > li > a, .choices a, .ticks label, .search input') ? 56 : 44),
      )
      .map(
        (target) => `${target.className} ${target.textContent?.slice(0, 40)} ${target.getBoundingClientRect().height}`,
      ),
  );
}

beforeAll(async () => {
  site = await serveBelow('/books/header/', buildDemoSite());
  browser = await openBrowser();
  for (const path of kinds) {
    seen.push(
      await visit(browser, site, path, {}, async (page) => ({
        path,
        shown: await hiddenYetShown(page),
        small: await smallTargets(page),
        widths: await widthsAt320(page),
        faults: await accessFaults(page),
      })),
    );
  }
}, 240_000);

afterAll(async () => {
  await browser?.close();
  site?.server.close();
});

describe('every kind of page', () => {
  const each = <T>(of: (one: Seen) => T): [string, T][] => seen.map((one) => [one.path, of(one)]);
  const all = <T>(value: T): [string, T][] => kinds.map((path) => [path, value]);

  it('shows nothing of what it hides: neither the values of another rig nor what a script has left out', () => {
    expect(each(({ shown }) => shown)).toEqual(all([]));
  });

  it('has no fault of accessibility, by day and by night', () => {
    expect(each(({ faults }) => faults)).toEqual(all([]));
  });

  it('scrolls in one direction only at 320 px, also with text at 200 %', () => {
    expect(each(({ widths }) => widths)).toEqual(all([320, 320]));
  });

  it('gives thumbs in gloves something to hit', () => {
    expect(each(({ small }) => small)).toEqual(all([]));
  });
});
