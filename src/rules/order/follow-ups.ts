// Leaves out what only says again what another violation on the same path has said: one slip, one diagnostic.
// It hides nothing that mending the first would leave: what is left out wants the same state, no more narrowly.

import type { Rig, Variant } from '../../model/resolved.js';
import type { FactLoss, MissingFact, StepPlace, TraceEntry, Violation, ViolationKind } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import type { Context, Proof } from '../rule.js';

/** Kinds whose facts are states of machine and people, in the order in which they are told at one step. */
const factKinds: readonly ViolationKind[] = [
  'requires-not-met-at-run',
  'place-not-met-at-run',
  'throughout-broken',
  'unchanged-broken',
  'rule-broken',
  'need-not-met',
  'instrument-needs',
  'moves-when',
  'leaves-not-met',
  'end-must-not-met',
];

interface Told {
  readonly violation: Violation;
  readonly fact: MissingFact;
}

interface Missed extends Told {
  readonly cause: string;
}

/** The violations without those that follow from one before them on their path. */
export function withoutRepeats(violations: readonly Violation[]): readonly Violation[] {
  const ranked = violations
    .filter(({ kind }) => factKinds.includes(kind))
    .map((violation, at) => ({ violation, at, rank: factKinds.indexOf(violation.kind) }))
    .sort((a, b) => a.violation.trace.length - b.violation.trace.length || a.rank - b.rank || a.at - b.at);
  const told: Told[] = [];
  const kept = new Map<Violation, Violation>();
  for (const { violation } of ranked) {
    const missing = violation.missing.filter((fact) => {
      const missed = { violation, fact, cause: lossOf(fact.lost, violation.trace) };
      return !told.some((before) => isTold(before, missed)) && !violations.some((other) => takesAway(other, missed));
    });
    if (violation.missing.length > 0 && missing.length === 0) continue;
    if (told.some((before) => tellsTrigger(before, violation))) continue;
    kept.set(violation, { ...violation, missing });
    for (const fact of missing) told.push({ violation, fact });
  }
  return violations.flatMap((violation) =>
    factKinds.includes(violation.kind) ? (kept.get(violation) ?? []) : [violation],
  );
}

function isTold(before: Told, { violation, fact, cause }: Missed): boolean {
  return (
    isSameState(before.fact, fact) &&
    before.fact.wanted.every((value) => fact.wanted.includes(value)) &&
    lossOf(before.fact.lost, before.violation.trace) === cause &&
    liesOnPath(before.violation, violation)
  );
}

function isSameState(a: MissingFact, b: MissingFact): boolean {
  return a.state === b.state && a.person === b.person;
}

// The step that took the fact away, or nothing for the start.
function lossOf(lost: FactLoss, trace: readonly TraceEntry[]): string {
  if (lost.kind === 'start') return '';
  const place = trace[lost.entry]?.place;
  return `${lost.how} ${place ? keyOf(place) : ''}`;
}

function keyOf({ procedure, step, calls, end }: StepPlace): string {
  return [end ?? '', ...calls, procedure, step].join(' ');
}

// Whether whoever comes to the second has come by the first.
function liesOnPath(first: Violation, second: Violation): boolean {
  if (first.end !== undefined) return first.end === second.end;
  const key = first.place && keyOf(first.place);
  return second.trace.some(({ place }) => keyOf(place) === key);
}

// Whether the loss is itself reported: a step sets what `physics` undoes, or what a rule wants left alone at this step.
function takesAway(other: Violation, { violation, fact, cause }: Missed): boolean {
  const { kind, place, changed } = other;
  if (!place || changed?.state !== fact.state) return false;
  const here = keyOf(place);
  if (kind === 'physics-forbids-set') return cause === `physics ${here}` || cause === `sets ${here}`;
  const isSameStep = violation.place !== undefined && keyOf(violation.place) === here;
  return kind === 'unchanged-broken' && violation.kind === 'rule-broken' && isSameStep && cause === `sets ${here}`;
}

// Whether a rule triggers only since the person is where another violation says that they must not be.
function tellsTrigger({ violation: before, fact }: Told, violation: Violation): boolean {
  if (fact.state !== 'person' || !liesOnPath(before, violation)) return false;
  const trigger = violation.triggeredBy.find((each) => each.state === 'person' && each.person === fact.person);
  if (!trigger || trigger.values.some((value) => fact.wanted.includes(value))) return false;
  const moved = violation.trace.findLast(({ by, moved: goes }) => goes && by === (fact.person ?? 1));
  const cause = moved ? `moved ${keyOf(moved.place)}` : '';
  return lossOf(fact.lost, before.trace) === cause;
}

/** Whether a fault in a procedure that is run shows for the same machines where that procedure is proved for itself. */
export function isToldByOther(violation: Violation, { variant }: Proof, { resolved, proofs }: Context): boolean {
  const { place, kind, missing } = violation;
  if (!place || (place.calls.length === 0 && place.end === undefined)) return false;
  const others = resolved.variants.filter(
    (other) => other.procedure.id === place.procedure && other.rigs.some((rig) => hasRig(variant, rig)),
  );
  return others.some(({ id }) =>
    proofs
      ?.get(id)
      ?.violations.some(
        (own) =>
          own.kind === kind &&
          own.place?.calls.length === 0 &&
          own.place.end === undefined &&
          isSameSpan(own.at, violation.at) &&
          missing.every((fact) => own.missing.some((each) => isSameState(each, fact))),
      ),
  );
}

function hasRig({ rigs }: Variant, { machine, header }: Rig): boolean {
  return rigs.some((rig) => rig.machine === machine && rig.header === header);
}

/** Whether two places are the same. */
export function isSameSpan(a: Span, b: Span): boolean {
  return a.file === b.file && a.start === b.start && a.end === b.end;
}
