// What the records of a book say taken together: what `stepgauge records report --format json` prints, and
// schema/records-report.schema.json explains. No key is null; what is not there is left out.

import type { JobRecord } from './job-record.js';

/** Machine, header, and which version of a page where a procedure has several for them. */
export interface ReportRig {
  readonly machine: string;
  readonly header: string;
  /** As in the page's address: `with-lateral-tilt`. */
  readonly version?: string;
}

/** A number worked out from readings, and the bounds between which the true one lies. */
export interface Bounded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** How well readings keep the limits: nothing claimed, what share is outside, or capability indices. */
export type Keeping =
  | { readonly kind: 'not-claimed'; readonly why: 'no-limits' | 'too-few' }
  | {
      readonly kind: 'share';
      /** Why no index is named: too few for one, not normal, no scatter at all, or faults among them. */
      readonly why: 'few' | 'not-normal' | 'no-scatter' | 'faults';
      readonly outside: number;
      readonly share: Bounded;
    }
  /** `cp` only where there are two limits. `normality` is the corrected statistic of Anderson and Darling. */
  | { readonly kind: 'indices'; readonly cp?: Bounded; readonly cpk: Bounded; readonly normality: number };

/** Readings of one value, as found or as left. Numbers are in the value's unit; faults count and are in no mean. */
export interface Sample {
  readonly count: number;
  readonly pass: number;
  readonly fail: number;
  readonly unsure: number;
  readonly fault: number;
  /** Without limits. */
  readonly recorded: number;
  readonly min?: number;
  readonly max?: number;
  readonly mean?: number;
  readonly standardDeviation?: number;
}

export interface KeepingSample extends Sample {
  readonly keeping: Keeping;
}

/** The limits that readings are compared with here: those that decided the newest reading by the newest revision. */
export interface ReportLimits {
  readonly low?: number;
  readonly high?: number;
  readonly revision: number;
}

export interface ValueReport {
  readonly procedure: string;
  /** Of the procedure, in the book's first language where a record has it so; the label likewise. */
  readonly title: string;
  readonly value: string;
  readonly label: string;
  readonly rig: ReportRig;
  /** Symbol; empty for a count or a ratio. */
  readonly unit: string;
  /** Digits behind the point that were read. */
  readonly decimals: number;
  readonly limits?: ReportLimits;
  /** How many readings were judged by other limits than these. */
  readonly otherLimits: number;
  readonly asFound: KeepingSample;
  readonly asLeft: KeepingSample;
  readonly units: readonly { readonly unit?: string; readonly asFound: Sample; readonly asLeft: Sample }[];
  /** Where all of several readings lie by one limit. */
  readonly near?: { readonly when: 'found' | 'left'; readonly side: 'low' | 'high'; readonly count: number };
}

export interface DriftEnd {
  readonly record: string;
  readonly on: string;
  readonly number: number;
  readonly verdict: JobRecord['readings'][number]['verdict'];
}

/** What happened to a value of one unit between two jobs. */
export interface Drift {
  readonly procedure: string;
  readonly value: string;
  readonly label: string;
  readonly rig: ReportRig;
  readonly unit: string;
  readonly of: string;
  readonly decimals: number;
  readonly left: DriftEnd;
  readonly found: DriftEnd;
  readonly change: number;
  readonly days: number;
  /** Of the engine, where both records say them. */
  readonly hours?: number;
  /** Of the width of the limits, where there are two; with the sign of the change. */
  readonly share?: number;
}

export interface WrongNote {
  readonly procedure: string;
  readonly title: string;
  /** Its label; missing for the page as a whole. */
  readonly step?: string;
  readonly revision: number;
  readonly language: string;
  readonly path: string;
  readonly on: string;
  readonly text: string;
  /** The file that it stands in. */
  readonly file: string;
}

/** A job done with an instrument whose calibration was too long ago then, or is dated after the job. */
export interface DoubtfulInstrument {
  readonly record: string;
  readonly on: string;
  readonly instrument?: string;
  readonly calibrated: string;
  readonly why: 'old' | 'later' | 'no-date';
  /** What was read in that job. */
  readonly values: readonly string[];
}

export interface RecordsReport {
  readonly format: 'stepgauge-records-report';
  readonly version: 1;
  readonly jobs: { readonly count: number; readonly open: number; readonly from?: string; readonly to?: string };
  /** From how many readings on each thing is claimed, and how surely. */
  readonly claims: {
    readonly level: number;
    readonly shareFrom: number;
    readonly indicesFrom: number;
    readonly nearFrom: number;
    readonly nearWithin: number;
    readonly calibratedWithinMonths: number;
  };
  readonly values: readonly ValueReport[];
  readonly drift: readonly Drift[];
  readonly wrong: readonly WrongNote[];
  readonly instruments: readonly DoubtfulInstrument[];
  /** Files of the folder that could not be used. */
  readonly unused: readonly { readonly file: string; readonly why: string }[];
}
