// The laws of physics on boxes: what follows after an act, till nothing changes, and what physics allows at the start.
// A law that applies to a part of a box splits it; nothing is ever dropped.

import type { ResolvedCondition, World } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import { type Box, intersectBoxes, keyOf, replace, subtractBox, tidy } from './boxes.js';
import {
  assignAtoms,
  atomsOf,
  fullMask,
  maskOf,
  personState,
  readCondition,
  type Space,
  type Variable,
} from './variables.js';

/** One law for one person, over variables of the whole space. */
export interface Law {
  readonly when: readonly { readonly variable: Variable; readonly mask: bigint }[];
  readonly effects: readonly Effect[];
  readonly at: Span;
}

interface Effect {
  readonly variable: Variable;
  readonly mask: bigint;
  /** Nothing is known of it afterwards. */
  readonly unknown: boolean;
}

/** The world's laws; one that asks where a person is, once for each person. */
export function makeLaws(world: World, space: Space): readonly Law[] {
  return world.physics.flatMap(({ when, then, at }) => {
    const asksPlace = when.some(({ state }) => state === personState);
    const persons = asksPlace ? Array.from({ length: space.people }, (_, i) => i + 1) : [1];
    return persons.map((person) => ({
      when: when.flatMap((condition) => readCondition(space, condition, person) ?? []),
      effects: then.flatMap((condition) => effectsOf(space, condition, asksPlace ? person : undefined)),
      at,
    }));
  });
}

function effectsOf(space: Space, condition: ResolvedCondition, person: number | undefined): readonly Effect[] {
  const everyone = condition.state === personState && person === undefined ? space.people : 1;
  return Array.from({ length: everyone }, (_, i) => readCondition(space, condition, person ?? i + 1)).flatMap(
    (wanted) =>
      wanted ? [{ variable: wanted.variable, mask: wanted.mask, unknown: condition.test.kind === 'unknown' }] : [],
  );
}

/** A law whose variables are places in a component's boxes. */
export interface LocalLaw {
  /** What triggers it. */
  readonly when: Box;
  readonly effects: readonly (Effect & { readonly index: number; readonly inside: bigint })[];
  readonly law: Law;
}

/** The laws that act on some of `variables`; what asks other variables is not among them. Effects on others are left out. */
export function localLaws(laws: readonly Law[], variables: readonly Variable[]): readonly LocalLaw[] {
  const place = new Map(variables.map((variable, index) => [variable, index]));
  return laws.flatMap((law) => {
    const effects = law.effects.flatMap((effect) => {
      const index = place.get(effect.variable);
      return index === undefined ? [] : [{ ...effect, index, inside: atomsOf(effect.variable, effect.mask) }];
    });
    if (effects.length === 0 || law.when.some(({ variable }) => !place.has(variable))) return [];
    const when = variables.map((variable) => atomsOf(variable, fullMask(variable)));
    for (const { variable, mask } of law.when) {
      const index = place.get(variable) ?? 0;
      when[index] = (when[index] ?? 0n) & atomsOf(variable, mask);
    }
    return [{ when, effects, law }];
  });
}

/** A box on its way to rest, and which of the watched variables physics changed on the way: bits by place in the component. */
export interface Settling {
  readonly box: Box;
  readonly changed: bigint;
  /** Of these, what a law changed that names values: not merely made unknown. */
  readonly forced: bigint;
}

export interface Rest {
  readonly items: readonly Settling[];
  /** Laws that contradict each other never come to rest. */
  readonly conflict: boolean;
}

/** The variables and laws of a component, and the places of those variables whose changes are asked about. */
export interface Settlement {
  readonly laws: readonly LocalLaw[];
  readonly variables: readonly Variable[];
  readonly watched: bigint;
}

/** Follows the laws from `start` till nothing changes. */
export function settle(settlement: Settlement, start: readonly Box[]): Rest {
  const seen = new Map<string, number>();
  const history: (readonly Settling[])[] = [];
  let items: readonly Settling[] = start.map((box) => ({ box, changed: 0n, forced: 0n }));
  for (;;) {
    const next = settlement.laws.reduce((list, law) => applyToAll(law, settlement, list), items);
    if (next === items) return { items, conflict: false };
    items = settlement.watched === 0n ? joined(next) : distinct(next);
    const key = items.map(settlingKey).join(';');
    const before = seen.get(key);
    if (before !== undefined) {
      const last = distinct(history.slice(before).flat());
      return { items: last, conflict: last.some((item) => !isAtRest(settlement.laws, item.box)) };
    }
    seen.set(key, history.length);
    history.push(items);
  }
}

