// Adjusters for one rig: their range, their smallest step, and how far one unit of turn moves each value.

import { divideDimensions, sameDimension } from '../calc/dimension.js';
import { formatLimits } from '../calc/display.js';
import { dimensionOf, type Shape } from '../calc/expression/dimensions.js';
import { evaluate } from '../calc/expression/evaluate.js';
import { joinHyphens } from '../calc/expression/hyphens.js';
import { enclosureOf, isSingle, type Limits } from '../calc/limits.js';
import { type Rational, sign } from '../calc/rational.js';
import type { WrittenExpr } from '../model/numbers.js';
import type { Adjuster, Procedure } from '../model/procedure.js';
import type { ResolvedAdjuster } from '../model/resolved.js';
import { spanWithin } from '../text/source.js';
import { holdsFor } from './applies.js';
import { pickEntry } from './choice.js';
import { type FoundLimits, findLimits, parametersNamed, reportFault } from './numbers.js';
import { isParameter } from './parameter-names.js';
import { remember, type Scene } from './scene.js';
import { asChange, sayShape, shapeOfLimits } from './shapes.js';
import { findBareValue, isValuePresent, valuePlaces } from './values.js';
import { wordsFor } from './words.js';

/** Whether the rig has the adjuster of that id. */
export function isAdjusterPresent(scene: Scene, procedure: Procedure, id: string): boolean {
  const adjuster = procedure.adjusters.find((one) => one.id === id);
  return adjuster !== undefined && (!adjuster.only || holdsFor(scene, adjuster.only));
}

/** An adjuster for the rig. Undefined where it has none, or a fault left it without a range. */
export function findAdjuster(scene: Scene, procedure: Procedure, id: string): ResolvedAdjuster | undefined {
  return remember(scene, { of: procedure.id, key: `adjuster ${procedure.id} ${id}` }, (own) => {
    const adjuster = procedure.adjusters.find((one) => one.id === id);
    return adjuster && isAdjusterPresent(own, procedure, id) ? resolveAdjuster(own, adjuster, procedure) : undefined;
  });
}

function resolveAdjuster(scene: Scene, source: Adjuster, procedure: Procedure): ResolvedAdjuster | undefined {
  const found = findLimits(scene, source.range);
  if (!found || isOddRange(scene, { source, procedure, range: found })) return undefined;
  const range = found.limits;
  const turn = asChange(shapeOfLimits(range));
  const smallest = source.smallest && findSmallest(scene, source, turn);
  const moves = new Map<string, { readonly low: Rational; readonly high: Rational }>();
  for (const { value, effect } of source.moves) {
    const shape = findBareValue(scene, procedure, value.value)?.shape;
    const written = pickEntry(scene, effect)?.value;
    const moved = written && shape && findEffect(scene, written, { value: value.value, shape: asChange(shape), turn });
    if (moved) moves.set(value.value, moved);
  }
  const places = valuePlaces(procedure);
  const watch = source.watch?.value;
  return {
    source,
    id: source.id,
    label: wordsFor(scene, source.label, places),
    unit: range.unit,
    range,
    ...(smallest?.low ? { smallest: smallest.low } : {}),
    ...(source.positive ? { positive: wordsFor(scene, source.positive, places) } : {}),
    moves,
    ...(watch !== undefined && isValuePresent(scene, procedure, watch) ? { watch } : {}),
    shown: { range: formatLimits(range), ...(smallest ? { smallest: formatLimits(smallest) } : {}) },
  };
}

interface Ranged {
  readonly source: Adjuster;
  readonly procedure: Procedure;
  readonly range: FoundLimits;
}

/** Reports a range of another kind than the smallest turn, where all effects are for a turn as that is: the range is the slip. */
function isOddRange(scene: Scene, { source, procedure, range }: Ranged): boolean {
  const silent = { ...scene, report: () => {} };
  const smallest = source.smallest && findLimits(silent, source.smallest)?.limits;
  if (!smallest || sameDimension(smallest.unit.dimension, range.limits.unit.dimension)) return false;
  const turn = asChange(shapeOfLimits(smallest));
  const fits = source.moves.map(({ value, effect }) => {
    const shape = findBareValue(silent, procedure, value.value)?.shape;
    const written = pickEntry(silent, effect)?.value;
    return !!written && !!shape && !!findEffect(silent, written, { value: value.value, shape: asChange(shape), turn });
  });
  if (fits.length === 0 || fits.includes(false)) return false;
  const [is, wanted] = [shapeOfLimits(range.limits), shapeOfLimits(smallest)].map(sayShape);
  scene.report({
    code: 'unit-mismatch',
    message: `The range of \`${source.id}\` is ${is}, and its smallest turn and what it moves are for ${wanted}`,
    at: range.at,
    help: `Write the range in a unit of its smallest turn, \`${smallest.unit.symbol}\`.`,
  });
  return true;
}

function findSmallest(scene: Scene, source: Adjuster, turn: Shape): Limits | undefined {
  const found = source.smallest && findLimits(scene, source.smallest, { expected: turn });
  if (!found) return undefined;
  if (isSingle(found.limits) && found.limits.low && sign(found.limits.low) > 0) return found.limits;
  scene.report({
    code: 'not-a-single-number',
    message: `The smallest turn of \`${source.id}\` is no single number above zero`,
    at: found.at,
    help: 'Write the smallest turn that can be made on purpose, as in `0.5 deg`.',
  });
  return undefined;
}

interface Moved {
  readonly value: string;
  readonly shape: Shape;
  readonly turn: Shape;
}

/** The change of a value for one base unit of turn. */
function findEffect(
  scene: Scene,
  { expr: written, source }: WrittenExpr,
  { value, shape, turn }: Moved,
): { readonly low: Rational; readonly high: Rational } | undefined {
  const expr = joinHyphens(written, { isName: (path) => isParameter(scene.vocabulary, path) });
  const named = parametersNamed(scene, { expr, source });
  if (!named) return undefined;
  const found = dimensionOf(expr, (path) => shapeOfLimits(named.get(path)));
  if (!found.ok) {
    reportFault(scene, source, { code: 'unit-mismatch', ...found.fault });
    return undefined;
  }
  if (!sameDimension(found.value.dimension, divideDimensions(shape.dimension, turn.dimension))) {
    const wanted = sayShape({ dimension: divideDimensions(shape.dimension, turn.dimension) });
    scene.report({
      code: 'unit-mismatch',
      message: `\`${source.value.trim()}\` is ${sayShape(found.value)}, expected ${wanted}: how far one turn moves \`${value}\``,
      at: spanWithin(source, expr.start, expr.end),
      help: 'Write the change of the value for a turn, as in `0.45 V for 10 deg`.',
    });
    return undefined;
  }
  const result = evaluate(expr, (path) => {
    const limits = named.get(path);
    return limits && enclosureOf(limits);
  });
  if (result.ok) return { low: result.value.low, high: result.value.high };
  reportFault(scene, source, { code: 'number-without-value', ...result.fault });
  return undefined;
}
