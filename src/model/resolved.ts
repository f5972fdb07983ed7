// The book worked out: each procedure for each kind of rig, with plain numbers, limits in use, and words in every language.
// Whatever has equal content is one variant. Places lead back to what the author wrote; they are no part of the content.

import type { DecisionRule } from '../calc/decision-rule.js';
import type { Expr } from '../calc/expression/ast.js';
import type { Instrument as CalcInstrument } from '../calc/instrument.js';
import type { Limits } from '../calc/limits.js';
import type { Rational } from '../calc/rational.js';
import type { Unit } from '../calc/unit.js';
import type { Span } from '../text/source.js';
import type { Book, Instrument } from './book.js';
import type {
  Adjuster,
  CheckValue,
  Due,
  Procedure,
  ProcedureKind,
  ReadingOutcome,
  Skill,
  Status,
  Step,
  Worksheet,
} from './procedure.js';
import type { Words } from './text.js';

export type End = 'done' | 'stop' | 'call-service';

/** One end of a stretch of serials. */
export interface SerialEnd {
  readonly serial: string;
  readonly included: boolean;
}

/** One machine with one header and, as far as they make a difference here, options, software and a stretch of serials. */
export interface Rig {
  readonly machine: string;
  readonly header: string;
  /** Option id to whether it is fitted; an option that makes no difference is missing. */
  readonly options: ReadonlyMap<string, boolean>;
  /** Software module to the versions it may have; a module that makes no difference is missing. */
  readonly software: ReadonlyMap<string, readonly string[]>;
  readonly serials?: { readonly from?: SerialEnd; readonly to?: SerialEnd };
}

/** What one state may be, or becomes. */
export interface ResolvedCondition {
  readonly state: string;
  readonly test:
    | { readonly kind: 'words'; readonly words: readonly string[] }
    | { readonly kind: 'limits'; readonly limits: Limits; readonly text: string }
    | { readonly kind: 'unknown' };
  /** The bundle of `conditions` that it came from. */
  readonly bundle?: string;
  readonly at: Span;
}

export interface ResolvedRequirement {
  readonly condition: ResolvedCondition;
  /** `Engine: low idle`: the state and its value in words. */
  readonly words: Words;
  readonly throughout: boolean;
  readonly shownBy?: Words;
  readonly ifMissed?: Words;
  readonly at: Span;
}

export interface ResolvedInstrument {
  readonly source: Instrument;
  readonly id: string;
  readonly label: Words;
  readonly range?: Limits;
  /** In coherent base units. */
  readonly resolution?: Rational;
  readonly builtIn: boolean;
  /** What the calculation core wants to know of it. */
  readonly calc: CalcInstrument;
  /** What it needs to be read. */
  readonly needs?: readonly ResolvedCondition[];
}

export interface ResolvedValue {
  readonly source: CheckValue;
  readonly id: string;
  readonly label: Words;
  readonly quantity?: string;
  /** The unit it is read and shown in first. */
  readonly unit: Unit;
  /** The limits as the book has them. Missing for a value that is only recorded. */
  readonly tolerance?: Limits;
  /** The limits in use: guarded where the decision rule says so, rounded inward to the instrument's resolution. */
  readonly acceptance?: Limits;
  /** Under `three-zone`: outside these a reading fails for sure; between them and `acceptance` it is too close to call. */
  readonly failing?: Limits;
  readonly inside?: Limits;
  readonly nominal?: Limits;
  /** The smallest step that a reading shows, in base units. */
  readonly resolution?: Rational;
  readonly instrument?: ResolvedInstrument;
  /** Where a person stands to read it; missing for a derived value. */
  readonly readAt?: string;
  /** What the instrument needs. */
  readonly needs: readonly ResolvedCondition[];
  readonly derived?: { readonly expr: Expr; readonly inputs: readonly string[] };
  readonly decision: DecisionRule;
  /** Expanded uncertainty U at the limits, in base units; missing without an instrument. */
  readonly uncertainty?: { readonly low?: Rational; readonly high?: Rational };
  readonly shown: {
    /** `3.63 to 4.17 V`, in use. */
    readonly acceptance?: string;
    /** `3.60 to 4.20 V`, the book limit. */
    readonly tolerance?: string;
    /** The limits in use in the other system of units, where it has one. */
    readonly other?: string;
    readonly inside?: string;
    readonly nominal?: string;
  };
  readonly origin?: Words;
  /** Where the limits that hold for this rig are written: the entry of the choice; the value's own place where it has none. */
  readonly limitsAt: Span;
}

