// Looks for one change of a procedure that mends a violation, and proves it: the violation is gone and no other has come.
// Changes are tried on the procedure that the proof was given; nothing is written.

import type { ResolvedCondition, ResolvedProcedure, ResolvedStep, World } from '../model/resolved.js';
import type { MissingFact, OrderResult, Repair, StepPlace, Violation } from './result.js';
import { personState } from './variables.js';

/** What repairs are looked for with. */
export interface Repairing {
  readonly procedure: ResolvedProcedure;
  readonly world: World;
  /** Procedures that may be run. */
  readonly procedures: readonly ResolvedProcedure[];
  /** What is proved of the procedure with a change; undefined where that is more than may be looked at. */
  readonly prove: (changed: ResolvedProcedure) => Proved | undefined;
}

type Proved = Pick<OrderResult, 'violations' | 'unreachable' | 'ends'>;

interface Candidate {
  readonly repair: Repair;
  readonly steps: readonly ResolvedStep[];
}

/** More are seldom mended one by one: the first ones have to go before the others mean anything. */
const mostViolations = 8;

/** The violations, each with its repair where one was found. */
export function addRepairs(repairing: Repairing, before: Proved): readonly Violation[] {
  const { violations } = before;
  const known = new Set(violations.map(keyOf));
  let tried = 0;
  return violations.map((violation) => {
    if (!violation.place || violation.place.calls.length > 0 || violation.place.end || tried >= mostViolations)
      return violation;
    tried += 1;
    const own = keyOf(violation);
    for (const { repair, steps } of candidatesFor(repairing, violation, violation.place)) {
      const after = repairing.prove({ ...repairing.procedure, steps });
      if (!after || !keepsWays(before, after)) continue;
      const left = new Set(after.violations.map(keyOf));
      if (left.has(own) || ![...left].every((key) => known.has(key))) continue;
      return {
        ...violation,
        repair,
        mends: violations.filter((other) => other !== violation && !left.has(keyOf(other))),
      };
    }
    return violation;
  });
}

// A change that cuts off a step or an end mends nothing: what nobody comes to cannot go wrong.
function keepsWays(before: Proved, after: Proved): boolean {
  const missed = new Set(before.unreachable.map(stepKey));
  return (
    after.unreachable.every((place) => missed.has(stepKey(place))) &&
    [...before.ends].every((end) => after.ends.has(end))
  );
}

function stepKey({ procedure, calls, step, end }: StepPlace): string {
  return [end ?? '', ...calls, procedure, step].join(' ');
}

function keyOf({ kind, place, rule, value, input, end, missing, changed }: Violation): string {
  const states = missing.map(({ state }) => state).sort();
  return JSON.stringify([kind, place?.calls, place?.step, rule?.id, value, input, end, states, changed?.state]);
}

function candidatesFor(repairing: Repairing, violation: Violation, place: StepPlace): readonly Candidate[] {
  const { steps } = repairing.procedure;
  const index = steps.findIndex(({ id }) => id === place.step);
  const step = steps[index];
  if (!step) return [];
  const at: Spot = { ...repairing, violation, place, index, step };
  return [...placeChanges(at), ...moves(at), ...readings(at), ...runs(at), ...insertions(at)];
}

interface Spot extends Repairing {
  readonly violation: Violation;
  readonly place: StepPlace;
  readonly index: number;
  readonly step: ResolvedStep;
}

// Another place for the step, where a rule that asks where people are does not trigger or the procedure is run from.
function placeChanges({ violation, place, index, step, procedure, world }: Spot): readonly Candidate[] {
  const { kind, missing, triggeredBy } = violation;
  const wanted = missing.find(({ state }) => state === personState)?.wanted;
  const watched = triggeredBy.find(({ state }) => state === personState)?.values;
  const known = world.variables.find(({ id }) => id === personState)?.values ?? [];
  const places = wanted ?? (watched && kind !== 'rule-broken' ? known.filter((each) => !watched.includes(each)) : []);
  return places
    .filter((each) => each !== step.place && known.includes(each))
    .map((each) => ({
      repair: { kind: 'set-place', step: place, place: each },
      steps: replaceAt(procedure.steps, index, { ...step, place: each }),
    }));
}

// A step further down that brings about all that is missing.
function moves({ violation, place, index, procedure }: Spot): readonly Candidate[] {
  const { steps } = procedure;
  const { missing } = violation;
  if (missing.length === 0) return [];
  return steps.flatMap((step, from): readonly Candidate[] => {
    if (from <= index || !missing.every((fact) => step.sets.some((set) => bringsAbout(set, fact)))) return [];
    const others = steps.filter((_, at) => at !== from);
    const moved = [...others.slice(0, index), step, ...others.slice(index)];
    return [{ repair: { kind: 'move-step', step: placeOfStep(place, step), before: place }, steps: moved }];
  });
}

