// What a worksheet is to the calculation core: plain objects and lists alone, so that `writePortable` carries it to a phone.

import type { DecisionRule } from '../decision-rule.js';
import type { Expr } from '../expression/ast.js';
import type { Instrument } from '../instrument.js';
import type { Limits } from '../limits.js';
import type { Enclosure, Rational } from '../rational.js';
import type { Unit } from '../unit-type.js';

export interface SheetColumn {
  readonly id: string;
  /** What its entries are written in; missing where words are chosen. */
  readonly unit?: Unit;
  readonly choices?: readonly string[];
  /** Worked out from other columns of the row, of which computed ones stand before it, and from parameters. */
  readonly from?: Expr;
  /** What its entries are read with; without it they count as exact. */
  readonly instrument?: Instrument;
  /** Columns with the same name are read with the same instrument. */
  readonly instrumentName?: string;
  /** What each of its entries must keep. */
  readonly limits?: Limits;
}

export interface SheetResult {
  readonly id: string;
  readonly unit: Unit;
  /** Over whole columns, parameters, and results that stand before it. */
  readonly from: Expr;
  readonly limits?: Limits;
}

export interface Sheet {
  readonly id: string;
  /** How many rows are filled in. */
  readonly rows: { readonly min: number; readonly max?: number };
  readonly columns: readonly SheetColumn[];
  readonly results: readonly SheetResult[];
  /** Every `machine.x` and `header.x` that the expressions name, in base units. */
  readonly parameters: readonly (readonly [path: string, range: Enclosure])[];
  readonly decision: DecisionRule;
}

/** What a person put into one cell: a number in base units, or the word that was chosen. */
export type Entry = Rational | string;

/** One row as far as it is filled in, by column id. Computed columns have no entries. */
export type SheetRow = ReadonlyMap<string, Entry>;
