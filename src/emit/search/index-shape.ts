// The shape of a home's search as a file: written at build time, read in the browser. It holds lines, not a finished
// index: a phone indexes a thousand lines sooner than it fetches the index of them (8.9 kB against 3.9 kB for the lines
// of sixteen procedures, compressed).

import type { RigFacts } from '../rig-match.js';

/** What a hit is: a title, a symptom, a check value, a condition, a step. */
export type LineKind = 't' | 's' | 'v' | 'n' | 'p';

/**
 * A line that can be found: kind, place of its procedure, its text, what to open below the procedure's folder, what is
 * shown beside it (for a step: its number), and words that find it without being shown.
 */
export type Line = readonly [
  kind: LineKind,
  procedure: number,
  text: string,
  anchor: string,
  extra: string,
  also?: string,
];

/** A procedure as results show it: title and folder below the home, and what marks it where it was withdrawn. */
export type Target = readonly [title: string, folder: string, taken?: 'withdrawn'];

/** A phrase that is searched for and the phrase that the book writes for it; both as search words. */
export type Synonym = readonly [from: readonly string[], to: readonly string[]];

/** A procedure, the folder of one of its versions below its own (empty for all of it), and the rigs that it is for. */
export type Narrowed = readonly [procedure: number, folder: string, rigs: readonly RigFacts[]];

export interface SearchFile {
  readonly version: 1;
  readonly procedures: readonly Target[];
  readonly lines: readonly Line[];
  readonly synonyms: readonly Synonym[];
  /** Which rigs procedures and versions are for, where they are not for every rig of the home. */
  readonly narrowed?: readonly Narrowed[];
  /** Words for the kinds of lines in the page's language; `{label}` stands for a step's number. */
  readonly kinds: Readonly<Record<LineKind, string>>;
}
