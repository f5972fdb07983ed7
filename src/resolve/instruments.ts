// Instruments as a rig has them: range, resolution and accuracy in plain numbers.

import type { Acceptance } from '../calc/acceptance.js';
import { type Accuracy, type Instrument as CalcInstrument, parseAccuracy } from '../calc/accuracy.js';
import { isDimensionless, sameDimension } from '../calc/dimension.js';
import { enclosureOf, isSingle, type Limits } from '../calc/limits.js';
import { sign, zero } from '../calc/rational.js';
import type { Unit } from '../calc/unit.js';
import type { Instrument } from '../model/book.js';
import type { NumberChoice } from '../model/numbers.js';
import type { ResolvedCondition, ResolvedInstrument } from '../model/resolved.js';
import { pickEntry } from './choice.js';
import { resolveConditions } from './conditions.js';
import { findLimits, reportFault, withoutRecorder } from './numbers.js';
import { remember, type Scene } from './scene.js';
import { asChange, shapeOfQuantity } from './shapes.js';
import { wordsFor } from './words.js';

/** An instrument for one rig, and what the calculation core wants to know of it. */
export interface FoundInstrument {
  readonly resolved: ResolvedInstrument;
  readonly calc: CalcInstrument;
  /** The unit of its smallest step, or of its range: the one it shows. */
  readonly unit?: Unit;
  readonly needs: readonly ResolvedCondition[];
  /** Limits in use that were worked out before, by what they were worked out from. */
  readonly accepted: Map<string, Acceptance>;
}

/** The instrument of that id for the rig; undefined where the book has none (which the check of names reports). */
export function findInstrument(scene: Scene, id: string): FoundInstrument | undefined {
  const instrument = scene.book.instruments.get(id);
  return (
    instrument && remember(withoutRecorder(scene), `instrument ${id}`, (own) => resolveInstrument(own, instrument))
  );
}

const noError: Accuracy = { ofReading: zero, ofRange: zero, digits: zero, constant: zero };

function resolveInstrument(scene: Scene, source: Instrument): FoundInstrument {
  const expected = shapeOfQuantity(source.quantity.value);
  const range = source.range && findLimits(scene, source.range, expected ? { expected } : {})?.limits;
  const step = source.resolution && findStep(scene, source, source.resolution);
  const unit = step?.unit ?? range?.unit;
  const both = range && enclosureOf(range);
  const needs = resolveConditions(scene, source.needs);
  const resolution = step?.low;
  const calc: CalcInstrument = {
    accuracy: findAccuracy(scene, source) ?? noError,
    ...(resolution ? { resolution } : {}),
    ...(both ? { range: both } : {}),
    ...(unit ? { unit } : {}),
  };
  return {
    resolved: {
      source,
      id: source.id,
      label: wordsFor(scene, source.label),
      ...(range ? { range } : {}),
      ...(resolution ? { resolution } : {}),
      builtIn: source.builtIn,
      calc,
      ...(needs.length > 0 ? { needs } : {}),
    },
    calc,
    ...(unit ? { unit } : {}),
    needs,
    accepted: new Map(),
  };
}

/** The smallest step that it shows: one number above zero. */
function findStep(scene: Scene, source: Instrument, choice: NumberChoice): Limits | undefined {
  const quantity = shapeOfQuantity(source.quantity.value);
  const found = findLimits(scene, choice, quantity ? { expected: asChange(quantity) } : {});
  if (!found) return undefined;
  const { limits, at } = found;
  if (isSingle(limits) && limits.low && sign(limits.low) > 0) return limits;
  scene.report({
    code: 'not-a-single-number',
    message: `The resolution of \`${source.id}\` is no single number above zero`,
    at,
    help: 'Write the smallest step that it shows, as in `0.01 V`.',
  });
  return undefined;
}

function findAccuracy(scene: Scene, source: Instrument): Accuracy | undefined {
  const text = source.accuracy && pickEntry(scene, source.accuracy)?.value;
  if (!text) return undefined;
  const quantity = shapeOfQuantity(source.quantity.value);
  const ratio = quantity !== undefined && isDimensionless(quantity.dimension);
  const accuracy = parseAccuracy(text.value, { ratio });
  if (!accuracy.ok) {
    const message = `The accuracy of \`${source.id}\` cannot be read: ${accuracy.fault.message}`;
    reportFault(scene, text, { code: 'unreadable-accuracy', ...accuracy.fault, message });
    return undefined;
  }
  const { dimension } = accuracy.value;
  if (dimension && quantity && !sameDimension(dimension, quantity.dimension)) {
    scene.report({
      code: 'unit-mismatch',
      message: `The accuracy \`${text.value.trim()}\` of \`${source.id}\` is in another unit than ${source.quantity.value}, which it measures`,
      at: text.at,
      related: [{ message: `it measures ${source.quantity.value}`, at: source.quantity.at }],
      help: 'Mend the unit of the accuracy, or the quantity.',
    });
    return undefined;
  }
  return accuracy.value;
}
