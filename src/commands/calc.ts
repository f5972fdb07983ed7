// `stepgauge calc`: one expression with units and ranges to its value, its sharp range, and where that comes from. Pure:
// arguments in, text and exit code out.

import { describeDimension } from '../calc/dimension.js';
import type { Expr, ExpressionFault, LimitsExpr, Parsed } from '../calc/expression/ast.js';
import { adviseDimension } from '../calc/expression/dimension-advice.js';
import type { Shape } from '../calc/expression/dimensions.js';
import { describeShape, dimensionOf, dimensionOfLimits, oneShape } from '../calc/expression/dimensions.js';
import { namesIn } from '../calc/expression/names.js';
import { parseExpression, parseLimits, whyNoName } from '../calc/expression/parse.js';
import type { SharpRange } from '../calc/expression/range.js';
import { rangeOf } from '../calc/expression/range.js';
import type { Limits } from '../calc/limits.js';
import { enclosureOf } from '../calc/limits.js';
import { formatExact, numberIn } from '../calc/precise.js';
import { equals } from '../calc/rational.js';
import { resolveLimits } from '../calc/resolve-limits.js';
import { unitOfResult } from '../calc/result-unit.js';
import type { Unit } from '../calc/unit.js';
import { asDifference, findUnit, isConvertible, nearestUnits, noUnit } from '../calc/unit.js';
import { type Effects, effectsOf, explain } from './calc-explain.js';

/** What stands on the command line. */
export interface CalcArguments {
  readonly expression: string;
  readonly to?: string;
  /** Each `NAME=LIMITS`. */
  readonly let?: readonly string[];
  readonly format?: string;
  readonly explain?: boolean;
}

/** What is printed, and the exit code: 0, 1 wrong expression, 2 misuse. */
export interface CalcResult {
  readonly text: string;
  readonly exit: 0 | 1 | 2;
}

/** A fault and the text that it stands in. */
interface Wrong {
  readonly text: string;
  readonly fault: ExpressionFault;
}

interface Answer {
  /** What was calculated, without the unit that it was asked for in. */
  readonly text: string;
  readonly expr: Expr | undefined;
  readonly shape: Shape;
  readonly unit: Unit;
  /** Ends may be missing where limits with one side were given. */
  readonly range: Partial<SharpRange['outer']>;
  readonly sharp: SharpRange | undefined;
  readonly single: boolean;
}

type Untitled = Omit<Answer, 'text'>;

/** Calculates what the arguments say. */
export function runCalc(args: CalcArguments): CalcResult {
  const json = args.format === 'json';
  const lets = readLets(args.let ?? []);
  if ('wrong' in lets) return failed(lets.wrong, json);
  const answer = calculate(args, lets.names);
  if ('fault' in answer) return failed(answer, json);
  const effects = args.explain && answer.expr ? effectsOf(answer.expr, answer.text, lets.names) : { inputs: [] };
  return {
    exit: 0,
    text: json ? asJson(answer, args, effects) : asText(answer, args, { names: lets.names, effects }),
  };
}

type Names = ReadonlyMap<string, Limits>;

function readLets(lets: readonly string[]): { names: Names } | { wrong: Wrong } {
  const names = new Map<string, Limits>();
  for (const text of lets) {
    const equals = text.indexOf('=');
    const name = text.slice(0, Math.max(equals, 0)).trim();
    const fail = (fault: ExpressionFault): { wrong: Wrong } => ({ wrong: { text, fault } });
    if (equals < 0)
      return fail({
        start: 0,
        end: text.length,
        message: `\`${text}\` gives no name a value`,
        help: 'Write `--let NAME=LIMITS`, as in `--let "x=0 to 1"`.',
      });
    const why = name
      .split('.')
      .map(whyNoName)
      .find((reason) => reason !== undefined);
    if (why) return fail({ start: 0, end: equals, message: `\`${name}\` cannot be a name: ${why}` });
    if (names.has(name)) return fail({ start: 0, end: equals, message: `\`${name}\` has a value already` });
    const limits = readLimits(text.slice(equals + 1), names);
    if (!limits.ok) return fail(shift(limits.fault, equals + 1));
    names.set(name, limits.value);
  }
  return { names };
}

function shift(fault: ExpressionFault, by: number): ExpressionFault {
  return { ...fault, start: fault.start + by, end: fault.end + by };
}

function readLimits(text: string, names: Names): Parsed<Limits> {
  const parsed = parseLimits(text, { calc: true, isName: (path) => names.has(path) });
  if (!parsed.ok) return parsed;
  const shape = dimensionOfLimits(parsed.value, (path) => shapeOf(names.get(path)));
  return shape.ok ? resolveLimits(parsed.value, (path) => names.get(path)) : shape;
}

