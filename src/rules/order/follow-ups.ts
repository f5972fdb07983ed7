// Leaves out what only says again what another violation on the same path has said: one slip, one diagnostic.
// What is left out wants of the same state, since the same step, what the value that mends the first will do for as well; where
// it does not, it is told once the first is mended.

import type { World } from '../../model/resolved.js';
import {
  type MissingFact,
  type StepPlace,
  type TraceEntry,
  type Violation,
  type ViolationKind,
  warningKinds,
} from '../../order/result.js';
import { forbiddingLaws } from './laws.js';
import { calledEnd } from './words.js';

/**
 * Kinds that claim something of the states of machine and people, in the order in which they are told at one step. What is
 * unsafe comes first: nothing that only follows from it may hush it.
 */
const claimKinds: readonly ViolationKind[] = [
  'unchanged-broken',
  'rule-broken',
  'requires-not-met-at-run',
  'place-not-met-at-run',
  'throughout-broken',
  'need-not-met',
  'instrument-needs',
  'moves-when',
  'physics-forbids-set',
  'leaves-not-met',
  'end-must-not-met',
  'back-into-step',
];

/** That a state should be one of some values, and since when it is not. */
export interface Claim {
  readonly state: string;
  readonly person?: number | undefined;
  readonly wanted: readonly string[];
  /** The step after which it is not so; empty for the start. */
  readonly cause: string;
  /** Where on the path that step is done last; -1 for the start. */
  readonly since: number;
}

interface Told extends Claim {
  readonly violation: Violation;
}

/** The violations without those that follow from one before them on their path. */
export function withoutRepeats(violations: readonly Violation[], world: World): readonly Violation[] {
  const ranked = violations
    .filter(({ kind }) => claimKinds.includes(kind))
    .map((violation, at) => ({ violation, at, rank: claimKinds.indexOf(violation.kind) }))
    .sort((a, b) => a.violation.trace.length - b.violation.trace.length || a.rank - b.rank || a.at - b.at);
  const told: Told[] = [];
  const kept = new Map<Violation, Violation>();
  for (const { violation } of ranked) {
    const left = settles(violation, violations) ? undefined : leftOf(violation, told, world);
    if (left) kept.set(violation, left);
    if (warningKinds.has(violation.kind)) continue; // never hushes an error
    for (const claim of left ? claimsOf(left, world) : setClaims(violation, world)) told.push({ ...claim, violation });
  }
  return violations.flatMap((violation) =>
    claimKinds.includes(violation.kind) ? (kept.get(violation) ?? []) : [violation],
  );
}

// What of a violation has not been told; nothing where all of it has.
function leftOf(violation: Violation, told: readonly Told[], world: World): Violation | undefined {
  if (followsFromCall(violation, told) || told.some(({ violation: before }) => isMendedWith(before, violation)))
    return undefined;
  const isTold = (claim: Claim): boolean =>
    told.some((before) => tells(before, claim, violation)) || isLostInCall(claim, violation, told);
  if (apartClaims(violation, world).some(isTold) || told.some(({ violation: before }) => isSameAct(before, violation)))
    return undefined;
  const missing = violation.missing.filter((fact) => !isTold(factClaim(fact, violation.trace)));
  return missing.length === 0 && violation.missing.length > 0 ? undefined : { ...violation, missing };
}

function tells(before: Told, claim: Claim, violation: Violation): boolean {
  const covers = before.wanted.some((value) => claim.wanted.includes(value));
  const isSame = before.state === claim.state && before.person === claim.person && before.cause === claim.cause;
  return isSame && covers && liesOnPath(before.violation, violation, claim.since);
}

// A step that is missing further up, or stands too late, is what several steps miss: the change that mends the first was proved,
// and the others were gone with it.
function isMendedWith(first: Violation, second: Violation): boolean {
  const { repair, mends = [], phase } = first;
  if (!repair || repair.kind === 'set-place' || repair.kind === 'measure') return false;
  if (phase === 'end' || calledEnd(first) !== undefined) return false;
  // what nothing says is told with all that follows from it beside it
  if (repair.kind === 'insert-step' && first.missing.some(({ values }) => values.length > 1)) return false;
  return mends.some((each) => each.kind === second.kind && each.trace === second.trace && each.at === second.at);
}

// Whether whoever comes to the second has come by the first since something was last changed.
function liesOnPath(first: Violation, second: Violation, since: number): boolean {
  if (first.end !== undefined) return first.end === second.end;
  const key = first.place && placeKey(first.place);
  return second.trace.some(({ place }, at) => at >= since && placeKey(place) === key);
}

// Inside a procedure that is run without what it requires, whatever goes wrong may come of that.
function followsFromCall({ place, kind, trace }: Violation, told: readonly Told[]): boolean {
  if (!place || kind === 'throughout-broken' || (place.calls.length === 0 && place.end === undefined)) return false;
  return told.some(({ violation: call }) => {
    if (!isCall(call)) return false;
    const go = call.trace.at(-1)?.taken?.go;
    const leading = trace.findLast((entry) => entry.place.end === undefined)?.place;
    if (place.end !== undefined) return go === place.end && isSamePlace(call.place, leading);
    return isInCall(place, call);
  });
}

