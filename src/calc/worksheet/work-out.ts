// Works a worksheet out from what is filled in so far: computed columns row by row, results over all whole rows, each with
// its uncertainty, and the verdict once there are rows enough. Exact; says nothing in words.

import type { Verdict } from '../decision-rule.js';
import type { DerivedInput } from '../derived-uncertainty.js';
import { derivedUncertainty } from '../derived-uncertainty.js';
import type { Expr, ExpressionFault } from '../expression/ast.js';
import { evaluate } from '../expression/evaluate.js';
import { namesIn } from '../expression/names.js';
import { substitute } from '../expression/substitute.js';
import { expandedUncertainty } from '../instrument.js';
import type { Limits } from '../limits.js';
import type { Enclosure, Rational } from '../rational.js';
import { add, compare, multiply, rational, zero } from '../rational.js';
import type { Estimate, EstimateText, Judgement } from './judge.js';
import { judgeEstimate, writeEstimate } from './judge.js';
import type { Entry, Sheet, SheetColumn, SheetResult, SheetRow } from './sheet.js';

/** A number that was worked out or read; `why` says in English what left it without a value, as a division by zero. */
export type Worked =
  | { readonly kind: 'empty' }
  | { readonly kind: 'value'; readonly estimate: Estimate; readonly text: EstimateText; readonly judged?: Judgement }
  | { readonly kind: 'no-value'; readonly why: ExpressionFault };

/** One row: which of its written cells are still empty, and what stands in its cells. */
export interface WorkedRow {
  readonly state: 'empty' | 'begun' | 'whole';
  readonly missing: readonly string[];
  /** By column id; choices are left out. */
  readonly cells: ReadonlyMap<string, Worked>;
  /** Readings that the instrument cannot show, by column id. */
  readonly outsideRange: readonly string[];
}

/** Why there is no verdict yet. `rows`: so many whole rows are lacking. */
export type Lack =
  | { readonly kind: 'rows'; readonly count: number }
  | { readonly kind: 'too-many-rows'; readonly count: number }
  | { readonly kind: 'cells'; readonly row: number; readonly columns: readonly string[] }
  | { readonly kind: 'no-value'; readonly id: string; readonly row?: number }
  | { readonly kind: 'outside-range'; readonly row: number; readonly columns: readonly string[] };

/** A worksheet as far as it is filled in. */
export interface WorkedSheet {
  readonly rows: readonly WorkedRow[];
  /** How many rows the results are worked out from. */
  readonly wholeRows: number;
  readonly results: ReadonlyMap<string, Worked>;
  /** The worst of all results and cells with limits; `recorded` where nothing has limits, `unfinished` while anything lacks. */
  readonly verdict: Verdict | 'recorded' | 'unfinished';
  /** On which sides limits are not kept, for branches that ask for low or high. */
  readonly sides: ReadonlySet<'low' | 'high'>;
  readonly lacks: readonly Lack[];
}

/**
 * Works out a worksheet. Rows without any entry count for nothing; results are worked out from the rows in which every
 * written column is filled in, and judged with the others only when no row is half filled and there are `rows.min` of them.
 * Uncertainty: first order, from what each column is read with (two readings by one instrument may share their error) and
 * from parameters that are ranges, as for derived values; a value is worked out at the middle of those.
 */
export function workOutSheet(sheet: Sheet, rows: readonly SheetRow[]): WorkedSheet {
  const formulas = formulasOf(sheet);
  const worked = rows.map((row) => workOutRow(sheet, row, formulas));
  const whole = rows.filter((_, i) => worked[i]?.state === 'whole');
  const results = new Map(
    sheet.results.map((result) => [result.id, workOutResult(sheet, result, { whole, formulas })]),
  );
  const lacks = lacksOf(sheet, worked, results);
  const judgements = [...worked.flatMap(({ cells }) => [...cells.values()]), ...results.values()].flatMap((one) =>
    one.kind === 'value' && one.judged ? [one.judged] : [],
  );
  const sides = judgements.flatMap(({ side }) => side ?? []);
  const verdict = lacks.length > 0 ? 'unfinished' : worstOf(judgements);
  return { rows: worked, wholeRows: whole.length, results, verdict, sides: new Set(sides), lacks };
}

function worstOf(judgements: readonly Judgement[]): Verdict | 'recorded' {
  const has = (outcome: Verdict): boolean => judgements.some((one) => one.outcome === outcome);
  if (judgements.length === 0) return 'recorded';
  return has('fail') ? 'fail' : has('unsure') ? 'unsure' : 'pass';
}

/** Computed columns and results over written columns alone, by id. */
function formulasOf(sheet: Sheet): ReadonlyMap<string, Expr> {
  const formulas = new Map<string, Expr>();
  for (const { id, from } of [...sheet.columns, ...sheet.results])
    if (from) formulas.set(id, substitute(from, formulas));
  return formulas;
}

function isWritten({ from }: SheetColumn): boolean {
  return from === undefined;
}

function numberOf(entry: Entry | undefined): Rational | undefined {
  return typeof entry === 'string' ? undefined : entry;
}

function workOutRow(sheet: Sheet, row: SheetRow, formulas: ReadonlyMap<string, Expr>): WorkedRow {
  const written = sheet.columns.filter(isWritten);
  const missing = written.filter(({ id }) => row.get(id) === undefined).map(({ id }) => id);
  const cells = new Map<string, Worked>();
  for (const column of sheet.columns) {
    if (column.choices) continue;
    const formula = formulas.get(column.id);
    const entry = numberOf(row.get(column.id));
    if (formula) cells.set(column.id, workOutCell(sheet, column, { formula, row }));
    else cells.set(column.id, entry ? readCell(sheet, column, entry) : { kind: 'empty' });
  }
  const state = missing.length === 0 ? 'whole' : missing.length === written.length ? 'empty' : 'begun';
  const outsideRange = written.filter((column) => isBeyondRange(column, numberOf(row.get(column.id))));
  return { state, missing, cells, outsideRange: outsideRange.map(({ id }) => id) };
}