function shapeOf(limits: Limits | undefined): Shape | undefined {
  if (!limits) return undefined;
  const { dimension, offset } = limits.unit;
  return offset ? { dimension, temperature: 'point' } : { dimension };
}

/** `2500 psi to bar` asks for another unit as `--to bar` does. */
function splitQuestion({ expression, to }: CalcArguments): { readonly text: string; readonly to?: string } {
  const asked = /^(.*\S)\s+to\s+(\S.*?)\s*$/u.exec(expression);
  const [, text = '', unit = ''] = asked ?? [];
  if (to !== undefined) return { text: expression, to };
  return asked && unitAsked(unit) ? { text, to: unit } : { text: expression };
}

function unitAsked(text: string): Unit | undefined {
  return findUnit(text) ?? feetAndInches(text);
}

function calculate(args: CalcArguments, names: Names): Answer | Wrong {
  const { text, to } = splitQuestion(args);
  const isName = (path: string): boolean => names.has(path);
  const expression = parseExpression(text, { calc: true, isName });
  const limits = expression.ok ? undefined : parseLimits(text, { calc: true, isName });
  if (!expression.ok && (!limits?.ok || limits.value.kind === 'single')) {
    const readAsLimits =
      limits &&
      !limits.ok &&
      (limits.fault.rewrites || (!expression.fault.rewrites && /±|\+\/|\bto\b|^\s*at\b/.test(text)));
    return { text, fault: readAsLimits ? limits.fault : expression.fault };
  }
  const found = expression.ok
    ? answerExpression(expression.value, names)
    : answerLimits((limits as { value: LimitsExpr }).value, names);
  if ('fault' in found) return { text, fault: found.fault };
  const answer = { ...found, text };
  return to === undefined ? answer : convert(answer, to);
}

function answerExpression(expr: Expr, names: Names): Untitled | { fault: ExpressionFault } {
  const unknown = namesIn(expr).find(({ path }) => !names.has(path));
  if (unknown) {
    const { start, end, path } = unknown;
    return {
      fault: { start, end, message: `\`${path}\` has no value`, help: `Give it one with \`--let "${path}=…"\`.` },
    };
  }
  const shape = dimensionOf(expr, (path) => shapeOf(names.get(path)));
  if (!shape.ok) return shape;
  const oneSided = namesIn(expr).find(({ path }) => !enclosureOf(names.get(path) as Limits));
  if (oneSided)
    return {
      fault: {
        start: oneSided.start,
        end: oneSided.end,
        message: `\`${oneSided.path}\` has one limit only and cannot be calculated with`,
        help: 'Give it both ends.',
      },
    };
  const range = rangeOf(expr, (path) => rangeOfName(path, names));
  if (!range.ok) return range;
  const unit = unitOfResult(expr, (path) => names.get(path)?.unit);
  const fitting = shape.value.temperature === 'point' ? pointUnit(expr, names, unit) : unit;
  return {
    expr,
    shape: shape.value,
    unit: fitting,
    range: range.value.outer,
    sharp: range.value,
    single: isSingleValued(expr, names),
  };
}

function rangeOfName(path: string, names: Names): SharpRange['outer'] | undefined {
  const limits = names.get(path);
  return limits && enclosureOf(limits);
}

// a mean of temperatures is a point again, in the unit of its first
function pointUnit(expr: Expr, names: Names, unit: Unit): Unit {
  const [first] = namesIn(expr);
  const named = first && names.get(first.path)?.unit;
  return named?.offset ? named : (findUnit(unit.symbol) ?? unit);
}

function isSingleValued(expr: Expr, names: Names): boolean {
  const ranged = namesIn(expr).some(({ path }) => {
    const range = rangeOfName(path, names);
    return range === undefined || !equals(range.low, range.high);
  });
  return !ranged && !hasWrittenRange(expr);
}

function hasWrittenRange(expr: Expr): boolean {
  switch (expr.kind) {
    case 'around':
    case 'range':
      return true;
    case 'negate':
    case 'in-unit':
      return hasWrittenRange(expr.of);
    case 'binary':
      return hasWrittenRange(expr.left) || hasWrittenRange(expr.right);
    case 'call':
      return expr.args.some(hasWrittenRange);
    default:
      return false;
  }
}

