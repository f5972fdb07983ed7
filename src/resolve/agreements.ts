// Parameters that must fit each other (`agree`), worked out for one rig and held against each other.

import { isDimensionless, sameDimension } from '../calc/dimension.js';
import { formatEnclosure, formatLimits, type Look } from '../calc/display.js';
import { dimensionOf, type Shape } from '../calc/expression/dimensions.js';
import { joinHyphens } from '../calc/expression/hyphens.js';
import { rangeOf } from '../calc/expression/range.js';
import { enclosureOf, type Limits } from '../calc/limits.js';
import {
  absolute,
  add,
  compare,
  divide,
  type Enclosure,
  larger,
  multiply,
  type Rational,
  rational,
  subtract,
  zero,
} from '../calc/rational.js';
import { noUnit } from '../calc/unit.js';
import type { Agreement, WrittenExpr, WrittenLimits } from '../model/numbers.js';
import { spanWithin } from '../text/source.js';
import type { Fault } from './faults.js';
import { limitsFrom, parametersNamed, reportFault } from './numbers.js';
import { fullPath, isParameter, type Owner, splitPath } from './parameter-names.js';
import { headerOf, machineOf, type Scene } from './scene.js';
import { sayShape, shapeOfLimits } from './shapes.js';

/** One side of an agreement for the rig. */
interface Side {
  readonly written: WrittenExpr;
  readonly shape: Shape;
  /** All values that it can have while each parameter runs through its range. */
  readonly range: Enclosure;
  /** How the first parameter in it that measures the same is written. */
  readonly look?: Look;
  /** Each parameter in it, with what it comes to. */
  readonly named: ReadonlyMap<string, Limits>;
}

/** Reports an agreement whose sides are of different kinds, or further apart than it allows whatever their parameters are. */
export function checkAgreement(scene: Scene, agreement: Agreement, owner: Owner): void {
  if (agreement.limits) checkEnds(scene, { ...agreement, limits: agreement.limits }, owner);
  if (!agreement.equals) return;
  const that = workOut(scene, agreement.that, owner);
  const equals = workOut(scene, agreement.equals, owner);
  const within = agreement.within && workOut(scene, agreement.within, owner);
  if (!that || !equals || (agreement.within && !within)) return;
  if (!sameDimension(that.shape.dimension, equals.shape.dimension)) reportKinds(scene, that, equals);
  else {
    const allowed = allowedBy(scene, that, { equals, within });
    if (allowed) hold(scene, agreement.within, { that, equals, allowed, owner });
  }
}

/** Holds a number that has limits against the same limits written another way, end by end. */
function checkEnds(scene: Scene, agreement: Agreement & { readonly limits: WrittenLimits }, owner: Owner): void {
  const { that, limits, within } = agreement;
  const single = {
    expr: { kind: 'single', of: that.expr, start: that.expr.start, end: that.expr.end } as const,
    source: that.source,
  };
  const own = limitsFrom(scene, single, { owner });
  const other = limitsFrom(scene, limits, { owner });
  const share = within && workOut(scene, within, owner);
  if (!own || !other || (within && !share)) return;
  if (!sameDimension(own.unit.dimension, other.unit.dimension)) {
    scene.report({
      code: 'unit-mismatch',
      message: `\`${that.source.value.trim()}\` is in ${own.unit.symbol || 'no unit'}, and \`${limits.source.value.trim()}\` in ${other.unit.symbol || 'no unit'}: they cannot agree`,
      at: limits.source.at,
      help: 'Write what it equals in a unit of the same kind.',
    });
    return;
  }
  const ends = [
    [own.low, other.low],
    [own.high, other.high],
  ] as const;
  if (ends.every(([a, b]) => isNear(a, b, share))) return;
  scene.report({
    code: 'numbers-disagree',
    message: `\`${that.source.value.trim()}\` is ${formatLimits(own)}, expected ${formatLimits(other)}${within ? ` within ${within.source.value.trim()}` : ''}`,
    at: spanWithin(that.source, that.expr.start, that.expr.end),
    related: [{ message: 'what it must equal', at: limits.source.at }, ...placesIn(scene, that, owner)],
    help: 'Mend whichever of the two is wrong.',
  });
}

function isNear(a: Rational | undefined, b: Rational | undefined, share: Side | undefined): boolean {
  if (!a || !b) return a === b;
  const isShare =
    share !== undefined && isDimensionless(share.shape.dimension) && share.written.source.value.includes('%');
  const allowed = share ? (isShare ? multiply(share.range.high, absolute(b)) : share.range.high) : zero;
  return compare(absolute(subtract(a, b)), allowed) <= 0;
}

function placesIn(scene: Scene, that: WrittenExpr, owner: Owner): NonNullable<Fault['related']> {
  const named = parametersNamed(scene, that, owner);
  return named ? placesOf(scene, named, owner) : [];
}

