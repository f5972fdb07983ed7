// What changed between two compiled books, by meaning. Data alone: who shows it puts it into words.

import type { Words } from './text.js';

/** `safety`: to do with safety. `technical`: numbers, steps, names that decide. `text`: wording, which no check can weigh. */
export type Weight = 'safety' | 'technical' | 'text';

/** `respelled`: written otherwise, the same value. `moved`: in another place among its like. */
export type How = 'added' | 'dropped' | 'changed' | 'moved' | 'renamed' | 'respelled';

/** Something to show: as it stands, in the book's words, in words of the interface, or several of these. */
export type Said =
  | { readonly kind: 'plain'; readonly text: string }
  | { readonly kind: 'words'; readonly words: Words }
  | { readonly kind: 'ui'; readonly key: string; readonly parts?: Readonly<Record<string, Said>> }
  | { readonly kind: 'list'; readonly of: readonly Said[] };

/** The part of a book that a change is in. */
export interface Subject {
  readonly kind:
    | 'adjuster'
    | 'bundle'
    | 'column'
    | 'condition'
    | 'crop'
    | 'end'
    | 'event'
    | 'hazard'
    | 'header'
    | 'instrument'
    | 'job'
    | 'machine'
    | 'option'
    | 'parameter'
    | 'physics'
    | 'procedure'
    | 'result'
    | 'rule'
    | 'section'
    | 'state'
    | 'state-value'
    | 'step'
    | 'tool'
    | 'value'
    | 'word'
    | 'worksheet';
  readonly id: string;
  /** What it is called, or says. */
  readonly label?: Said;
  /** A step's number as it is printed: now, or before where it is gone. */
  readonly number?: string;
  /** Its number before, where that was another: what stands on an old card. */
  readonly was?: string;
  /** What it is a part of: the machine of a parameter. */
  readonly of?: Subject;
}

/** One change, said once for all the rigs that it holds for. */
export interface Change {
  /** What of the subject changed: `limits`, `do`, `hazards`; `itself` for the subject as a whole. */
  readonly about: string;
  readonly how: How;
  readonly weight: Weight;
  readonly subject?: Subject;
  /** As short as they can be written; empty: all rigs that have the subject. */
  readonly rigs: readonly string[];
  readonly before?: Said;
  readonly after?: Said;
  /** Languages whose words changed, where not those of the book's first language alone or with it. */
  readonly languages?: readonly string[];
  /** Of a change in a shared file: procedures that print it on their cards, though their revision did not go up. */
  readonly printed?: readonly string[];
}

/** `kept`: it changed, and its revision did not go up. `idle`: the revision went up and nothing changed. */
export type RevisionAlert = 'kept' | 'idle' | 'lowered';

/** All that changed in one procedure. */
export interface ProcedureChange {
  readonly id: string;
  readonly title: Words;
  readonly how: 'new' | 'gone' | 'changed';
  readonly revision: { readonly before?: number; readonly after?: number };
  readonly alert?: RevisionAlert;
  readonly changes: readonly Change[];
}

/** What changed from one book to another. */
export interface Comparison {
  /** In what all procedures share: safety and states first, then machines, and the rest. */
  readonly shared: readonly Change[];
  /** Those that changed, the gravest first, then by id. */
  readonly procedures: readonly ProcedureChange[];
  /** How many procedures did not change. */
  readonly unchanged: number;
}

/** What changed for one printed card since its revision. */
export interface CardChange {
  /** The revision that stands on the card. */
  readonly revision: number;
  /** The day that the release was made whose cards have it. */
  readonly date: string;
  /** Machine and header of the rigs that the card was printed for. */
  readonly rigs: readonly { readonly machine: string; readonly header: string }[];
  /** What the card is of, now; missing where there is no such procedure for its rigs any more. */
  readonly procedure?: { readonly id: string; readonly revision: number };
  /** Cautions and the telephone number first, then what is of the procedure. Rigs are those of the card. */
  readonly changes: readonly Change[];
}