export interface ResolvedAdjuster {
  readonly source: Adjuster;
  readonly id: string;
  readonly label: Words;
  readonly unit: Unit;
  /** In base units, from where it stands. */
  readonly range: Limits;
  readonly smallest?: Rational;
  readonly positive?: Words;
  /** Value id to the change of that value for one base unit of turn, as exact bounds. */
  readonly moves: ReadonlyMap<string, { readonly low: Rational; readonly high: Rational }>;
  readonly watch?: string;
  readonly shown: { readonly range: string; readonly smallest?: string };
}

export interface ResolvedWorksheet {
  readonly source: Worksheet;
  readonly id: string;
  readonly label?: Words;
  readonly rows: { readonly min: number; readonly max?: number };
  readonly decision: DecisionRule;
  /** Every `machine.x` and `header.x` that its expressions name, worked out; one that has no two ends is missing. */
  readonly parameters: ReadonlyMap<string, Limits>;
  readonly columns: readonly {
    readonly id: string;
    readonly label: Words;
    readonly unit?: Unit;
    readonly choices?: readonly { readonly id: string; readonly label: Words }[];
    readonly from?: Expr;
    readonly instrument?: ResolvedInstrument;
    /** What each entry must keep. */
    readonly limits?: Limits;
    /** Where these are written. */
    readonly limitsAt?: Span;
  }[];
  readonly results: readonly {
    readonly id: string;
    readonly label: Words;
    readonly unit: Unit;
    readonly from: Expr;
    readonly limits?: Limits;
    readonly limitsAt?: Span;
    readonly shown?: string;
  }[];
}

export interface ResolvedBranch {
  /** A step id of the same procedure, or an end. */
  readonly go: string;
  readonly because?: Words;
  readonly means: readonly ResolvedCondition[];
  readonly atMost?: number;
  readonly otherwise?: ResolvedBranch;
  readonly at: Span;
}

export interface ResolvedStep {
  readonly source: Step;
  readonly id: string;
  /** Counted over all rigs: `6`. Steps of a procedure that is run here are `6.1`, `6.2`: see `run`. */
  readonly number: number;
  readonly do?: Words;
  readonly card?: Words;
  readonly ask?: Words;
  readonly note?: Words;
  readonly expect?: Words;
  readonly figure?: { readonly file: string; readonly alt: Words };
  readonly hazards: readonly string[];
  readonly skill: Skill;
  readonly by: number;
  readonly place?: string;
  readonly needs: readonly ResolvedCondition[];
  readonly sets: readonly ResolvedCondition[];
  /** Values and worksheets. */
  readonly measure: readonly string[];
  /** Worksheets into which a row is written. */
  readonly write?: readonly string[];
  readonly adjust: readonly string[];
  readonly stale: readonly string[];
  readonly mark?: readonly string[];
  readonly photo?: string;
  readonly hold?: { readonly limits: Limits; readonly text: string };
  readonly wait?: { readonly limits: Limits; readonly text: string };
  readonly run?: ResolvedProcedure;
  readonly energized?: { readonly why: Words; readonly keepAway?: Words; readonly secondPerson?: Words };
  readonly otherwise?: ResolvedBranch;
  readonly when: ReadonlyMap<ReadingOutcome, ResolvedBranch>;
  readonly answers: readonly { readonly key: string; readonly label: Words; readonly branch: ResolvedBranch }[];
  readonly then?: ResolvedBranch;
  readonly at: Span;
}