function answerLimits(limits: LimitsExpr, names: Names): Untitled | { fault: ExpressionFault } {
  const shape = dimensionOfLimits(limits, (path) => shapeOf(names.get(path)));
  if (!shape.ok) return shape;
  const found = resolveLimits(limits, (path) => names.get(path));
  if (!found.ok) return found;
  const { low, high, unit } = found.value;
  const both = enclosureOf(found.value);
  const sharp = both && { outer: both, attained: both, proved: true };
  return {
    expr: undefined,
    shape: shape.value,
    unit,
    range: { ...(low && { low }), ...(high && { high }) },
    sharp,
    single: false,
  };
}

function convert(answer: Answer, to: string): Answer | Wrong {
  const whole = { start: 0, end: to.length };
  const unit = unitAsked(to.trim());
  if (!unit) {
    const near = nearestUnits(to.trim()).map((symbol) => `\`${symbol}\``);
    return {
      text: to,
      fault: {
        ...whole,
        message: `\`${to}\` is no unit`,
        ...(near.length > 0 && { help: `Write ${near.join(' or ')}.` }),
      },
    };
  }
  if (!isConvertible(answer.unit, unit)) {
    return {
      text: to,
      fault: {
        ...whole,
        message: `The result is ${oneShape(answer.shape)}, \`${to}\` is a unit of ${describeDimension(unit.dimension)}`,
        ...adviseDimension(answer.shape, unit),
      },
    };
  }
  const difference =
    answer.shape.temperature === 'difference' || (answer.shape.temperature === undefined && !unit.offset);
  // shown as it was asked for: `m^2` stays `m^2`
  const shown = unit.over ? unit : { ...unit, symbol: to.trim() };
  return { ...answer, unit: difference ? asDifference(shown) : shown };
}

function feetAndInches(text: string): Unit | undefined {
  const [feet, inches] = [findUnit('ft'), findUnit('in')];
  return /^ft\s+in$/.test(text) && feet && inches ? { ...inches, symbol: 'ft in', over: feet } : undefined;
}

function failed({ text, fault }: Wrong, json: boolean): CalcResult {
  if (json) return { exit: 1, text: `${JSON.stringify({ error: { text, ...fault } }, null, 2)}\n` };
  const width = Math.max(1, Math.min(fault.end, text.length) - fault.start);
  // one line, so that the marks stand under what they mark
  const line = text.replaceAll(/[\r\n\t]/g, ' ');
  const lines = [`error: ${fault.message}`, `  ${line}`, `  ${' '.repeat(fault.start)}${'^'.repeat(width)}`];
  if (fault.help) lines.push(`help: ${fault.help}`);
  for (const rewrite of fault.rewrites ?? []) lines.push(`      ${rewrite}`);
  return { exit: 1, text: `${lines.join('\n')}\n` };
}

function asJson(answer: Answer, args: CalcArguments, { inputs, estimate }: Effects): string {
  const { range, unit, single, sharp } = answer;
  const low = range.low ? numberIn(range.low, unit, 'down') : null;
  const high = range.high ? numberIn(range.high, unit, 'up') : null;
  const value = single && range.low ? numberIn(range.low, unit, 'nearest') : null;
  const explanation = {
    dimension: describeShape(answer.shape),
    proved: sharp?.proved ?? true,
    ...(sharp && {
      attained: { low: numberIn(sharp.attained.low, unit, 'up'), high: numberIn(sharp.attained.high, unit, 'down') },
    }),
    inputs: inputs.map(({ name, range: input, slope }) => ({
      name,
      low: numberIn(input.low, noUnit, 'down'),
      high: numberIn(input.high, noUnit, 'up'),
      slope: slope ? { low: numberIn(slope.low, noUnit, 'down'), high: numberIn(slope.high, noUnit, 'up') } : null,
    })),
    ...(estimate && {
      middle: numberIn(estimate.value.low, unit, 'nearest'),
      expandedUncertainty: numberIn(estimate.uncertainty, asDifference(unit), 'up'),
    }),
  };
  const result = { value, low, high, unit: unit.symbol, ...(args.explain && { explain: explanation }) };
  return `${JSON.stringify(result, null, 2)}\n`;
}

function asText(answer: Answer, args: CalcArguments, more: { names: Names; effects: Effects }): string {
  const lines = [formatExact(answer.range, answer.unit, answer.single)];
  const { sharp } = answer;
  if (sharp && !sharp.proved)
    lines.push(`not proved to be sharp; reached for sure: ${formatExact(sharp.attained, answer.unit, false)}`);
  if (args.explain) lines.push(...explain(answer, more));
  return `${lines.join('\n')}\n`;
}
