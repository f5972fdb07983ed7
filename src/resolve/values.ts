// Check values for one rig: limits, unit, instrument, and the limits in use. Derived ones after what they come from.

import { formatLimits, limitsIn } from '../calc/display.js';
import type { ExpectedShape, Shape } from '../calc/expression/dimensions.js';
import { isSingle, type Limits } from '../calc/limits.js';
import { findUnit, otherSystemUnit, type Unit } from '../calc/unit.js';
import type { NumberChoice } from '../model/numbers.js';
import type { CheckValue, Procedure } from '../model/procedure.js';
import type { ResolvedValue } from '../model/resolved.js';
import { acceptDerived, acceptReading, type InUse } from './accept.js';
import { holdsFor } from './applies.js';
import { pickEntry } from './choice.js';
import { type BareValue, type Derivation, deriveFrom, type Siblings } from './derive.js';
import { type FoundInstrument, findInstrument } from './instruments.js';
import { type FoundLimits, findLimits } from './numbers.js';
import { remember, type Scene } from './scene.js';
import { sayShape, shapeOfLimits, shapeOfQuantity, shapeOfUnit, unitForShape, withArticle } from './shapes.js';
import { type Places, wordsFor } from './words.js';

/** A check value of a procedure that has one of that id for any rig. */
export function isValuePresent(scene: Scene, procedure: Procedure, id: string): boolean {
  const value = procedure.values.find((one) => one.id === id);
  return value !== undefined && (!value.only || holdsFor(scene, value.only));
}

/** A check value for the rig, without its label. Undefined where the rig has none, or a fault left it without a result. */
export function findBareValue(scene: Scene, procedure: Procedure, id: string): BareValue | undefined {
  return remember(scene, { of: procedure.id, key: `value ${procedure.id} ${id}` }, (own) => {
    const value = procedure.values.find((one) => one.id === id);
    return value && isValuePresent(own, procedure, id) ? resolveValue(own, value, siblingsIn(procedure)) : undefined;
  });
}

/** A check value for the rig; its label may speak of other values. */
export function findValue(scene: Scene, procedure: Procedure, id: string): ResolvedValue | undefined {
  return remember(scene, { of: procedure.id, key: `labelled value ${procedure.id} ${id}` }, (own) => {
    const bare = findBareValue(own, procedure, id)?.value;
    return bare && { ...bare, label: wordsFor(own, bare.source.label, valuePlaces(procedure)) };
  });
}

/** What texts of a procedure may name. */
export function valuePlaces(procedure: Procedure): Places {
  return { value: (scene, id) => findBareValue(scene, procedure, id)?.value };
}

function siblingsIn(procedure: Procedure): Siblings {
  return {
    known: new Set(procedure.values.map(({ id }) => id)),
    isPresent: (scene, id) => isValuePresent(scene, procedure, id),
    find: (scene, id) => findBareValue(scene, procedure, id),
  };
}

function resolveValue(scene: Scene, source: CheckValue, siblings: Siblings): BareValue | undefined {
  const derivation = source.from && deriveFrom(scene, { id: source.id, from: source.from }, siblings);
  if (source.from && !derivation) return undefined;
  const stated = statedShape(scene, source, derivation);
  const tolerance = numberOf(scene, source.limits, stated && { ...stated, isWorkedOut: derivation !== undefined });
  const shape = stated ?? (tolerance && shapeOfLimits(tolerance.limits));
  const instrument = derivation ? undefined : instrumentOf(scene, source);
  const inside = numberOf(scene, source.inside, shape)?.limits;
  const nominal = nominalOf(scene, source, shape);
  const unit = unitOf({ source, shape, derivation, instrument, written: tolerance?.limits ?? inside ?? nominal });
  if (!unit) {
    if (!source.limits && !source.inside && !source.nominal) reportMissingUnit(scene, source);
    return undefined;
  }
  const ownShape = shape ?? shapeOfUnit(unit);
  const decision = source.decision?.value ?? scene.book.settings.decision;
  const at = tolerance?.at ?? source.idAt;
  const judged = { source, unit, decision, at, ...(tolerance ? { tolerance: tolerance.limits } : {}) };
  const inUse = derivation ? acceptDerived(scene, judged, derivation) : acceptReading(scene, judged, instrument);
  const value: ResolvedValue = {
    source,
    id: source.id,
    label: {},
    ...(source.quantity ? { quantity: source.quantity.value } : {}),
    unit,
    ...(tolerance ? { tolerance: tolerance.limits } : {}),
    ...(inside ? { inside } : {}),
    ...(nominal ? { nominal } : {}),
    ...inUse,
    ...(derivation
      ? { derived: { expr: derivation.expr, inputs: derivation.inputs.map(({ value }) => value.id) } }
      : {}),
    ...standingOf(source, instrument),
    decision,
    shown: shownOf(scene, { tolerance: tolerance?.limits, inside, nominal, inUse, at, id: source.id }),
    ...(source.origin ? { origin: wordsFor(scene, source.origin) } : {}),
    limitsAt: at,
  };
  return { value, shape: ownShape, ...(instrument ? { instrument } : {}), ...(derivation ? { derivation } : {}) };
}

