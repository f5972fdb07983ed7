// Written numbers to exact limits for one rig, with every name, dimension and order checked on the way.

import type { Expr, LimitsExpr } from '../calc/expression/ast.js';
import { dimensionOfLimits, type ExpectedShape } from '../calc/expression/dimensions.js';
import { joinHyphens } from '../calc/expression/hyphens.js';
import { firstNamesIn, namesIn } from '../calc/expression/names.js';
import type { Limits } from '../calc/limits.js';
import { resolveLimits } from '../calc/resolve-limits.js';
import type { NumberChoice, WrittenLimits } from '../model/numbers.js';
import { type SourceText, type Span, spanWithin } from '../text/source.js';
import { pickEntry } from './choice.js';
import { reportMisspelt } from './misspelt-parameter.js';
import { fullPath, isParameter, type Owner, splitPath } from './parameter-names.js';
import { headerOf, machineOf, remember, reportDependence, type Scene } from './scene.js';
import { shapeOfLimits } from './shapes.js';

export interface NumberOptions {
  /** Whose file the number stands in: its parameters may then be named without `machine.` or `header.`. */
  readonly owner?: Owner;
  /** What the number is for. */
  readonly expected?: ExpectedShape;
}

/** Limits, and where the entry of the choice that holds is written. */
export interface FoundLimits {
  readonly limits: Limits;
  readonly at: Span;
}

/** The limits that a choice of numbers comes to for the rig; undefined where it has none, which is then reported. */
export function findLimits(scene: Scene, choice: NumberChoice, options: NumberOptions = {}): FoundLimits | undefined {
  const picked = pickEntry(scene, choice);
  const limits = picked && limitsFrom(scene, picked.value, options);
  return picked && limits && { limits, at: picked.value.source.at };
}

/** The limits that a written number comes to for the rig. */
export function limitsFrom(scene: Scene, written: WrittenLimits, options: NumberOptions = {}): Limits | undefined {
  const { source } = written;
  const { owner, expected } = options;
  const expr = joinHyphens(written.expr, { isName: (path) => isParameter(scene.vocabulary, path, owner) });
  const named = parametersNamed(scene, { expr, source }, owner);
  if (!named) return undefined;
  const shape = dimensionOfLimits(expr, (path) => shapeOfLimits(named.get(path)), expected);
  if (!shape.ok) {
    reportFault(scene, source, { code: 'unit-mismatch', ...shape.fault });
    return undefined;
  }
  const temperature = expected?.temperature ?? shape.value.temperature;
  const limits = resolveLimits(expr, (path) => named.get(path), { temperature });
  if (limits.ok) return limits.value;
  if (limits.fault.start === expr.start && limits.fault.end === expr.end) reportEmpty(scene, { expr, source });
  else reportFault(scene, source, { code: 'number-without-value', ...limits.fault });
  return undefined;
}

/** The limits of each parameter that an expression names; undefined where one of them has none. */
export function parametersNamed(
  scene: Scene,
  written: { readonly expr: Expr | LimitsExpr; readonly source: SourceText },
  owner?: Owner,
): ReadonlyMap<string, Limits> | undefined {
  const found = new Map<string, Limits>();
  let complete = true;
  for (const { path, start, end } of firstNamesIn(written.expr)) {
    const limits = parameterLimits(scene, path, {
      at: spanWithin(written.source, start, end),
      ...(owner ? { owner } : {}),
    });
    if (limits) found.set(path, limits);
    else complete = false;
  }
  return complete ? found : undefined;
}

interface CalcFault {
  readonly code: 'unit-mismatch' | 'number-without-value' | 'unreadable-accuracy';
  readonly message: string;
  readonly help?: string;
  readonly start: number;
  readonly end: number;
  readonly rewrites?: readonly string[];
}

/** What to do, where the calculation core says what is wrong alone. */
const mendBy: Readonly<Record<Exclude<CalcFault['code'], 'unit-mismatch'>, string>> = {
  'number-without-value': 'Mend the number, or the parameter that makes it so.',
  'unreadable-accuracy': 'Write it as in `± 0.02 V`, or as in `0.5 % of reading + 2 digits`.',
};

/** Reports what the calculation core found wrong with a text, at the very place in it. */
export function reportFault(scene: Scene, source: SourceText, fault: CalcFault): void {
  const { code, start, end, rewrites } = fault;
  const fixes = rewrites?.map((text) => ({
    title: `Write \`${text}\``,
    safe: false,
    edits: [{ at: source.at, text }],
  }));
  scene.report({
    code,
    message:
      code === 'number-without-value'
        ? `Nothing comes of \`${source.value.trim()}\`: ${decapitalize(fault.message)}`
        : fault.message,
    at: spanWithin(source, start, end),
    help:
      fault.help ?? (code === 'unit-mismatch' ? mendUnit(source.value.slice(start, end), fault.message) : mendBy[code]),
    ...(fixes ? { fixes } : {}),
  });
}

/** `0.7 to 1.0 psi` is shown, so that nobody has to guess which number is meant. */
function mendUnit(written: string, message: string): string {
  const text = written.trim();
  const isShare = message.endsWith('expected number') && /\d\s*[\p{L}°]\S*$/u.test(text);
  const share = isShare ? ' A share is written in %, such as `3 %`.' : '';
  return `Mend the unit of \`${text}\`, or what this number is said to be.${share}`;
}

