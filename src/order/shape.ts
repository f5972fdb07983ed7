// Faults of a procedure's branches that need no path: readings without a way out, counts without an end, cycles, targets
// that these rigs lack, adjusters that cannot mend what is sent to them, instruments without a place.

import type { ResolvedBranch, ResolvedProcedure, ResolvedStep } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import { agedValues } from './aged.js';
import { type Outcomes, outcomesOf } from './outcomes.js';
import { readingsIn } from './places.js';
import type { Violation } from './result.js';

/** A fault without its place, which follows from the step. */
export type ShapeFault = Pick<Violation, 'kind' | 'at'> &
  Partial<Pick<Violation, 'value' | 'cycle' | 'reading'>> & { readonly step: ResolvedStep };

/** The ways out of every step. */
export function allOutcomes(procedure: ResolvedProcedure): ReadonlyMap<ResolvedStep, Outcomes> {
  return new Map(procedure.steps.map((step) => [step, outcomesOf(step, procedure)]));
}

/** All faults of shape of a procedure's own steps. */
export function findShapeFaults(
  procedure: ResolvedProcedure,
  outcomes: ReadonlyMap<ResolvedStep, Outcomes>,
): readonly ShapeFault[] {
  const faults: ShapeFault[] = [];
  for (const step of procedure.steps) {
    const { uncovered = [], openCounts = [] } = outcomes.get(step) ?? {};
    for (const value of uncovered) {
      faults.push({ kind: 'outside-without-branch', at: step.at, value, reading: 'failed', step });
    }
    for (const { at } of openCounts) faults.push({ kind: 'else-missing', at, step });
    faults.push(...lostTargets(procedure, step), ...wrongAdjusters(procedure, step), ...placeless(procedure, step));
  }
  return [...faults, ...unboundedLoops(procedure, outcomes)];
}

function branchesOf(step: ResolvedStep): readonly ResolvedBranch[] {
  const first = [step.otherwise, ...step.when.values(), ...step.answers.map(({ branch }) => branch), step.then];
  return first.flatMap((branch) => {
    const levels: ResolvedBranch[] = [];
    for (let level = branch; level; level = level.otherwise) levels.push(level);
    return levels;
  });
}

function lostTargets({ steps }: ResolvedProcedure, step: ResolvedStep): readonly ShapeFault[] {
  return branchesOf(step)
    .filter(({ go }) => !isEnd(go) && !steps.some(({ id }) => id === go))
    .map(({ at, go }) => ({ kind: 'target-missing', at, value: go, step }));
}

function isEnd(go: string): boolean {
  return go === 'done' || go === 'stop' || go === 'call-service';
}

// A reading that fails is sent to what turns it, or the turning is of no use: each value that was read is asked for.
function wrongAdjusters(procedure: ResolvedProcedure, step: ResolvedStep): readonly ShapeFault[] {
  const judged = step.measure.filter(
    (id) => !procedure.values.some((value) => value.id === id && value.tolerance === undefined),
  );
  if (judged.length === 0) return [];
  return [...step.when.values()].flatMap(({ go, at }) => {
    const turning = turnedFrom(procedure, go);
    const [adjuster] = turning.flatMap(({ adjust }) => adjust);
    if (adjuster === undefined) return [];
    const moved = new Set(turning.flatMap((each) => [...agedValues(procedure, each)]));
    return judged.every((id) => moved.has(id))
      ? []
      : [{ kind: 'sent-to-wrong-adjuster', at, value: adjuster, step } as const];
  });
}

/** The step that a branch leads to, if it turns something, and those right behind it that turn more before anything is read. */
function turnedFrom({ steps }: ResolvedProcedure, go: string): readonly ResolvedStep[] {
  const first = steps.findIndex(({ id }) => id === go);
  const behind = first < 0 ? [] : steps.slice(first);
  const end = behind.findIndex(({ adjust, measure }, at) => (at === 0 ? adjust.length === 0 : measure.length > 0));
  const led = end < 0 ? behind : behind.slice(0, end);
  const last = led.findIndex(({ then, ask }) => then !== undefined || ask !== undefined);
  return last < 0 ? led : led.slice(0, last + 1);
}

function placeless(procedure: ResolvedProcedure, step: ResolvedStep): readonly ShapeFault[] {
  return readingsIn(step, procedure)
    .filter(({ instrument, place }) => instrument !== undefined && !instrument.builtIn && place === undefined)
    .map(({ id }) => {
      const source = procedure.values.find((value) => value.id === id)?.source;
      return { kind: 'instrument-place', at: source?.idAt ?? step.at, value: id, step };
    });
}

interface Way {
  readonly to: number;
  readonly at: Span | undefined;
}

// Ways without a count, by step: a cycle of them has no end.
function uncountedWays(
  procedure: ResolvedProcedure,
  outcomes: ReadonlyMap<ResolvedStep, Outcomes>,
): readonly (readonly Way[])[] {
  return procedure.steps.map((step, index) => {
    const { failed = [], held = [] } = outcomes.get(step) ?? {};
    return [...failed, ...held].flatMap(({ written, uses }): readonly Way[] => {
      if (uses) return [];
      if (!written) return index + 1 < procedure.steps.length ? [{ to: index + 1, at: undefined }] : [];
      const to = procedure.steps.findIndex(({ id }) => id === written.go);
      return to < 0 ? [] : [{ to, at: written.at }];
    });
  });
}

function unboundedLoops(
  procedure: ResolvedProcedure,
  outcomes: ReadonlyMap<ResolvedStep, Outcomes>,
): readonly ShapeFault[] {
  const ways = uncountedWays(procedure, outcomes);
  const faults: ShapeFault[] = [];
  const done = new Set<number>();
  procedure.steps.forEach((step, index) => {
    for (const way of ways[index] ?? []) {
      if (way.to > index || done.has(index)) continue;
      const cycle = shortestWay(ways, way.to, index);
      if (!cycle || cycle.every((each) => done.has(each))) continue;
      for (const each of cycle) done.add(each);
      const ids = cycle.flatMap((each) => procedure.steps[each]?.id ?? []);
      faults.push({ kind: 'unbounded-loop', at: way.at ?? step.at, cycle: ids, step });
    }
  });
  return faults;
}

function shortestWay(ways: readonly (readonly Way[])[], from: number, to: number): readonly number[] | undefined {
  const before = new Map<number, number>([[from, from]]);
  const queue = [from];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    if (at === to) {
      const path = [to];
      for (let step = to; step !== from; step = before.get(step) ?? from) path.unshift(before.get(step) ?? from);
      return path;
    }
    for (const { to: next } of ways[at] ?? []) {
      if (before.has(next)) continue;
      before.set(next, at);
      queue.push(next);
    }
  }
  return undefined;
}
