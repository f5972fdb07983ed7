// The compiled book as plain data: what `data/book.json` and a release hold. schema/compiled-book.schema.json says the same
// with an explanation of every key. No key is null; what is not there is left out.

import type { DecisionRule } from '../calc/decision-rule.js';
import type { Severity } from './conditions.js';
import type { ProcedureKind, ReadingOutcome, Skill, Status } from './procedure.js';
import type { End, SerialEnd } from './resolved.js';
import type { Words } from './text.js';

export interface PlainUnit {
  readonly symbol: string;
  readonly ucum?: string;
}

/** Limits in the unit they are read in, as they are shown, and their ends as exact fractions in base units. */
export interface PlainLimits {
  readonly low?: number;
  readonly high?: number;
  readonly unit: PlainUnit;
  readonly shown: string;
  readonly exact: PlainEnds;
}

/** Ends as fractions (`18/5`) in coherent base units: equal limits have equal ends, however they are written. */
export interface PlainEnds {
  readonly low?: string;
  readonly high?: string;
}

/** A number as its author wrote it; the ends are missing where it names other numbers. */
export interface PlainWritten {
  /** The choices that lead to it: machines, headers, options, versions; empty where there is one for all. */
  readonly keys: readonly string[];
  readonly text: string;
  readonly exact?: PlainEnds;
}

export interface PlainParameter {
  readonly id: string;
  readonly label?: Words;
  readonly source?: Words;
  readonly values: readonly PlainWritten[];
}

/** What one machine calls something, by the choices that lead to it. */
export interface PlainWord {
  readonly id: string;
  readonly words: readonly { readonly keys: readonly string[]; readonly language: string; readonly text: string }[];
}

export interface PlainTell {
  readonly text: PlainWord['words'];
  readonly figure?: string;
}

export interface PlainMachine {
  readonly id: string;
  readonly name: Words;
  readonly tell?: PlainTell;
  readonly headers: readonly string[];
  readonly options: readonly {
    readonly id: string;
    readonly is: 'standard' | 'optional';
    readonly label?: Words;
    readonly tell?: PlainTell;
  }[];
  readonly serials?: { readonly from: string; readonly to?: string };
  readonly software: Readonly<Record<string, readonly string[]>>;
  /** How to tell the version, by the kind of software. */
  readonly softwareTells?: Readonly<Record<string, PlainTell>>;
  readonly words: readonly PlainWord[];
  readonly parameters: readonly PlainParameter[];
}

export interface PlainHeader {
  readonly id: string;
  readonly name: Words;
  readonly type: string;
  readonly tell?: PlainTell;
  readonly parameters: readonly PlainParameter[];
}

export interface PlainCondition {
  readonly state: string;
  /** Neither this nor `limits`: unknown. */
  readonly is?: readonly string[];
  readonly limits?: PlainLimits;
  readonly bundle?: string;
}

export interface PlainState {
  readonly id: string;
  readonly label: Words;
  readonly values: readonly { readonly id: string; readonly label?: Words }[];
  readonly quantity?: string;
  readonly start?: string;
  readonly restore: boolean;
  readonly safe?: string;
  readonly movesWhen: readonly PlainCondition[];
}

export interface PlainHazard {
  readonly id: string;
  readonly severity: Severity;
  /** One for all rigs, or one for each machine and header. */
  readonly texts: readonly {
    readonly machine?: string;
    readonly header?: string;
    readonly what: Words;
    readonly harm: Words;
    readonly avoid: Words;
  }[];
}

export interface PlainRule {
  readonly id: string;
  readonly label?: Words;
  readonly when: readonly PlainCondition[];
  readonly must: readonly PlainCondition[];
  readonly unchanged: readonly string[];
  readonly hazard?: string;
  readonly exceptEnergized: boolean;
  readonly source?: Words;
}

export interface PlainInstrument {
  readonly id: string;
  readonly label: Words;
  readonly quantity: string;
  readonly range: readonly PlainWritten[];
  readonly resolution: readonly PlainWritten[];
  readonly accuracy: readonly { readonly keys: readonly string[]; readonly text: string }[];
  readonly counts?: number;
  readonly builtIn: boolean;
  readonly readAt?: string;
}

