// A procedure as its author wrote it: typed, every part with its place, nothing worked out yet.

import type { DecisionRule } from '../calc/decision-rule.js';
import type { Located, SourceText, Span } from '../text/source.js';
import type { Conditions, StateTest } from './conditions.js';
import type { NumberChoice, WrittenExpr, WrittenLimits } from './numbers.js';
import type { Choice, Template, Text } from './text.js';

export type ProcedureKind = 'setup' | 'calibration' | 'adjustment' | 'inspection' | 'fault-finding';
export type Status = 'draft' | 'released' | 'withdrawn';
export type Skill = 'operator' | 'technician';

/** The keys of `applies`, `only` and fleet filters; all given keys must hold, any entry of a list. */
export type Applies =
  | { readonly kind: 'all'; readonly at: Span }
  | { readonly kind: 'keys'; readonly tests: readonly AppliesTest[]; readonly at: Span }
  /** `not: { … }`. Stands among the tests of a map. */
  | { readonly kind: 'not'; readonly of: Applies; readonly at: Span };

export type AppliesTest =
  | { readonly key: 'machine' | 'option' | 'header'; readonly ids: readonly Located<string>[]; readonly at: Span }
  /** `header: { type: row }`. */
  | { readonly key: 'header-type'; readonly ids: readonly Located<string>[]; readonly at: Span }
  /** `from A`, `to B`, `A to B`; both ends belong to it. */
  | { readonly key: 'serials'; readonly from?: Located<string>; readonly to?: Located<string>; readonly at: Span }
  /** `at least V`, or one or more exact versions. `module` where the machine has several kinds of software. */
  | {
      readonly key: 'software';
      readonly module?: Located<string>;
      readonly atLeast?: Located<string>;
      readonly versions: readonly Located<string>[];
      readonly at: Span;
    }
  | { readonly key: 'not'; readonly of: Applies; readonly at: Span };

export interface Requirement {
  readonly state: Located<string>;
  readonly test: StateTest;
  readonly throughout: boolean;
  readonly shownBy?: Text;
  readonly ifMissed?: Text;
  readonly only?: Applies;
  readonly at: Span;
}

/** A check value. Has `from` where it is derived from others. */
export interface CheckValue {
  readonly id: string;
  readonly idAt: Span;
  readonly label: Text;
  readonly quantity?: Located<string>;
  readonly unit?: Located<string>;
  readonly limits?: NumberChoice;
  readonly nominal?: NumberChoice;
  readonly inside?: NumberChoice;
  readonly readWith?: Choice<Located<string>>;
  readonly readAt?: Located<string>;
  readonly from?: WrittenExpr;
  readonly decision?: Located<DecisionRule>;
  readonly origin?: Text;
  readonly only?: Applies;
  readonly at: Span;
}

/** What a person can turn. `range`, `smallest` in their own unit; `moves` maps value id to an effect for one unit of it. */
export interface Adjuster {
  readonly id: string;
  readonly idAt: Span;
  readonly label: Text;
  readonly range: NumberChoice;
  readonly smallest?: NumberChoice;
  readonly positive?: Text;
  readonly moves: readonly {
    readonly value: Located<string>;
    readonly effect: Choice<WrittenExpr>;
    readonly at: Span;
  }[];
  readonly watch?: Located<string>;
  readonly only?: Applies;
  readonly at: Span;
}

export interface WorksheetColumn {
  readonly id: string;
  readonly label: Text;
  readonly unit?: Located<string>;
  /** What there is to choose from, each with what pages call it. */
  readonly choices?: readonly { readonly id: Located<string>; readonly label: Text }[];
  readonly readWith?: Located<string>;
  readonly from?: WrittenExpr;
  readonly limits?: NumberChoice;
  readonly at: Span;
}

export interface WorksheetResult {
  readonly id: string;
  readonly label: Text;
  readonly unit?: Located<string>;
  readonly from: WrittenExpr;
  readonly limits?: NumberChoice;
  readonly at: Span;
}

export interface Worksheet {
  readonly id: string;
  readonly idAt: Span;
  readonly label?: Text;
  readonly rows: WrittenLimits;
  readonly columns: readonly WorksheetColumn[];
  readonly results: readonly WorksheetResult[];
  readonly at: Span;
}

/** Where a branch leads: a step's id or an end. `atMost` counts how often it may be taken, `otherwise` is where it leads then. */
export interface Branch {
  readonly go: Located<string>;
  readonly because?: Text;
  readonly means?: Conditions;
  readonly atMost?: Located<number>;
  readonly otherwise?: Branch;
  readonly at: Span;
}

export type ReadingOutcome = 'outside' | 'low' | 'high' | 'unsure' | 'fault';

export interface Energized {
  readonly why: Text;
  readonly keepAway?: Text;
  readonly secondPerson?: Text;
  readonly at: Span;
}

export interface Figure {
  readonly file: Located<string>;
  readonly alt: Text;
  readonly at: Span;
}

