// What trying the slips of a book came to: how many were noticed, which were not, and what would guard against those.

/** How many slips of one kind, or in one file, were tried, and what became of them. */
export interface GuardCount {
  /** `neighbouring-digit`, or the path of a file. */
  readonly of: string;
  /** Slips that count: all but those that are told apart. */
  readonly counted: number;
  readonly noticed: number;
  /** Of those that count, in percent, rounded down to one decimal; 100 where none counts. */
  readonly percent: number;
  /** Slips smaller than the tolerance, or than four times the uncertainty of the reading. */
  readonly small: number;
  /** Slips after which every page says what it said before. */
  readonly same: number;
}

/** A place in the book, line and column from 1, columns in UTF-16 units. */
export interface GuardPlace {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** One slip: what was changed, where. */
export interface TriedSlip extends GuardPlace {
  readonly kind: string;
  /** The keys that lead there: `values/on_ground/limits`. */
  readonly path: string;
  /** What stands there. */
  readonly before: string;
  /** What a slip makes of it; empty where it is left out. */
  readonly after: string;
}

/** A slip that some rule spoke up at. */
export interface NoticedSlip extends TriedSlip {
  readonly by: { readonly code: string; readonly severity: 'error' | 'warning' } & GuardPlace;
}

/** A slip that nothing noticed, and what would guard against it. */
export interface Survivor extends TriedSlip {
  readonly suggestion: string;
}

/** A slip that does not count, and why. */
export interface SlipApart extends TriedSlip {
  readonly why: 'small' | 'same';
}

export interface GuardResult {
  /** All slips that could be made; fewer were tried where `sample` is given. */
  readonly possible: number;
  readonly sample?: { readonly size: number; readonly seed: number };
  readonly total: GuardCount;
  /** In the order in which kinds are told; those without a slip are missing. */
  readonly kinds: readonly GuardCount[];
  /** By path. */
  readonly files: readonly GuardCount[];
  readonly survivors: readonly Survivor[];
  readonly apart: readonly SlipApart[];
  readonly noticed: readonly NoticedSlip[];
}
