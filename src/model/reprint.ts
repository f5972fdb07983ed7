// Which issued cards still hold: what `stepgauge reprint` says, and the page about them.

import type { Change } from './comparison.js';
import type { Words } from './text.js';

/**
 * `right`: all that stands on it is what would be printed now. `old-revision`: so, but for the revision. `changed`: something
 * on it is otherwise now. `withdrawn`, `draft`, `gone`: of its procedure. `not-for-it`: there is no such card any more for what
 * it was issued for. `replaced`: the same was issued to the same place later.
 */
export type IssueState =
  | 'changed'
  | 'withdrawn'
  | 'draft'
  | 'gone'
  | 'not-for-it'
  | 'old-revision'
  | 'right'
  | 'replaced';

/** What is no longer as on a card. */
export type ChangedPart = 'text' | 'code' | 'rigs';

export interface IssueFinding {
  readonly state: IssueState;
  readonly code: string;
  readonly procedure: string;
  /** As the book has it now; missing where it has no such procedure. */
  readonly title?: Words;
  readonly revision: number;
  /** Of the procedure now. */
  readonly revisionNow?: number;
  readonly language: string;
  readonly rigs: readonly string[];
  readonly unit?: string;
  /** The fleet has no such unit any more. */
  readonly unitGone?: true;
  readonly place?: string;
  readonly on: string;
  /** With `changed`: what. */
  readonly parts?: readonly ChangedPart[];
  /** With `changed` or `not-for-it`: those of its rigs that there is no such card for. */
  readonly rigsLost?: readonly string[];
  /** What changed since a release that has what was printed; missing where no release has it. Safety first. */
  readonly since?: { readonly release: string; readonly date: string; readonly changes: readonly Change[] };
}

/** Every issued card with what became of it, the gravest first. */
export interface Reprint {
  readonly cards: readonly IssueFinding[];
  /** How many are out of date: changed, or of something that there is not. */
  readonly outOfDate: number;
}

/** States in which a card must not be worked by any more. */
export const outOfDateStates: readonly IssueState[] = ['changed', 'withdrawn', 'draft', 'gone', 'not-for-it'];