export interface ResolvedProse {
  readonly heading?: string;
  readonly depth?: number;
  /** The step whose detail it is. */
  readonly step?: string;
  /** Markdown with the placeholders filled. */
  readonly markdown: string;
}

/** A procedure for one kind of rig. */
export interface ResolvedProcedure {
  readonly source: Procedure;
  readonly id: string;
  readonly kind: ProcedureKind;
  readonly revision: number;
  readonly status: Status;
  readonly skill: Skill;
  readonly people: number;
  readonly title: Words;
  readonly summary: Words;
  readonly time?: { readonly total?: string; readonly handsOn?: string; readonly waiting?: string };
  readonly tools: readonly { readonly id: string; readonly label: Words }[];
  readonly supplies: readonly Words[];
  readonly hazards: readonly string[];
  readonly gives?: string;
  readonly voidedBy: readonly string[];
  readonly due?: Due;
  readonly requires: readonly ResolvedRequirement[];
  readonly values: readonly ResolvedValue[];
  /** Every `machine.x` and `header.x` that its limits and expressions name, worked out. */
  readonly parameters: ReadonlyMap<string, Limits>;
  readonly adjusters: readonly ResolvedAdjuster[];
  readonly worksheets: readonly ResolvedWorksheet[];
  readonly steps: readonly ResolvedStep[];
  readonly anyOrder: readonly (readonly string[])[];
  readonly leaves: ReadonlyMap<End, readonly ResolvedCondition[]>;
  /** Language to sections. */
  readonly prose: Readonly<Record<string, readonly ResolvedProse[]>>;
}

/** One page, one card: a procedure and all the rigs that it reads the same for. */
export interface Variant {
  /** The procedure's id and, where it has several variants, `-` and a number that counts them in the order of their rigs. */
  readonly id: string;
  readonly procedure: ResolvedProcedure;
  readonly rigs: readonly Rig[];
  /** What is run at `stop` and `call-service`, for these rigs. */
  readonly ends: ReadonlyMap<End, ResolvedProcedure>;
  /** Of the content, places left out. */
  readonly hash: string;
}

export interface ResolvedVariable {
  readonly id: string;
  readonly label: Words;
  /** Empty for a state with a quantity. */
  readonly values: readonly string[];
  readonly valueLabels: ReadonlyMap<string, Words>;
  readonly quantity?: string;
  readonly start?: string;
  readonly restore: boolean;
  readonly safe?: string;
  readonly movesWhen: readonly ResolvedCondition[];
  readonly at: Span;
}

export interface ResolvedRule {
  readonly id: string;
  readonly label?: Words;
  readonly when: readonly ResolvedCondition[];
  readonly must: readonly ResolvedCondition[];
  readonly unchanged: readonly string[];
  readonly hazard?: string;
  readonly exceptEnergized: boolean;
  readonly origin?: Words;
  readonly at: Span;
}

/** States, physics and safety rules with their bundles filled in: the same for every rig. */
export interface World {
  readonly variables: readonly ResolvedVariable[];
  readonly physics: readonly {
    readonly when: readonly ResolvedCondition[];
    readonly then: readonly ResolvedCondition[];
    readonly at: Span;
  }[];
  /** Bundles of conditions by name. */
  readonly bundles: ReadonlyMap<string, readonly ResolvedCondition[]>;
  readonly rules: readonly ResolvedRule[];
  readonly ends: ReadonlyMap<End, { readonly must: readonly ResolvedCondition[]; readonly at: Span }>;
}

export interface ResolvedBook {
  readonly book: Book;
  readonly world: World;
  /** In the order of procedure id, then rigs. */
  readonly variants: readonly Variant[];
  /** Every machine with each header that fits, in the book's order. */
  readonly rigs: readonly { readonly machine: string; readonly header: string }[];
}