function bringsAbout({ state, test }: ResolvedCondition, { state: wantedState, wanted }: MissingFact): boolean {
  return state === wantedState && test.kind === 'words' && test.words.every((word) => wanted.includes(word));
}

function placeOfStep(near: StepPlace, step: ResolvedStep): StepPlace {
  return { procedure: near.procedure, step: step.id, number: String(step.number), calls: [], at: step.at };
}

function readings({ violation, place, index, step, procedure }: Spot): readonly Candidate[] {
  const { kind, input, value } = violation;
  const id = kind === 'derived-from-stale' ? input : value;
  if (id === undefined) return [];
  if (kind === 'derived-from-stale') return [measureIn(procedure, { place, index, step }, id)];
  if (kind !== 'value-stale') return [];
  return procedure.steps.flatMap((each, at) => {
    if (each.measure.length === 0 || each.measure.includes(id)) return [];
    return [measureIn(procedure, { place: placeOfStep(place, each), index: at, step: each }, id)];
  });
}

function measureIn(
  procedure: ResolvedProcedure,
  { place, index, step }: Pick<Spot, 'place' | 'index' | 'step'>,
  value: string,
): Candidate {
  return {
    repair: { kind: 'measure', step: place, value },
    steps: replaceAt(procedure.steps, index, { ...step, measure: [...step.measure, value] }),
  };
}

function runs({ violation, place, index, step, procedure, procedures }: Spot): readonly Candidate[] {
  const { missing } = violation;
  if (missing.length === 0) return [];
  return procedures.flatMap((run): readonly Candidate[] => {
    const leaves = run.leaves.get('done') ?? [];
    if (run.id === procedure.id || !missing.every((fact) => leaves.some((left) => bringsAbout(left, fact)))) return [];
    const added: ResolvedStep = { ...emptyStep(procedure, step), run };
    return [
      {
        repair: { kind: 'insert-run', before: place, procedure: run.id },
        steps: insertAt(procedure.steps, index, added),
      },
    ];
  });
}

// A step of its own that brings about what is missing. Which machine parts do that, only the author knows.
function insertions({ violation, place, index, step, procedure, world }: Spot): readonly Candidate[] {
  const { missing, kind } = violation;
  const states = missing.filter(({ state }) => state !== personState);
  const where = missing.find(({ state }) => state === personState)?.wanted[0];
  const settable = states.every(({ state, wanted }) => wordOf(world, state, wanted) !== undefined);
  if (missing.length === 0 || !settable || kind === 'not-restored') return [];
  const sets = states.map(({ state, wanted, at }): ResolvedCondition => {
    return { state, test: { kind: 'words', words: [wordOf(world, state, wanted) ?? ''] }, at };
  });
  const added: ResolvedStep = { ...emptyStep(procedure, step), sets, ...(where === undefined ? {} : { place: where }) };
  const repair: Repair = {
    kind: 'insert-step',
    before: place,
    sets: states.map(({ state, wanted }) => ({ state, values: [wordOf(world, state, wanted) ?? ''] })),
    ...(where === undefined ? {} : { place: where }),
  };
  return [{ repair, steps: insertAt(procedure.steps, index, added) }];
}

function wordOf(world: World, state: string, wanted: readonly string[]): string | undefined {
  const variable = world.variables.find(({ id }) => id === state);
  return variable?.values.find((value) => wanted.includes(value));
}

function emptyStep({ steps }: ResolvedProcedure, near: ResolvedStep): ResolvedStep {
  let id = 'added';
  while (steps.some((step) => step.id === id)) id = `${id}-`;
  return {
    source: near.source,
    id,
    number: near.number,
    hazards: [],
    skill: near.skill,
    by: near.by,
    needs: [],
    sets: [],
    measure: [],
    adjust: [],
    stale: [],
    when: new Map(),
    answers: [],
    at: near.at,
  };
}

function insertAt(steps: readonly ResolvedStep[], index: number, step: ResolvedStep): readonly ResolvedStep[] {
  return [...steps.slice(0, index), step, ...steps.slice(index)];
}

function replaceAt(steps: readonly ResolvedStep[], index: number, step: ResolvedStep): readonly ResolvedStep[] {
  return [...steps.slice(0, index), step, ...steps.slice(index + 1)];
}
