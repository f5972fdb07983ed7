// What a derived value is worked out from: its inputs, its dimension, the expression with its names settled.

import { isDimensionless, sameDimension } from '../calc/dimension.js';
import type { Expr } from '../calc/expression/ast.js';
import { dimensionOf, type Shape } from '../calc/expression/dimensions.js';
import { joinHyphens } from '../calc/expression/hyphens.js';
import { firstNamesIn } from '../calc/expression/names.js';
import type { Limits } from '../calc/limits.js';
import { noUnit, type Unit } from '../calc/unit.js';
import type { WrittenExpr } from '../model/numbers.js';
import type { ResolvedValue } from '../model/resolved.js';
import { spanWithin } from '../text/source.js';
import type { FoundInstrument } from './instruments.js';
import { parameterLimits, reportFault } from './numbers.js';
import { isParameter } from './parameter-names.js';
import type { Scene } from './scene.js';
import { sayShape, shapeOfLimits } from './shapes.js';

/** A value without the words that may speak of other values. */
export interface BareValue {
  readonly value: ResolvedValue;
  readonly shape: Shape;
  readonly instrument?: FoundInstrument;
  readonly derivation?: Derivation;
}

/** The other values of the procedure. */
export interface Siblings {
  /** Those that it has for any rig. */
  readonly known: ReadonlySet<string>;
  readonly isPresent: (scene: Scene, id: string) => boolean;
  readonly find: (scene: Scene, id: string) => BareValue | undefined;
}

export interface Derivation {
  readonly expr: Expr;
  readonly inputs: readonly BareValue[];
  readonly parameters: ReadonlyMap<string, Limits>;
  readonly shape: Shape;
  /** Of the first input that measures the same, or of a bare number. */
  readonly unit?: Unit;
  /** Reports where it is not what it is said to be. */
  readonly check: (scene: Scene, said: Shape, words: string) => void;
}

/** Undefined where an input is missing for this rig, or dimensions clash; both are reported. */
export function deriveFrom(
  scene: Scene,
  { id, from }: { readonly id: string; readonly from: WrittenExpr },
  siblings: Siblings,
): Derivation | undefined {
  const expr = joinHyphens(from.expr, {
    isName: (path) => siblings.known.has(path) || isParameter(scene.vocabulary, path),
  });
  const inputs = new Map<string, BareValue>();
  const parameters = new Map<string, Limits>();
  let complete = true;
  for (const { path, start, end } of firstNamesIn(expr)) {
    const at = spanWithin(from.source, start, end);
    const isValue = siblings.known.has(path);
    const isPresent = isValue && siblings.isPresent(scene, path);
    const input = isPresent ? siblings.find(scene, path) : undefined;
    const limits = isValue ? undefined : parameterLimits(scene, path, { at });
    if (input) inputs.set(path, input);
    else if (limits) parameters.set(path, limits);
    else complete = false;
    if (isValue && !isPresent) {
      scene.report({
        code: 'value-not-on-rig',
        message: `\`${id}\` is worked out from \`${path}\`, which this rig does not have`,
        at,
        help: `Give \`${id}\` the same \`only\` as \`${path}\`.`,
      });
    }
  }
  if (!complete) return undefined;
  const shape = dimensionOf(expr, (path) => inputs.get(path)?.shape ?? shapeOfLimits(parameters.get(path)));
  if (!shape.ok) {
    reportFault(scene, from.source, { code: 'unit-mismatch', ...shape.fault });
    return undefined;
  }
  const unit = unitLike(shape.value, inputs.values());
  return {
    expr,
    inputs: [...inputs.values()],
    parameters,
    shape: shape.value,
    ...(unit ? { unit } : {}),
    check: (own, said, words) => {
      if (sameDimension(said.dimension, shape.value.dimension)) return;
      const message = `\`${id}\` is said to be ${words}, and \`${from.source.value.trim()}\` comes to ${sayShape(shape.value)}`;
      own.report({ code: 'unit-mismatch', message, at: from.source.at, help: 'Mend the quantity or the expression.' });
    },
  };
}

function unitLike(shape: Shape, inputs: Iterable<BareValue>): Unit | undefined {
  for (const { value } of inputs) if (sameDimension(value.unit.dimension, shape.dimension)) return value.unit;
  return isDimensionless(shape.dimension) ? noUnit : undefined;
}