function isBeyondRange({ instrument }: SheetColumn, entry: Rational | undefined): boolean {
  const range = instrument?.range;
  return (
    range !== undefined && entry !== undefined && (compare(entry, range.low) < 0 || compare(entry, range.high) > 0)
  );
}

function readCell(sheet: Sheet, column: SheetColumn, entry: Rational): Worked {
  const uncertainty = column.instrument ? expandedUncertainty(column.instrument, entry) : zero;
  return finish(sheet, column, { value: { low: entry, high: entry }, uncertainty });
}

function workOutCell(sheet: Sheet, column: SheetColumn, of: { formula: Expr; row: SheetRow }): Worked {
  const inputs = new Map<string, DerivedInput>(parameterInputs(sheet));
  for (const written of sheet.columns.filter(isWritten)) {
    const entry = numberOf(of.row.get(written.id));
    if (entry) inputs.set(written.id, inputOf(written, entry));
  }
  if (namesIn(of.formula).some(({ path }) => !inputs.has(path))) return { kind: 'empty' };
  return workOut(sheet, column, { expr: of.formula, inputs });
}

function workOutResult(
  sheet: Sheet,
  result: SheetResult,
  of: { whole: readonly SheetRow[]; formulas: ReadonlyMap<string, Expr> },
): Worked {
  if (of.whole.length === 0) return { kind: 'empty' };
  const inputs = new Map<string, DerivedInput | readonly DerivedInput[]>(parameterInputs(sheet));
  for (const column of sheet.columns.filter(isWritten)) {
    const entries = of.whole.flatMap((row) => numberOf(row.get(column.id)) ?? []);
    if (!column.choices)
      inputs.set(
        column.id,
        entries.map((entry) => inputOf(column, entry)),
      );
  }
  return workOut(sheet, result, { expr: of.formulas.get(result.id) ?? result.from, inputs });
}

function parameterInputs({ parameters }: Sheet): readonly (readonly [string, DerivedInput])[] {
  return parameters.map(([path, range]) => [path, { range }]);
}

function inputOf({ id, instrument, instrumentName }: SheetColumn, entry: Rational): DerivedInput {
  return { range: { low: entry, high: entry }, instrument, instrumentName: instrumentName ?? id };
}

type Inputs = ReadonlyMap<string, DerivedInput | readonly DerivedInput[]>;

function workOut(
  sheet: Sheet,
  of: SheetColumn | SheetResult,
  { expr, inputs }: { readonly expr: Expr; readonly inputs: Inputs },
): Worked {
  const value = evaluate(expr, (path) => middleOf(inputs.get(path)));
  if (!value.ok) return { kind: 'no-value', why: value.fault };
  const uncertainty = derivedUncertainty(expr, inputs);
  if (uncertainty) return finish(sheet, of, { value: value.value, uncertainty });
  const { start, end } = expr;
  return { kind: 'no-value', why: { start, end, message: 'The uncertainty has no bound at these readings' } };
}

function middleOf(input: DerivedInput | readonly DerivedInput[] | undefined): Enclosure | Enclosure[] | undefined {
  if (input === undefined) return undefined;
  if ('range' in input) {
    const middle = multiply(add(input.range.low, input.range.high), rational(1, 2));
    return { low: middle, high: middle };
  }
  return input.map(({ range }) => range);
}

function finish(sheet: Sheet, of: SheetColumn | SheetResult, estimate: Estimate): Worked {
  const limits: Limits | undefined = of.limits;
  const unit = of.unit ?? limits?.unit;
  if (!unit) throw new Error(`Nothing says in which unit ${of.id} is shown`);
  const judged = limits && judgeEstimate(estimate, limits, sheet.decision);
  const shown = { ...(limits && { limits }), ...(judged?.inUse && { inUse: judged.inUse }) };
  return { kind: 'value', estimate, text: writeEstimate(estimate, unit, shown), ...(judged && { judged }) };
}

function lacksOf(
  { rows: { min, max }, columns, results: asked }: Sheet,
  rows: readonly WorkedRow[],
  results: ReadonlyMap<string, Worked>,
): readonly Lack[] {
  const lacks: Lack[] = rows.flatMap((row, i) => lacksOfRow(row, i, columns));
  const whole = rows.filter(({ state }) => state === 'whole').length;
  if (whole < min) lacks.push({ kind: 'rows', count: min - whole });
  if (max !== undefined && whole > max) lacks.push({ kind: 'too-many-rows', count: whole - max });
  for (const { id } of asked) if (results.get(id)?.kind === 'no-value') lacks.push({ kind: 'no-value', id });
  return lacks;
}

function lacksOfRow(row: WorkedRow, index: number, columns: readonly SheetColumn[]): readonly Lack[] {
  if (row.state === 'begun') return [{ kind: 'cells', row: index, columns: row.missing }];
  const outside: readonly Lack[] =
    row.outsideRange.length > 0 ? [{ kind: 'outside-range', row: index, columns: row.outsideRange }] : [];
  const without = columns.filter(({ id }) => row.cells.get(id)?.kind === 'no-value');
  return [...outside, ...without.map(({ id }): Lack => ({ kind: 'no-value', id, row: index }))];
}
