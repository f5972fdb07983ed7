// What a book became over time, as the site shows it.

import type { CardChange, Comparison } from './comparison.js';

/** A release by its name and day. */
export interface ReleaseName {
  readonly name: string;
  readonly date: string;
}

/** What changed from one release to the next, or to the book as it is. */
export interface Stretch {
  readonly from: ReleaseName;
  /** Missing: the book as it is. */
  readonly to?: ReleaseName;
  readonly comparison: Comparison;
}

/** A card whose code no card of the book has any more. */
export interface UnprintedCard {
  readonly code: string;
  readonly machine: string;
  /** What it was of. */
  readonly procedure: string;
  readonly title: Readonly<Record<string, string>>;
}

/** Such a card that a release of the book has. */
export interface GoneCard extends UnprintedCard {
  readonly revision: number;
  readonly date: string;
}

/** What the releases of a book tell. */
export interface BookHistory {
  /** The latest first: what changed since the last release, then what each changed. */
  readonly stretches: readonly Stretch[];
  /** By the code of a card, what changed since each revision that a release had; the oldest release of a revision counts. */
  readonly cards: ReadonlyMap<string, readonly CardChange[]>;
  readonly gone: readonly GoneCard[];
}
