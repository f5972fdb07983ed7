// What a page's walk-through is made of, as the build writes it and the phone reads it (portable JSON, see calc/portable).
// Words that the page itself shows are not repeated: steps are found on it by their label.

import type { Expr } from '../../calc/expression/ast.js';
import type { Limits } from '../../calc/limits.js';
import type { Rational } from '../../calc/rational.js';
import type { Unit } from '../../calc/unit-type.js';
import type { Sheet } from '../../calc/worksheet/sheet.js';

/** The three ends of a procedure. */
export type WalkEnd = 'done' | 'stop' | 'call-service';

/** Where a way leads: a step by its label, an end, or back to the step that runs this procedure, which is then done. */
export type Target = { readonly step: string } | { readonly end: WalkEnd } | { readonly returnTo: string };

/** A way out of a step. One with `atMost` is counted under its `id`, and followed by `otherwise` when it is used up. */
export interface Way {
  readonly id: string;
  readonly to: Target;
  readonly because?: string;
  readonly atMost?: number;
  readonly otherwise?: Way;
}

/** How a reading may come out; `low` and `high` are `outside` on one side. */
export type Outcome = 'outside' | 'low' | 'high' | 'unsure' | 'fault';

/** Seconds; one number where both are the same. */
export interface Duration {
  readonly low?: number;
  readonly high?: number;
  readonly text: string;
}

export interface WalkStep {
  /** `7`, `4.2`, `E1`: as on the page and the card. */
  readonly label: string;
  /** The label of the step that runs the procedure it belongs to, `E` for one that an end runs; empty at the top. */
  readonly scope: string;
  /** What the step says to do or asks, for the record. */
  readonly words: string;
  /** The first step of the procedure that is run here. */
  readonly run?: string;
  /** Keys of values and worksheets: `on_ground`, `4:on_ground`. */
  readonly measure?: readonly string[];
  /** Keys of worksheets into which a row is written. */
  readonly write?: readonly string[];
  readonly adjust?: readonly string[];
  /** Values that this makes worth nothing. */
  readonly stale?: readonly string[];
  readonly mark?: readonly string[];
  readonly photo?: true;
  readonly hold?: Duration;
  readonly wait?: Duration;
  /** Whether something is expected to be seen. */
  readonly expect?: true;
  readonly technician?: true;
  readonly hazards?: readonly string[];
  readonly when?: Partial<Readonly<Record<Outcome, Way>>>;
  readonly otherwise?: Way;
  readonly answers?: readonly { readonly key: string; readonly label: string; readonly way: Way }[];
  /** `then`, or the next step of this rig, or the end. */
  readonly next: Way;
}

export interface WalkValue {
  readonly key: string;
  readonly label: string;
  readonly unit: Unit;
  /** The unit of the other system that a reading may be typed in. */
  readonly otherUnit?: Unit;
  readonly tolerance?: Limits;
  readonly acceptance?: Limits;
  /** Outside these a reading fails for sure; between them and `acceptance` it is too close to call (three zones). */
  readonly failing?: Limits;
  readonly inside?: Limits;
  readonly nominal?: Rational;
  readonly resolution?: Rational;
  /** Expanded uncertainty at the limits, base units. */
  readonly uncertainty?: { readonly low?: Rational; readonly high?: Rational };
  /** Worked out from other values, by key, and from parameters at their middle. */
  readonly derived?: {
    readonly expr: Expr;
    readonly inputs: Readonly<Record<string, string>>;
    readonly parameters: Readonly<Record<string, Rational>>;
  };
  readonly instrument?: string;
  /** What the instrument can show at all. */
  readonly range?: Limits;
  /** The limits that decide and the book's own, as shown. */
  readonly shown: {
    readonly acceptance?: string;
    readonly tolerance?: string;
    readonly inside?: string;
    readonly range?: string;
  };
  /** What the page's gauge shows, in `unit`. */
  readonly gauge?: { readonly from: number; readonly to: number };
}

export interface WalkAdjuster {
  readonly key: string;
  readonly label: string;
  readonly unit: Unit;
  /** Base units, from where it stands at first. */
  readonly range: Limits;
  readonly smallest?: Rational;
  /** Which way is plus, in words. */
  readonly positive?: string;
  /** Value key to its change for one base unit of turn. */
  readonly moves: Readonly<Record<string, { readonly low: Rational; readonly high: Rational }>>;
  readonly watch?: string;
}

export interface WalkWorksheet {
  readonly key: string;
  readonly label: string;
  /** What the calculation core works out. */
  readonly sheet: Sheet;
  /** By column and by result. */
  readonly labels: Readonly<Record<string, string>>;
  /** By column: what there is to choose from in the words of the page, in its order. */
  readonly choices?: Readonly<Record<string, readonly string[]>>;
  /** Limits of results as shown. */
  readonly shown: Readonly<Record<string, string>>;
}

/** A procedure for one kind of rig in one language. */
export interface WalkFile {
  readonly format: 1;
  readonly procedure: string;
  readonly title: string;
  readonly revision: number;
  /** Of the content: another one means that the procedure changed. */
  readonly content: string;
  readonly language: string;
  readonly technician?: true;
  readonly phone: string;
  readonly owner: string;
  /** The conditions to confirm, in words, in the page's order. */
  readonly conditions: readonly string[];
  readonly hazards: Readonly<
    Record<string, { readonly signal: string; readonly kind: string; readonly words: string }>
  >;
  /** The label of the first step. */
  readonly first: string;
  readonly steps: readonly WalkStep[];
  readonly values: readonly WalkValue[];
  readonly adjusters: readonly WalkAdjuster[];
  readonly worksheets: readonly WalkWorksheet[];
  /** The first step of what an end runs, by end. */
  readonly ends: Partial<Readonly<Record<WalkEnd, string>>>;
}
