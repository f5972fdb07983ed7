// Worksheets for one rig: columns that are written down or computed, and results over all rows.

import { isDimensionless, sameDimension } from '../calc/dimension.js';
import { formatLimits } from '../calc/display.js';
import type { Expr } from '../calc/expression/ast.js';
import { dimensionOf, type Shape } from '../calc/expression/dimensions.js';
import { joinHyphens } from '../calc/expression/hyphens.js';
import { firstNamesIn } from '../calc/expression/names.js';
import { enclosureOf, type Limits } from '../calc/limits.js';
import type { Rational } from '../calc/rational.js';
import { findUnit, noUnit, type Unit } from '../calc/unit.js';
import type { WrittenExpr } from '../model/numbers.js';
import type { Procedure, Worksheet, WorksheetColumn, WorksheetResult } from '../model/procedure.js';
import type { ResolvedWorksheet } from '../model/resolved.js';
import type { Located } from '../text/source.js';
import { spanWithin } from '../text/source.js';
import { findInstrument } from './instruments.js';
import { findLimits, limitsFrom, parameterLimits, reportFault } from './numbers.js';
import { isParameter } from './parameter-names.js';
import { remember, type Scene } from './scene.js';
import { sayShape, shapeOfLimits, shapeOfUnit } from './shapes.js';
import { wordsFor } from './words.js';

/** A worksheet for the rig; undefined where its rows are no count, which is reported. */
export function findWorksheet(scene: Scene, procedure: Procedure, sheet: Worksheet): ResolvedWorksheet | undefined {
  return remember(scene, { of: procedure.id, key: `worksheet ${procedure.id} ${sheet.id}` }, (own) =>
    resolveWorksheet(own, sheet),
  );
}

/** What the names in a worksheet's expressions stand for. */
interface Sheet {
  /** Ids of all columns and results. */
  readonly names: ReadonlySet<string>;
  /** Those that were worked out so far. One of these without a shape has a fault of its own, or is a choice of words. */
  readonly before: Set<string>;
  readonly results: ReadonlySet<string>;
  readonly choices: ReadonlySet<string>;
  readonly shapes: Map<string, Shape>;
  readonly units: Map<string, Unit>;
  readonly parameters: Map<string, Limits>;
}

function resolveWorksheet(scene: Scene, source: Worksheet): ResolvedWorksheet | undefined {
  const rows = countRows(scene, source);
  if (!rows) return undefined;
  const parameters = new Map<string, Limits>();
  const sheet: Sheet = {
    parameters,
    names: new Set([...source.columns, ...source.results].map(({ id }) => id)),
    before: new Set(),
    results: new Set(source.results.map(({ id }) => id)),
    choices: new Set(source.columns.filter(({ choices }) => choices).map(({ id }) => id)),
    shapes: new Map(),
    units: new Map(),
  };
  const columns = source.columns.map((column) => {
    const resolved = resolveColumn(scene, column, sheet);
    sheet.before.add(column.id);
    return resolved;
  });
  const results = source.results.flatMap((result) => {
    const resolved = resolveResult(scene, result, sheet);
    sheet.before.add(result.id);
    return resolved ?? [];
  });
  return {
    source,
    id: source.id,
    ...(source.label ? { label: wordsFor(scene, source.label) } : {}),
    rows,
    decision: scene.book.settings.decision,
    parameters,
    columns,
    results,
  };
}

function countRows(scene: Scene, source: Worksheet): ResolvedWorksheet['rows'] | undefined {
  const limits = limitsFrom(scene, source.rows, { expected: { dimension: noUnit.dimension } });
  if (!limits) return undefined;
  const whole = (end: Rational | undefined): number | undefined =>
    end && end.den === 1n && end.num > 0n ? Number(end.num) : undefined;
  const min = limits.low ? whole(limits.low) : 1;
  const max = whole(limits.high);
  if (min !== undefined && (!limits.high || max !== undefined)) return { min, ...(max === undefined ? {} : { max }) };
  scene.report({
    code: 'not-a-single-number',
    message: `The rows of \`${source.id}\` are no count: \`${source.rows.source.value.trim()}\``,
    at: source.rows.source.at,
    help: 'Write whole numbers above zero, as in `4 to 8`.',
  });
  return undefined;
}

function resolveColumn(scene: Scene, column: WorksheetColumn, sheet: Sheet): ResolvedWorksheet['columns'][number] {
  const { id, choices, from } = column;
  const said = column.unit && findUnit(column.unit.value);
  // a cell of this row stands for one value; only results see whole columns
  const found = from && deriveCell(scene, from, { sheet, whole: false });
  const instrument = column.readWith && findInstrument(scene, column.readWith.value)?.resolved;
  const unit = said ?? (found && unitFor(found.shape, sheet)) ?? (choices || from ? undefined : noUnit);
  if (found && said && column.unit) requireUnit(scene, { id, shape: found.shape, unit: said, said: column.unit });
  // what is said counts for the rest, so that one slip is one fault
  const shape =
    said && !choices ? shapeOfUnit(said) : (found?.shape ?? (unit && !choices ? shapeOfUnit(unit) : undefined));
  if (shape) sheet.shapes.set(id, shape);
  if (unit) sheet.units.set(id, unit);
  const expected = shape && { ...shape, isWorkedOut: found !== undefined };
  const limits = column.limits && expected && findLimits(scene, column.limits, { expected });
  return {
    id,
    label: wordsFor(scene, column.label),
    ...(unit ? { unit } : {}),
    ...(choices
      ? { choices: choices.map(({ id: choice, label }) => ({ id: choice.value, label: wordsFor(scene, label) })) }
      : {}),
    ...(found ? { from: found.expr } : {}),
    ...(instrument ? { instrument } : {}),
    ...(limits ? { limits: limits.limits, limitsAt: limits.at } : {}),
  };
}