function isCall({ kind }: Violation): boolean {
  return kind === 'requires-not-met-at-run' || kind === 'place-not-met-at-run';
}

function isInCall({ calls }: StepPlace, { place: call }: Violation): boolean {
  return call !== undefined && [...call.calls, call.step].every((step, i) => calls[i] === step);
}

// What such a procedure took away may come of that, too: it may be the wrong one.
function isLostInCall({ since }: Claim, { trace }: Violation, told: readonly Told[]): boolean {
  const lost = trace[since]?.place;
  if (!lost || lost.end !== undefined) return false;
  return told.some(({ violation: call }) => isCall(call) && call.end === undefined && isInCall(lost, call));
}

// What physics changes at a step where that state is missed anyway: what it should be there is told.
function settles({ kind, changed, place }: Violation, violations: readonly Violation[]): boolean {
  if (kind !== 'unchanged-broken' || changed?.by !== 'physics' || !place) return false;
  return violations.some(
    (other) => isSamePlace(other.place, place) && other.missing.some(({ state }) => state === changed.state),
  );
}

// One act that two safety rules forbid, of the same state: the one that wants it left alone tells it.
function isSameAct(before: Violation, { kind, place, missing, trace }: Violation): boolean {
  if (before.kind !== 'unchanged-broken' || kind !== 'rule-broken' || !place) return false;
  const isOfAct = (fact: MissingFact): boolean =>
    fact.state === before.changed?.state && factClaim(fact, trace).cause === placeKey(place);
  return isSamePlace(before.place, place) && missing.every(isOfAct);
}

/** What a violation claims beyond facts that are missing: who should be away, and what should not hold. */
export function apartClaims(violation: Violation, world: World): readonly Claim[] {
  return [...personClaims(violation, world), ...lawClaims(violation, world)];
}

function claimsOf(violation: Violation, world: World): readonly Claim[] {
  return [
    ...violation.missing.map((fact) => factClaim(fact, violation.trace)),
    ...(violation.kind === 'unchanged-broken' ? personClaims(violation, world) : []),
    ...lawClaims(violation, world),
    ...setClaims(violation, world),
  ];
}

/** A missing fact as a claim. */
export function factClaim({ state, person, wanted, lost }: MissingFact, trace: readonly TraceEntry[]): Claim {
  return { state, person, wanted, ...causeAt(trace, lost.kind === 'step' ? lost.entry : -1) };
}

function causeAt(trace: readonly TraceEntry[], since: number): Pick<Claim, 'cause' | 'since'> {
  const place = trace[since]?.place;
  return { cause: place ? placeKey(place) : '', since };
}

// That nobody is where a rule triggers.
function personClaims({ rule, triggeredBy, trace }: Violation, { variables }: World): readonly Claim[] {
  const trigger = triggeredBy.find(({ state }) => state === 'person');
  const test = rule?.when.find(({ state }) => state === 'person')?.test;
  if (!trigger || test?.kind !== 'words') return [];
  const all = variables.find(({ id }) => id === 'person')?.values ?? [];
  const wanted = all.filter((value) => !test.words.includes(value));
  const moved = trace.findLastIndex(({ by, moved: goes }) => goes && by === (trigger.person ?? 1));
  return [{ state: 'person', person: trigger.person, wanted, ...causeAt(trace, moved) }];
}

// That what forbids a set comes to an end before it, where one law with one condition forbids it.
function lawClaims(violation: Violation, world: World): readonly Claim[] {
  const [law, another] = violation.kind === 'physics-forbids-set' ? forbiddingLaws(violation, world) : [];
  const [condition, more] = law?.when ?? [];
  if (!condition || another || more || condition.test.kind !== 'words') return [];
  const { state, test } = condition;
  const all = world.variables.find(({ id }) => id === state)?.values ?? [];
  const wanted = all.filter((value) => !test.words.includes(value));
  const touched = violation.trace.findLastIndex((entry) => touches(entry, state));
  return [{ state, wanted, ...causeAt(violation.trace, touched) }];
}

// That a set which cannot be, or a move that cannot be made, comes to something else: whoever asks for that state further on,
// or counts on what was set, misses it for that.
function setClaims(violation: Violation, world: World): readonly Claim[] {
  const { kind, place, changed, value, trace } = violation;
  const state = kind === 'moves-when' ? value : kind === 'physics-forbids-set' ? changed?.state : undefined;
  if (!place || state === undefined) return [];
  const wanted = world.variables.find(({ id }) => id === state)?.values ?? [];
  const before = trace.filter((entry) => touches(entry, state)).map((entry) => placeKey(entry.place));
  const causes = new Set(kind === 'moves-when' ? [placeKey(place)] : [placeKey(place), ...before, '']);
  return [...causes].map((cause) => ({ state, wanted, cause, since: -1 }));
}

function touches({ sets, means, physics }: TraceEntry, state: string): boolean {
  return [...sets, ...means, ...physics].some((each) => each.state === state);
}

/** One step of a path, however it is come to. */
export function placeKey({ procedure, step, calls, end }: StepPlace): string {
  return [end ?? '', ...calls, procedure, step].join(' ');
}

function isSamePlace(a: StepPlace | undefined, b: StepPlace | undefined): boolean {
  return a !== undefined && b !== undefined && placeKey(a) === placeKey(b);
}