/** One step. Keys that hold texts for people keep their own type; ids stay located so that faults point at them. */
export interface Step {
  readonly id: Located<string>;
  readonly at: Span;
  readonly do?: Text;
  readonly card?: Text;
  readonly ask?: Text;
  readonly note?: Text;
  readonly expect?: Text;
  readonly figure?: Figure;
  readonly hazards: readonly Located<string>[];
  readonly skill?: Located<Skill>;
  readonly by?: Located<number>;
  readonly place?: Located<string>;
  readonly needs?: Conditions;
  readonly sets?: Conditions;
  readonly measure: readonly Located<string>[];
  /** Worksheets into which a row is written. */
  readonly write: readonly Located<string>[];
  readonly adjust: readonly Located<string>[];
  readonly stale: readonly Located<string>[];
  readonly mark?: readonly Located<string>[];
  readonly photo?: Located<string>;
  readonly hold?: NumberChoice;
  readonly wait?: NumberChoice;
  readonly run?: Located<string>;
  readonly only?: Applies;
  readonly energized?: Energized;
  readonly otherwise?: Branch;
  readonly when: ReadonlyMap<ReadingOutcome, Branch>;
  readonly answers: readonly { readonly key: Located<string>; readonly label?: Text; readonly branch: Branch }[];
  readonly then?: Branch;
  /** The side that it was repeated for, of `for-each`; its id then ends in `-<side>`. */
  readonly repeated?: { readonly variable: string; readonly value: string };
}

export interface Waiver {
  readonly code: Located<string>;
  readonly because: SourceText;
  /** The map that it stands in: it covers diagnostics of that code whose place lies inside. */
  readonly within: Span;
  readonly at: Span;
}

/** Prose after the front matter, cut at its headings. `html` is not kept: emitters render from `markdown`. */
export interface ProseSection {
  /** Missing for what stands before the first heading. */
  readonly heading?: { readonly text: string; readonly depth: number; readonly at: Span };
  /** The step whose id the heading is. */
  readonly step?: string;
  /** The section's markdown with placeholders found, without the heading. */
  readonly body: Template;
  /** Links to places of the book (no outside addresses), as written. */
  readonly links: readonly Located<string>[];
  /** Pictures, all below `figures/`. */
  readonly images: readonly Located<string>[];
  readonly at: Span;
}

export interface Duration {
  readonly total?: NumberChoice;
  readonly handsOn?: NumberChoice;
  readonly waiting?: NumberChoice;
  readonly at: Span;
}

export interface Verification {
  readonly machine: Located<string>;
  readonly how: Located<'desk' | 'on-machine' | 'both'>;
  readonly by: Located<string>;
  readonly on: Located<string>;
  /** Of what the procedure said when it was tried: `3f9a-07c2-81de`. */
  readonly content?: Located<string>;
}

/** `due: every season`, `every 50 h`, `every 500 ac`, `every 12 months`. */
export type Due =
  | { readonly kind: 'season'; readonly at: Span }
  | { readonly kind: 'every'; readonly count: number; readonly unit: 'h' | 'ac' | 'months'; readonly at: Span };

export interface Procedure {
  readonly id: string;
  readonly file: string;
  /** The folder below the book, `''` at its top: the job. */
  readonly folder: string;
  readonly title: Text;
  readonly summary: Text;
  readonly kind: Located<ProcedureKind>;
  readonly revision: Located<number>;
  readonly status: Located<Status>;
  readonly reviewed?: {
    readonly on?: Located<string>;
    readonly by?: Located<string>;
    readonly next?: Located<string>;
    readonly at: Span;
  };
  readonly verified: readonly Verification[];
  readonly applies: Applies;
  readonly skill: Located<Skill>;
  readonly people: Located<number>;
  readonly time?: Duration;
  readonly tools: readonly Located<string>[];
  readonly supplies: readonly Text[];
  readonly hazards: readonly Located<string>[];
  readonly gives?: Located<string>;
  readonly voidedBy: readonly Located<string>[];
  readonly due?: Due;
  readonly requires: readonly Requirement[];
  readonly values: readonly CheckValue[];
  readonly adjusters: readonly Adjuster[];
  readonly worksheets: readonly Worksheet[];
  /** `for-each: { side: [left, right] }`; already applied to values, adjusters, worksheets and steps. */
  readonly forEach?: {
    readonly variable: string;
    readonly values: readonly Located<string>[];
    /** What a value is called, by language and value; where it is missing the value itself is shown. */
    readonly words: ReadonlyMap<string, ReadonlyMap<string, string>>;
    readonly at: Span;
  };
  readonly steps: readonly Step[];
  readonly anyOrder: readonly (readonly Located<string>[])[];
  /** What holds at the end; by end where the author gave it so. */
  readonly leaves: ReadonlyMap<'done' | 'stop' | 'call-service', Conditions>;
  readonly waivers: readonly Waiver[];
  readonly prose: ReadonlyMap<string, readonly ProseSection[]>;
  /** The languages other than the first that a translation file exists for, with the revision it translates. */
  readonly translations: ReadonlyMap<string, { readonly file: string; readonly translates: Located<number> }>;
  /** The front matter as a whole. */
  readonly at: Span;
}
