// Conditions on states with their bundles filled in: which words a state may be, or between which limits.

import { formatBoth } from '../calc/display.js';
import type { Conditions, StateCondition, StateVariable } from '../model/conditions.js';
import type { ResolvedCondition } from '../model/resolved.js';
import { findLimits } from './numbers.js';
import type { Scene } from './scene.js';
import { shapeOfQuantity } from './shapes.js';

/** The conditions of a map, or of the bundle that is named. What names nothing is left out: the check of names reports it. */
export function resolveConditions(scene: Scene, conditions: Conditions | undefined): readonly ResolvedCondition[] {
  return conditions ? follow(scene, conditions, []) : [];
}

function follow(scene: Scene, conditions: Conditions, bundles: readonly string[]): readonly ResolvedCondition[] {
  if (conditions.kind === 'map') {
    return conditions.conditions.flatMap((condition) => {
      const resolved = resolveCondition(scene, condition);
      return resolved ? [bundles[0] === undefined ? resolved : { ...resolved, bundle: bundles[0] }] : [];
    });
  }
  const name = conditions.name.value;
  const bundle = scene.book.bundles.get(name);
  return bundle && !bundles.includes(name) ? follow(scene, bundle.conditions, [...bundles, name]) : [];
}

/** One condition; undefined where it names no state, or nothing that the state can be. */
export function resolveCondition(scene: Scene, condition: StateCondition): ResolvedCondition | undefined {
  const state = scene.book.states.get(condition.state.value);
  const test = state && resolveTest(scene, state, condition);
  return test && { state: condition.state.value, test, at: condition.state.at };
}

function resolveTest(
  scene: Scene,
  state: StateVariable,
  { test }: StateCondition,
): ResolvedCondition['test'] | undefined {
  if (test.kind === 'unknown') return { kind: 'unknown' };
  if (test.kind === 'words') {
    const declared = new Set(state.values.map(({ id }) => id.value));
    const words = test.words.map(({ value }) => value).filter((word) => declared.has(word));
    return words.length > 0 ? { kind: 'words', words } : undefined;
  }
  if (!state.quantity) return undefined;
  const expected = shapeOfQuantity(state.quantity.value);
  const limits = findLimits(scene, test.limits, expected ? { expected } : {})?.limits;
  return limits && { kind: 'limits', limits, text: formatBoth(limits, scene.book.settings.units) };
}