function decapitalize(text: string): string {
  return text.slice(0, 1).toLowerCase() + text.slice(1);
}

function reportEmpty(scene: Scene, { expr, source }: { readonly expr: LimitsExpr; readonly source: SourceText }): void {
  const text = source.value.trim();
  const at = spanWithin(source, expr.start, expr.end);
  if (expr.kind !== 'range' || namesIn(expr).length > 0) {
    scene.report({
      code: 'limits-empty',
      message: `Nothing lies within \`${text}\`: its lower end comes to more than its upper end`,
      at,
      help: 'Look at the values of the parameters that it names; an end that is a range counts at its narrowing side.',
    });
    return;
  }
  const rewrite = exchanged(expr, source.value);
  scene.report({
    code: 'limits-reversed',
    message: `The lower limit of \`${text}\` is above the upper one`,
    at,
    help: `Exchange the two if that is what was meant${rewrite === undefined ? '' : `, \`${rewrite}\``}, or mend the one that is wrong.`,
    note: 'No reading lies within such limits, so every machine would fail.',
    ...(rewrite === undefined
      ? {}
      : { fixes: [{ title: `Write \`${rewrite}\``, safe: false, edits: [{ at, text: rewrite }] }] }),
  });
}

/** `4.2 to 3.6 V` as `3.6 to 4.2 V`; undefined where it is not as plain as that. */
function exchanged(expr: LimitsExpr & { kind: 'range' }, text: string): string | undefined {
  const number = /^([+-]?[\d.]+)(\s*\S.*)?$/;
  const [, low, lowUnit] = number.exec(text.slice(expr.low.start, expr.low.end)) ?? [];
  const [, high, highUnit] = number.exec(text.slice(expr.high.start, expr.high.end)) ?? [];
  if (low === undefined || high === undefined) return undefined;
  return lowUnit === undefined ? `${high} to ${low}${highUnit ?? ''}` : `${high}${highUnit ?? ''} to ${low}${lowUnit}`;
}

/** Where a name stands, and in whose file. */
interface NamePlace {
  readonly at: Span;
  readonly owner?: Owner;
}

/**
 * What a parameter comes to for the rig. Undefined where this rig has none, where it goes in a circle (both are reported),
 * or where no rig has it (which the check of names reports).
 */
export function parameterLimits(scene: Scene, path: string, place: NamePlace): Limits | undefined {
  if (!isParameter(scene.vocabulary, path, place.owner)) return undefined;
  if (scene.rigless) {
    reportDependence(scene, place.at);
    return undefined;
  }
  const full = fullPath(path, place.owner);
  const [start, id = ''] = splitPath(full);
  const limits =
    start === 'machine' || start === 'header'
      ? heldParameter(scene, { start, id, at: place.at })
      : cropParameter(scene, full);
  if (limits) scene.onParameter?.(full, limits);
  return limits;
}

function cropParameter(scene: Scene, path: string): Limits | undefined {
  const found = scene.vocabulary.crops.get(path);
  const written = found && scene.book.crops.get(found.crop)?.[found.part];
  if (!written) return undefined;
  const { expr, source } = written;
  return limitsFrom(scene, { expr: { kind: 'single', of: expr, start: expr.start, end: expr.end }, source });
}

interface Held {
  readonly start: Owner;
  readonly id: string;
  readonly at: Span;
}

function heldParameter(scene: Scene, { start, id, at }: Held): Limits | undefined {
  const holder = start === 'machine' ? machineOf(scene) : headerOf(scene);
  const parameter = holder.parameters.get(id);
  // what could not be read may be just this one
  if (!parameter && scene.book.unread.has(holder.file)) return undefined;
  if (!parameter) {
    if (reportMisspelt(scene, { owner: start, holder, id, at })) return undefined;
    scene.report({
      code: 'missing-parameter',
      message: `{about} has no parameter \`${id}\``,
      about: holder.id,
      at,
      help: `Add \`${id}\` to the file of the ${start}, or make this a choice that does not name it there.`,
    });
    return undefined;
  }
  const key = `parameter ${holder.id} ${start}.${id}`;
  if (scene.within.includes(key)) {
    reportCircle(scene, key);
    return undefined;
  }
  const inner = withoutRecorder(scene);
  return remember(inner, key, (own) => findLimits(own, parameter.value, { owner: start })?.limits);
}

/** The same scene, in which nobody hears of parameters. */
export function withoutRecorder(scene: Scene): Scene {
  const { onParameter: _, ...rest } = scene;
  return rest;
}

// told from its first member on, so that it is one fault wherever it was met
function reportCircle(scene: Scene, key: string): void {
  const circle = scene.within.slice(scene.within.indexOf(key));
  const start = circle.indexOf([...circle].sort()[0] ?? key);
  const [first = key, ...others] = [...circle.slice(start), ...circle.slice(0, start)];
  const [, holder = '', path = ''] = first.split(' ');
  const [owner, id = ''] = splitPath(path);
  const held = (owner === 'machine' ? scene.book.machines : scene.book.headers).get(holder)?.parameters.get(id);
  if (!held) return;
  const names = [first, ...others, first].map((member) => `\`${member.split(' ')[2]}\``);
  scene.report({
    code: 'circular-parameter',
    message: `A parameter is worked out from itself: ${names.join(' from ')}`,
    at: held.at,
    help: 'Write one of them as a number.',
  });
}