// The same list where the law leaves all of it as it is.
function applyToAll(law: LocalLaw, settlement: Settlement, items: readonly Settling[]): readonly Settling[] {
  const parts = items.map((item) => applyLaw(law, settlement, item));
  return parts.every((part, i) => part === items[i]) ? items : parts.flat();
}

function settlingKey({ box, changed, forced }: Settling): string {
  return `${keyOf(box)}/${changed}/${forced}`;
}

function joined(items: readonly Settling[]): readonly Settling[] {
  return tidy(items.map(({ box }) => box)).map((box) => ({ box, changed: 0n, forced: 0n }));
}

function distinct(items: readonly Settling[]): readonly Settling[] {
  if (items.length < 2) return items;
  const byKey = new Map(items.map((item) => [settlingKey(item), item]));
  return [...byKey].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, item]) => item);
}

// The item itself where the law leaves all of it as it is.
function applyLaw({ when, effects }: LocalLaw, settlement: Settlement, item: Settling): Settling | readonly Settling[] {
  const triggered = intersectBoxes(item.box, when);
  if (!triggered || effects.every((effect) => isQuiet(effect, settlement, { ...item, box: triggered }))) return item;
  const rest = subtractBox(item.box, when).map((box) => ({ ...item, box }));
  let parts: readonly Settling[] = [{ ...item, box: triggered }];
  for (const effect of effects) parts = parts.flatMap((part) => applyEffect(effect, settlement, part));
  return [...parts, ...rest];
}

function markOf({ index, variable }: LocalLaw['effects'][number], { watched }: Settlement): bigint {
  return variable.values.length < 2 ? 0n : (1n << BigInt(index)) & watched;
}

// Whether an effect leaves all of a box as it is.
function isQuiet(effect: LocalLaw['effects'][number], settlement: Settlement, { box, changed }: Settling): boolean {
  const bits = box[effect.index] ?? 0n;
  if (!effect.unknown) return (bits & ~effect.inside) === 0n;
  const unmarked = markOf(effect, settlement) & ~changed;
  return unmarked === 0n && bits === assignAtoms(effect.variable, bits, fullMask(effect.variable));
}

function applyEffect(effect: LocalLaw['effects'][number], settlement: Settlement, part: Settling): readonly Settling[] {
  const { index, inside, variable } = effect;
  const bits = part.box[index] ?? 0n;
  const mark = markOf(effect, settlement);
  if (effect.unknown) {
    const box = replace(part.box, index, assignAtoms(variable, bits, fullMask(variable)));
    return [{ ...part, box, changed: part.changed | mark }];
  }
  const kept = bits & inside;
  const outside = bits & ~inside;
  if (outside === 0n) return [part];
  const box = replace(part.box, index, assignAtoms(variable, outside, maskOf(variable, inside)));
  const moved = { box, changed: part.changed | mark, forced: part.forced | mark };
  return kept === 0n ? [moved] : [{ ...part, box: replace(part.box, index, kept) }, moved];
}

function isAtRest(laws: readonly LocalLaw[], box: Box): boolean {
  return laws.every(({ when, effects }) => {
    const triggered = intersectBoxes(box, when);
    return (
      !triggered ||
      effects.every(({ index, inside, unknown }) => unknown || ((triggered[index] ?? 0n) & ~inside) === 0n)
    );
  });
}

/** What of `boxes` physics allows: every law that triggers has its effects already. */
export function allowed(laws: readonly LocalLaw[], boxes: readonly Box[]): readonly Box[] {
  return laws.reduce<readonly Box[]>((list, law) => list.flatMap((box) => allowedBy(law, box)), boxes);
}

function allowedBy({ when, effects }: LocalLaw, box: Box): readonly Box[] {
  const triggered = intersectBoxes(box, when);
  if (!triggered) return [box];
  let kept: Box | undefined = triggered;
  for (const { index, inside, unknown } of effects) {
    if (unknown || !kept) continue;
    const bits: bigint = (kept[index] ?? 0n) & inside;
    kept = bits === 0n ? undefined : replace(kept, index, bits);
  }
  return [...(kept ? [kept] : []), ...subtractBox(box, when)];
}