function resolveResult(
  scene: Scene,
  source: WorksheetResult,
  sheet: Sheet,
): ResolvedWorksheet['results'][number] | undefined {
  const found = deriveCell(scene, source.from, { sheet, whole: true });
  if (!found) return undefined;
  sheet.shapes.set(source.id, found.shape);
  const written =
    source.limits && findLimits(scene, source.limits, { expected: { ...found.shape, isWorkedOut: true } });
  const limits = written?.limits;
  const said = source.unit && findUnit(source.unit.value);
  if (said && source.unit) requireUnit(scene, { id: source.id, shape: found.shape, unit: said, said: source.unit });
  const unit = said ?? limits?.unit ?? unitFor(found.shape, sheet);
  if (!unit) {
    if (!source.limits) {
      scene.report({
        code: 'value-without-unit',
        message: `Nothing says in which unit \`${source.id}\` is shown`,
        at: source.at,
        help: 'Add `unit:` or `limits:` with a unit.',
      });
    }
    return undefined;
  }
  return {
    id: source.id,
    label: wordsFor(scene, source.label),
    unit,
    from: found.expr,
    ...(written ? { limits: written.limits, limitsAt: written.at, shown: formatLimits(written.limits) } : {}),
  };
}

/** The unit of the first column that measures the same, or of a bare number. */
function unitFor(shape: Shape, sheet: Sheet): Unit | undefined {
  for (const unit of sheet.units.values()) if (sameDimension(unit.dimension, shape.dimension)) return unit;
  return isDimensionless(shape.dimension) ? noUnit : undefined;
}

interface Cell {
  readonly expr: Expr;
  readonly shape: Shape;
}

function deriveCell(
  scene: Scene,
  from: WrittenExpr,
  { sheet, whole }: { readonly sheet: Sheet; readonly whole: boolean },
): Cell | undefined {
  const expr = joinHyphens(from.expr, {
    isName: (path) => sheet.names.has(path) || isParameter(scene.vocabulary, path),
  });
  let complete = true;
  for (const { path, start, end } of firstNamesIn(expr)) {
    if (sheet.names.has(path)) {
      if (!sheet.shapes.has(path)) complete = false;
      const fault = faultOfName(sheet, path);
      if (fault) reportFault(scene, from.source, { ...fault, start, end });
      continue;
    }
    const limits = parameterLimits(scene, path, { at: spanWithin(from.source, start, end) });
    if (limits && enclosureOf(limits)) sheet.parameters.set(path, limits);
    else complete = false;
    if (limits && !enclosureOf(limits)) {
      reportFault(scene, from.source, {
        code: 'number-without-value',
        message: `\`${path}\` has one limit only and cannot be calculated with`,
        help: 'Give the parameter both ends, or name another.',
        start,
        end,
      });
    }
  }
  if (!complete) return undefined;
  const found = dimensionOf(expr, (path) => {
    const shape = sheet.shapes.get(path);
    return shape ? { ...shape, column: whole && !sheet.results.has(path) } : shapeOfLimits(sheet.parameters.get(path));
  });
  if (found.ok) return { expr, shape: { dimension: found.value.dimension, temperature: found.value.temperature } };
  reportFault(scene, from.source, { code: 'unit-mismatch', ...found.fault });
  return undefined;
}

function faultOfName(
  sheet: Sheet,
  path: string,
): { readonly code: 'number-without-value'; readonly message: string; readonly help: string } | undefined {
  const code = 'number-without-value';
  if (sheet.choices.has(path)) {
    const help = 'Name a column of numbers.';
    return { code, message: `\`${path}\` is a choice of words and cannot be calculated with`, help };
  }
  if (sheet.before.has(path)) return undefined;
  const help = `Write \`${path}\` above it, and let neither follow from the other.`;
  return { code, message: `\`${path}\` has no value yet: it stands at or below what follows from it`, help };
}

interface SaidUnit {
  readonly id: string;
  readonly shape: Shape;
  readonly unit: Unit;
  readonly said: Located<string>;
}

function requireUnit(scene: Scene, { id, shape, unit, said }: SaidUnit): void {
  if (sameDimension(unit.dimension, shape.dimension)) return;
  scene.report({
    code: 'unit-mismatch',
    message: `\`${unit.symbol}\` is no unit of what \`${id}\` comes to, ${sayShape(shape)}`,
    at: said.at,
    help: 'Mend the unit or the expression.',
  });
}