export interface PlainBranch {
  readonly go: string;
  readonly because?: Words;
  readonly means?: readonly PlainCondition[];
  readonly atMost?: number;
  readonly else?: PlainBranch;
}

export interface PlainValue {
  readonly id: string;
  readonly label: Words;
  readonly quantity?: string;
  readonly unit: PlainUnit;
  /** In use. */
  readonly limits?: PlainLimits;
  readonly bookLimits?: PlainLimits;
  readonly otherUnits?: string;
  readonly band?: PlainLimits;
  readonly nominal?: PlainLimits;
  readonly resolution?: number;
  /** The same as a fraction in base units. */
  readonly exactResolution?: string;
  readonly instrument?: { readonly id: string; readonly label: Words; readonly builtIn: boolean };
  readonly readAt?: string;
  readonly needs: readonly PlainCondition[];
  readonly from?: string;
  readonly inputs?: readonly string[];
  readonly decision: DecisionRule;
  readonly source?: Words;
}

export interface PlainAdjuster {
  readonly id: string;
  readonly label: Words;
  readonly range: PlainLimits;
  readonly smallest?: string;
  readonly exactSmallest?: string;
  readonly positive?: Words;
  readonly moves: readonly string[];
  /** How far one unit of turn moves each of these, in base units of both, as bounds. */
  readonly effects: readonly {
    readonly value: string;
    readonly low: string;
    readonly high: string;
    readonly shown: string;
  }[];
  readonly watch?: string;
}

export interface PlainWorksheet {
  readonly id: string;
  readonly label?: Words;
  readonly rows: { readonly min: number; readonly max?: number };
  readonly decision: DecisionRule;
  readonly columns: readonly {
    readonly id: string;
    readonly label: Words;
    readonly unit?: PlainUnit;
    readonly choices?: readonly string[];
    /** What pages call them, in their order. */
    readonly choiceLabels?: readonly Words[];
    readonly from?: string;
    readonly limits?: PlainLimits;
    readonly instrument?: { readonly id: string; readonly label: Words; readonly builtIn: boolean };
  }[];
  readonly results: readonly {
    readonly id: string;
    readonly label: Words;
    readonly unit: PlainUnit;
    readonly from?: string;
    readonly limits?: PlainLimits;
  }[];
}

export interface PlainStep {
  readonly id: string;
  readonly number: string;
  readonly do?: Words;
  readonly ask?: Words;
  readonly card?: Words;
  readonly note?: Words;
  readonly expect?: Words;
  readonly figure?: { readonly file: string; readonly alt: Words };
  readonly hazards?: readonly string[];
  readonly skill: Skill;
  readonly by: number;
  readonly at?: string;
  readonly needs?: readonly PlainCondition[];
  readonly sets?: readonly PlainCondition[];
  readonly measure?: readonly string[];
  readonly write?: readonly string[];
  readonly adjust?: readonly string[];
  readonly stale?: readonly string[];
  readonly mark?: readonly string[];
  readonly photo?: string;
  readonly hold?: PlainLimits;
  readonly wait?: PlainLimits;
  readonly run?: PlainProcedure;
  readonly energized?: { readonly why: Words; readonly keepAway?: Words; readonly secondPerson?: Words };
  readonly otherwise?: PlainBranch;
  readonly when?: Readonly<Partial<Record<ReadingOutcome, PlainBranch>>>;
  readonly answers?: readonly ({ readonly key: string; readonly label: Words } & PlainBranch)[];
  readonly then?: PlainBranch;
}

export interface PlainSection {
  readonly heading?: string;
  readonly depth?: number;
  readonly step?: string;
  readonly markdown: string;
}

