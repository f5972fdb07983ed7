// A whole book as it was written: what every shared file says, by id.

import type { DecisionRule } from '../calc/decision-rule.js';
import type { Located, SourceText, Span } from '../text/source.js';
import type { Conditions, EndRule, Hazard, Physics, SafetyRule, StateVariable } from './conditions.js';
import type { Agreement, NumberChoice, Parameter, WrittenExpr } from './numbers.js';
import type { Figure, Procedure, Waiver } from './procedure.js';
import type { Choice, Text } from './text.js';

export interface BookSettings {
  readonly title: Text;
  readonly owner: Text;
  readonly phone: Located<string>;
  readonly url: Located<string>;
  readonly languages: readonly string[];
  readonly jobs: readonly { readonly id: Located<string>; readonly label: Text }[];
  readonly units: 'us' | 'si';
  readonly decision: DecisionRule;
  /** Months; missing where the book says none. */
  readonly reviewEvery?: Located<number>;
  /** Days without a look online after which a page says so. */
  readonly staleAfterDays?: Located<number>;
  /** Whether the built site may name customers; it does not where this is missing. */
  readonly showCustomers?: boolean;
  readonly at: Span;
}

export interface Machine {
  readonly id: string;
  readonly file: string;
  readonly name: Text;
  readonly tell?: { readonly text: Text; readonly figure?: Figure };
  readonly headers: readonly Located<string>[];
  readonly options: readonly MachineOption[];
  readonly serials?: { readonly from: string; readonly to?: string; readonly at: Span };
  readonly software: readonly MachineSoftware[];
  readonly words: ReadonlyMap<string, { readonly text: Choice<Text>; readonly at: Span }>;
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly agree: readonly Agreement[];
  readonly at: Span;
}

export interface MachineOption {
  readonly id: string;
  /** `standard`: every one has it; `optional`: some have. */
  readonly is: 'standard' | 'optional';
  readonly label?: Text;
  readonly tell?: { readonly text: Text; readonly figure?: Figure };
  readonly at: Span;
}

/** A kind of software of a machine: the display's, say. */
export interface MachineSoftware {
  readonly module: Located<string>;
  /** The oldest first. */
  readonly versions: readonly Located<string>[];
  /** Where a person reads the version. */
  readonly tell?: { readonly text: Text; readonly figure?: Figure };
}

export interface Header {
  readonly id: string;
  readonly file: string;
  readonly name: Text;
  readonly type: Located<string>;
  readonly tell?: { readonly text: Text; readonly figure?: Figure };
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly agree: readonly Agreement[];
  readonly at: Span;
}

export interface Instrument {
  readonly id: string;
  readonly label: Text;
  readonly quantity: Located<string>;
  readonly range?: NumberChoice;
  readonly resolution?: NumberChoice;
  /** Steps of the resolution in the range, where they are given as well. */
  readonly counts?: Located<number>;
  /** The text of the accuracy; parsed by calc's accuracy reader where it is used. */
  readonly accuracy?: Choice<SourceText>;
  readonly builtIn: boolean;
  readonly readAt?: Located<string>;
  readonly needs?: Conditions;
  readonly at: Span;
}

export interface Tool {
  readonly id: string;
  readonly label: Text;
  readonly at: Span;
}

/** Another word for a term, and the language that it belongs to. */
export interface TermWord extends Located<string> {
  readonly language: string;
}

export interface Term {
  readonly use: ReadonlyMap<string, Located<string>>;
  readonly also: readonly TermWord[];
  readonly never: readonly TermWord[];
  readonly at: Span;
}

export interface Crop {
  readonly id: string;
  readonly label: Text;
  readonly mass?: WrittenExpr;
  readonly baseMoisture?: WrittenExpr;
  readonly origin?: Text;
  readonly at: Span;
}

export interface FleetUnit {
  readonly id: Located<string>;
  readonly customer?: Located<string>;
  readonly machine: Located<string>;
  readonly serial?: Located<string>;
  readonly software: readonly { readonly module?: Located<string>; readonly version: Located<string> }[];
  readonly options: readonly Located<string>[];
  /** Whether the file says which options it has, be it none; where it does not, they are not known. */
  readonly optionsSaid: boolean;
  readonly headers: readonly { readonly header: Located<string>; readonly serial?: Located<string> }[];
  readonly at: Span;
}

/** A printed card that was given to somebody. It says what was true then: the book may have none of its names any more. */
export interface IssuedCard {
  readonly code: Located<string>;
  readonly procedure: Located<string>;
  readonly revision: Located<number>;
  readonly language: Located<string>;
  /** As they are written: `tarn-40+row-12x20`. */
  readonly rigs: readonly Located<string>[];
  /** Of all that stands on it but its revision and dates. */
  readonly printed: Located<string>;
  /** Of the procedure as it was for these rigs. */
  readonly content: Located<string>;
  readonly unit?: Located<string>;
  readonly place?: Located<string>;
  readonly on: Located<string>;
  readonly at: Span;
}

/** Everything a book says, as far as it could be read. */
export interface Book {
  readonly settings: BookSettings;
  readonly machines: ReadonlyMap<string, Machine>;
  readonly headers: ReadonlyMap<string, Header>;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly tools: ReadonlyMap<string, Tool>;
  readonly crops: ReadonlyMap<string, Crop>;
  readonly states: ReadonlyMap<string, StateVariable>;
  readonly events: ReadonlyMap<string, { readonly id: string; readonly label: Text; readonly at: Span }>;
  readonly physics: readonly Physics[];
  readonly hazards: ReadonlyMap<string, Hazard>;
  readonly bundles: ReadonlyMap<string, { readonly id: string; readonly conditions: Conditions; readonly at: Span }>;
  readonly rules: readonly SafetyRule[];
  readonly ends: ReadonlyMap<'stop' | 'call-service', EndRule>;
  readonly terms: readonly Term[];
  readonly fleet: readonly FleetUnit[];
  /** The register of printed cards, as the file has them. */
  readonly issued: readonly IssuedCard[];
  readonly procedures: ReadonlyMap<string, Procedure>;
  /** Paths below the book of everything under `figures/`. */
  readonly figures: ReadonlySet<string>;
  /** Waivers outside procedures. */
  readonly waivers: readonly Waiver[];
  /** Files that could not be read whole: what uses them is not proved. */
  readonly unread: ReadonlySet<string>;
}