/** What the author says that the value is, or what it is worked out to be. */
function statedShape(scene: Scene, source: CheckValue, derivation: Derivation | undefined): Shape | undefined {
  const quantity = source.quantity && shapeOfQuantity(source.quantity.value);
  const unit = source.unit && findUnit(source.unit.value);
  const stated = quantity ?? (unit && !derivation ? shapeOfUnit(unit) : undefined);
  if (derivation && quantity) derivation.check(scene, quantity, withArticle(source.quantity?.value ?? ''));
  const shape = derivation?.shape ?? stated;
  if (unit && source.unit && shape?.dimension.some((exponent, i) => exponent !== unit.dimension[i])) {
    scene.report({
      code: 'unit-mismatch',
      message: `\`${unit.symbol}\` is no unit of what \`${source.id}\` ${derivation ? `is worked out to be, ${sayShape(shape)}` : 'is'}`,
      at: source.unit.at,
      ...(source.from ? { related: [{ message: 'it is worked out here', at: source.from.source.at }] } : {}),
      help: source.quantity
        ? `Write a unit of ${source.quantity.value}.`
        : 'Mend `from`, if what it is worked out from is wrong; else write a unit of what it comes to.',
    });
  }
  return shape;
}

function numberOf(
  scene: Scene,
  choice: NumberChoice | undefined,
  shape: ExpectedShape | undefined,
): FoundLimits | undefined {
  return choice && findLimits(scene, choice, shape ? { expected: shape } : {});
}

function nominalOf(scene: Scene, source: CheckValue, shape: Shape | undefined): Limits | undefined {
  const found = numberOf(scene, source.nominal, shape);
  if (!found || isSingle(found.limits)) return found?.limits;
  scene.report({
    code: 'not-a-single-number',
    message: `The nominal value of \`${source.id}\` is a range, expected one number`,
    at: found.at,
    help: 'Write the one number that is aimed at, and the range as `limits`.',
  });
  return undefined;
}

function instrumentOf(scene: Scene, source: CheckValue): FoundInstrument | undefined {
  const id = source.readWith && pickEntry(scene, source.readWith)?.value.value;
  return id === undefined ? undefined : findInstrument(scene, id);
}

interface UnitSources {
  readonly source: CheckValue;
  readonly shape: Shape | undefined;
  readonly derivation: Derivation | undefined;
  readonly instrument: FoundInstrument | undefined;
  readonly written: Limits | undefined;
}

/** The unit that it is read in: the one that is said, that the instrument shows, or that its limits are written in. */
function unitOf({ source, shape, derivation, instrument, written }: UnitSources): Unit | undefined {
  const said = source.unit && findUnit(source.unit.value);
  const candidates = [said, instrument?.unit, written?.unit, derivation?.unit];
  const fits = (unit: Unit | undefined): unit is Unit =>
    unit !== undefined && (!shape || unit.dimension.every((exponent, i) => exponent === shape.dimension[i]));
  const unit = candidates.find(fits);
  return unit && shape ? unitForShape(unit, shape) : unit;
}

function reportMissingUnit(scene: Scene, source: CheckValue): void {
  scene.report({
    code: 'value-without-unit',
    message: `Nothing says in which unit \`${source.id}\` is read`,
    at: source.idAt,
    help: 'Add `unit:`, or `limits:` with a unit, or `read-with:` an instrument that has one.',
  });
}

/** Where a person stands to read it, and what the instrument needs. */
function standingOf(
  source: CheckValue,
  instrument: FoundInstrument | undefined,
): Pick<ResolvedValue, 'readAt' | 'needs' | 'instrument'> {
  const readAt = source.readAt?.value ?? instrument?.resolved.source.readAt?.value;
  return {
    needs: instrument?.needs ?? [],
    ...(readAt === undefined ? {} : { readAt }),
    ...(instrument ? { instrument: instrument.resolved } : {}),
  };
}

interface Showable {
  readonly tolerance: Limits | undefined;
  readonly inside: Limits | undefined;
  readonly nominal: Limits | undefined;
  readonly inUse: InUse;
  readonly at: CheckValue['idAt'];
  readonly id: string;
}

function shownOf(scene: Scene, { tolerance, inside, nominal, inUse, at, id }: Showable): ResolvedValue['shown'] {
  const { acceptance } = inUse;
  const unit = acceptance && otherSystemUnit(acceptance.unit);
  const other = acceptance && unit && limitsIn(acceptance, unit);
  if (acceptance && unit && !other) {
    scene.report({
      code: 'acceptance-empty',
      message: `Rounded inward to ${unit.symbol}, nothing is left of the limits ${formatLimits(acceptance)} of \`${id}\``,
      at,
      help: 'Widen the limits, or write them with more digits.',
    });
  }
  return {
    ...(acceptance ? { acceptance: formatLimits(acceptance) } : {}),
    ...(tolerance ? { tolerance: formatLimits(tolerance) } : {}),
    ...(other ? { other: formatLimits(other) } : {}),
    ...(inside ? { inside: formatLimits(inside) } : {}),
    ...(nominal ? { nominal: formatLimits(nominal) } : {}),
  };
}