export interface PlainProcedure {
  readonly id: string;
  readonly title: Words;
  readonly summary: Words;
  readonly kind: ProcedureKind;
  readonly job: string;
  readonly revision: number;
  readonly status: Status;
  readonly reviewed?: { readonly on?: string; readonly by?: string; readonly next?: string };
  readonly verified: readonly {
    readonly machine: string;
    readonly how: 'desk' | 'on-machine' | 'both';
    readonly by: string;
    readonly on: string;
  }[];
  readonly skill: Skill;
  readonly people: number;
  readonly time?: { readonly total?: string; readonly handsOn?: string; readonly waiting?: string };
  readonly tools: readonly { readonly id: string; readonly label: Words }[];
  readonly supplies: readonly Words[];
  readonly hazards: readonly string[];
  readonly gives?: string;
  readonly voidedBy: readonly string[];
  readonly due?: { readonly every: 'season' | 'h' | 'ac' | 'months'; readonly count?: number };
  readonly requires: readonly {
    readonly condition: PlainCondition;
    readonly words: Words;
    readonly throughout: boolean;
    readonly shownBy?: Words;
    readonly ifMissed?: Words;
  }[];
  readonly values: readonly PlainValue[];
  readonly adjusters: readonly PlainAdjuster[];
  readonly worksheets: readonly PlainWorksheet[];
  readonly steps: readonly PlainStep[];
  readonly anyOrder: readonly (readonly string[])[];
  readonly leaves: Readonly<Partial<Record<End, readonly PlainCondition[]>>>;
  readonly prose: Readonly<Record<string, readonly PlainSection[]>>;
}

/** A rig in parts; what makes no difference is left out. */
export interface PlainRig {
  readonly machine: string;
  readonly header: string;
  readonly options: Readonly<Record<string, boolean>>;
  readonly software: Readonly<Record<string, readonly string[]>>;
  readonly serials?: { readonly from?: SerialEnd; readonly to?: SerialEnd };
}

export interface PlainVariant {
  readonly id: string;
  readonly hash: string;
  /** The rigs as they are written. */
  readonly rigs: readonly string[];
  /** The same rigs in parts. */
  readonly applies: readonly PlainRig[];
  readonly pages: readonly {
    readonly machine: string;
    readonly header: string;
    readonly path: string;
    readonly code: string;
  }[];
  /** The printed cards, by machine: what their codes lead to. */
  readonly cards: readonly { readonly machine: string; readonly code: string }[];
  readonly procedure: PlainProcedure;
  readonly ends: readonly { readonly ends: readonly End[]; readonly procedure: PlainProcedure }[];
}

/** A whole book. */
export interface CompiledBook {
  readonly format: 'stepgauge-book';
  readonly version: 1;
  readonly title: Words;
  readonly owner: Words;
  readonly phone: string;
  readonly url: string;
  readonly languages: readonly string[];
  readonly units: 'us' | 'si';
  readonly decision: DecisionRule;
  readonly jobs: readonly { readonly id: string; readonly label: Words }[];
  readonly machines: readonly PlainMachine[];
  readonly headers: readonly PlainHeader[];
  readonly instruments: readonly PlainInstrument[];
  readonly tools: readonly { readonly id: string; readonly label: Words }[];
  readonly crops: readonly {
    readonly id: string;
    readonly label: Words;
    readonly mass?: string;
    readonly baseMoisture?: string;
    readonly source?: Words;
  }[];
  readonly states: readonly PlainState[];
  readonly events: readonly { readonly id: string; readonly label: Words }[];
  readonly physics: readonly {
    readonly when: readonly PlainCondition[];
    readonly then: readonly PlainCondition[];
  }[];
  readonly conditions: readonly { readonly id: string; readonly conditions: readonly PlainCondition[] }[];
  readonly rules: readonly PlainRule[];
  readonly ends: readonly { readonly id: string; readonly run?: string; readonly must: readonly PlainCondition[] }[];
  readonly hazards: readonly PlainHazard[];
  readonly terms: readonly {
    readonly use: Words;
    readonly also: readonly string[];
    readonly never: readonly string[];
  }[];
  /** Pictures by their file, as digests of their bytes. */
  readonly figures: Readonly<Record<string, string>>;
  readonly variants: readonly PlainVariant[];
}