function workOut(scene: Scene, written: WrittenExpr, owner: Owner): Side | undefined {
  const { source } = written;
  const expr = joinHyphens(written.expr, { isName: (path) => isParameter(scene.vocabulary, path, owner) });
  const named = parametersNamed(scene, { expr, source }, owner);
  if (!named) return undefined;
  const shape = dimensionOf(expr, (path) => shapeOfLimits(named.get(path)));
  if (!shape.ok) {
    reportFault(scene, source, { code: 'unit-mismatch', ...shape.fault });
    return undefined;
  }
  const range = rangeOf(expr, (path) => {
    const limits = named.get(path);
    return limits && enclosureOf(limits);
  });
  if (!range.ok) {
    reportFault(scene, source, { code: 'number-without-value', ...range.fault });
    return undefined;
  }
  const alike = [...named.values()].find(({ unit }) => sameDimension(unit.dimension, shape.value.dimension));
  return { written, shape: shape.value, range: range.value.outer, named, ...(alike ? { look: alike } : {}) };
}

function textOf({ written }: Side): string {
  return written.source.value.trim();
}

function reportKinds(scene: Scene, that: Side, equals: Side): void {
  scene.report({
    code: 'unit-mismatch',
    message: `\`${textOf(that)}\` is ${sayShape(that.shape)} and \`${textOf(equals)}\` ${sayShape(equals.shape)}: they cannot agree`,
    at: equals.written.source.at,
    related: [{ message: sayShape(that.shape), at: that.written.source.at }],
    help: 'Mend whichever names the wrong parameter.',
  });
}

/** How far apart the sides may be: a share in percent is of what the first should equal. */
function allowedBy(
  scene: Scene,
  that: Side,
  { equals, within }: { readonly equals: Side; readonly within: Side | undefined },
): Enclosure['high'] | undefined {
  if (!within) return zero;
  if (within.written.source.value.includes('%') && isDimensionless(within.shape.dimension)) {
    return multiply(within.range.high, absolute(middle(equals.range)));
  }
  if (sameDimension(within.shape.dimension, that.shape.dimension)) return within.range.high;
  scene.report({
    code: 'unit-mismatch',
    message: `\`${textOf(within)}\` is ${sayShape(within.shape)}, and what must agree is ${sayShape(that.shape)}`,
    at: within.written.source.at,
    help: 'Write how far apart they may be in the same unit, or in percent.',
  });
  return undefined;
}

interface Held {
  readonly that: Side;
  readonly equals: Side;
  readonly allowed: Enclosure['high'];
  readonly owner: Owner;
}

function hold(scene: Scene, within: WrittenExpr | undefined, { that, equals, allowed, owner }: Held): void {
  const above = subtract(that.range.low, equals.range.high);
  const below = subtract(equals.range.low, that.range.high);
  if (compare(larger(above, below), allowed) <= 0) return;
  const [is, shouldBe] = sayApart(that, equals);
  const far = within ? `, further apart than ${within.source.value.trim()}` : '';
  scene.report({
    code: 'numbers-disagree',
    message: `\`${textOf(that)}\` is ${is}, and \`${textOf(equals)}\` comes to ${shouldBe}${far}`,
    at: spanWithin(that.written.source, that.written.expr.start, that.written.expr.end),
    related: placesOf(scene, new Map([...that.named, ...equals.named]), owner),
    help: within
      ? 'Mend the parameter that is wrong, or `within` if they may be so far apart.'
      : 'Mend the parameter that is wrong, or say how far apart they may be, as in `within: 0.5 %`.',
  });
}

/** Where the parameters are written, and what each comes to. */
function placesOf(scene: Scene, named: ReadonlyMap<string, Limits>, owner: Owner): NonNullable<Fault['related']> {
  return [...named].flatMap(([path, limits]) => {
    const [start, id = ''] = splitPath(fullPath(path, owner));
    if (start !== 'machine' && start !== 'header') return [];
    const holder = start === 'machine' ? machineOf(scene) : headerOf(scene);
    const at = holder.parameters.get(id)?.at;
    return at ? [{ message: `\`${path}\` is ${formatLimits(limits)}`, at }] : [];
  });
}

/** Both sides in one unit, with as many digits as it takes to tell them apart. */
function sayApart(that: Side, equals: Side): readonly [string, string] {
  const { unit, resolution } = that.look ?? equals.look ?? { unit: noUnit, resolution: rational(1) };
  let said: readonly [string, string] = ['', ''];
  for (const share of [1, 10, 100, 1000, 10_000]) {
    const look = { unit, resolution: divide(resolution, rational(share)) };
    said = [formatEnclosure(that.range, look), formatEnclosure(equals.range, look)];
    if (said[0] !== said[1]) break;
  }
  return said;
}

function middle({ low, high }: Enclosure): Enclosure['low'] {
  return multiply(add(low, high), rational(1, 2));
}
