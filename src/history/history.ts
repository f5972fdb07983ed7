// All releases of a book against each other and against the book as it is.

import type { CardChange } from '../model/comparison.js';
import type { CompiledBook } from '../model/compiled-book.js';
import type { BookHistory, GoneCard, ReleaseName, Stretch } from '../model/history.js';
import { compareText } from '../text/compare-text.js';
import { compareBooks } from './compare.js';
import { compareCards } from './compare-cards.js';
import type { Release } from './release.js';

/** The history of a book. `releases` stand in their order, the oldest first. */
export function historyOf(releases: readonly Release[], now: CompiledBook): BookHistory {
  return { stretches: stretchesOf(releases, now), cards: cardsOf(releases, now), gone: goneOf(releases, now) };
}

function stretchesOf(releases: readonly Release[], now: CompiledBook): readonly Stretch[] {
  const stretches = releases.map((release, i): Stretch => {
    const next = releases[i + 1];
    const from = nameOf(release);
    return next
      ? { from, to: nameOf(next), comparison: compareBooks(release.book, next.book) }
      : { from, comparison: compareBooks(release.book, now) };
  });
  return stretches.reverse();
}

function nameOf({ name, date }: Release): ReleaseName {
  return { name, date };
}

function cardsOf(releases: readonly Release[], now: CompiledBook): BookHistory['cards'] {
  const cards = new Map<string, CardChange[]>();
  for (const release of releases) {
    for (const [code, change] of compareCards(release, now)) {
      const known = cards.get(code) ?? [];
      if (known.every(({ revision }) => revision !== change.revision)) cards.set(code, [...known, change]);
    }
  }
  return cards;
}

/** Cards that were printed and have no page of their own any more; the latest release of each counts. */
function goneOf(releases: readonly Release[], now: CompiledBook): readonly GoneCard[] {
  const codes = new Set(now.variants.flatMap(({ cards }) => cards.map(({ code }) => code)));
  const gone = new Map<string, GoneCard>();
  for (const { book, date } of releases) {
    for (const { procedure, cards } of book.variants) {
      for (const { code, machine } of cards) {
        if (codes.has(code)) continue;
        const { id, title, revision } = procedure;
        gone.set(code, { code, machine, procedure: id, title, revision, date });
      }
    }
  }
  return [...gone.values()].sort((a, b) => compareText(a.code, b.code));
}
