// The shape of a home's search index as a file: written at build time, read in the browser.

import type { AsPlainObject } from 'minisearch';

/** What a hit is: a title, a symptom, a check value, a condition, a step. */
export type LineKind = 't' | 's' | 'v' | 'n' | 'p';

/** A line that can be found: kind, which procedure, its text, part of the page to open, and what is shown beside it. */
export type Line = readonly [kind: LineKind, procedure: number, text: string, anchor: string, extra: string];

/** A procedure as results show it: title and folder below the home. */
export type Target = readonly [title: string, folder: string];

/** A phrase that is searched for and the phrase that the book writes for it; both as search words. */
export type Synonym = readonly [from: readonly string[], to: readonly string[]];

export interface SearchFile {
  readonly version: 1;
  readonly procedures: readonly Target[];
  readonly lines: readonly Line[];
  readonly synonyms: readonly Synonym[];
  /** Words for the kinds of lines in the page's language; `{label}` stands for a step's number. */
  readonly kinds: Readonly<Record<LineKind, string>>;
  /** What minisearch writes of itself; ids are places in `lines`. */
  readonly index: AsPlainObject;
}
