// The ways out of a step, in the order in which they are looked at: the expectation failed, the reading, the answer, then,
// next. Only what is written counts; where a branch leads is worked out elsewhere.

import type { Limits } from '../calc/limits.js';
import type { ReadingOutcome } from '../model/procedure.js';
import type { ResolvedBranch, ResolvedCondition, ResolvedProcedure, ResolvedStep } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import type { BranchTaken } from './result.js';

/** A count that limits how often a branch may be taken in one run of its procedure. */
export interface Count {
  /** The branch and how deep in its `else`: `then/0`. */
  readonly key: string;
  readonly max: number;
}

/** One way out of a step. */
export interface Outcome {
  readonly branch: BranchTaken;
  readonly answer?: string;
  /** The branch as written, or the part behind `else` that is followed; missing for `next`. */
  readonly written?: ResolvedBranch;
  /** What the branch says is seen; behind `else` it is still seen. */
  readonly means: readonly ResolvedCondition[];
  readonly elses: number;
  /** The count that this way uses up. */
  readonly uses?: Count;
  /** The counts that must be used up before. */
  readonly after: readonly Count[];
  /** How what the step reads then stands: `maybe` is passed or failed. */
  readonly readings: ReadonlyMap<string, 'passed' | 'failed' | 'maybe'>;
}

export interface Outcomes {
  /** When the expectation failed. */
  readonly failed: readonly Outcome[];
  /** When it did not. */
  readonly held: readonly Outcome[];
  /** Branches that cannot be taken whatever happens. */
  readonly idle: readonly { readonly branch: BranchTaken; readonly at: Span }[];
  /** Values that may fail in a way for which there is no branch. */
  readonly uncovered: readonly string[];
  /** Branches with a count and no `else`. */
  readonly openCounts: readonly ResolvedBranch[];
}

type Direction = 'low' | 'high' | 'below-band' | 'above-band' | 'unsure';

/** All ways out of `step` of `procedure`. */
export function outcomesOf(step: ResolvedStep, procedure: ResolvedProcedure): Outcomes {
  const openCounts: ResolvedBranch[] = [];
  const follow = (written: ResolvedBranch, start: Start): readonly Outcome[] => followElses(written, start, openCounts);
  const all = new Map(step.measure.map((id) => [id, 'passed' as const]));
  const routes = readingRoutes(step, procedure);
  const held: Outcome[] = [];
  for (const [branch, values] of routes.taken) {
    const written = step.when.get(branch);
    if (written)
      held.push(...follow(written, { branch, readings: failedReadings(step.measure, values, routes.failing) }));
  }
  for (const { key, branch: written } of step.answers) {
    held.push(...follow(written, { branch: 'answer', answer: key, readings: all }));
  }
  if (step.answers.length === 0) held.push(...onward(step.then, all, follow));
  const unread = new Map<string, 'passed'>();
  return {
    failed: step.otherwise ? follow(step.otherwise, { branch: 'otherwise', readings: unread }) : [],
    held,
    idle: idleBranches(step, routes.taken),
    uncovered: routes.uncovered,
    openCounts,
  };
}

interface Start {
  readonly branch: BranchTaken;
  readonly answer?: string;
  readonly readings: Outcome['readings'];
}

function onward(
  then: ResolvedBranch | undefined,
  readings: Outcome['readings'],
  follow: (written: ResolvedBranch, start: Start) => readonly Outcome[],
): readonly Outcome[] {
  const next: Outcome = { branch: 'next', means: [], elses: 0, after: [], readings };
  if (!then) return [next];
  const taken = follow(then, { branch: 'then', readings });
  const last = taken.at(-1);
  // a count that is used up and has no `else` leaves the next step
  return last?.uses ? [...taken, { ...next, elses: taken.length, after: [...last.after, last.uses] }] : taken;
}

function followElses(written: ResolvedBranch, start: Start, openCounts: ResolvedBranch[]): readonly Outcome[] {
  const outcomes: Outcome[] = [];
  const after: Count[] = [];
  let means = written.means;
  for (let level: ResolvedBranch | undefined = written; level; level = level.otherwise) {
    if (level.means.length > 0) means = level.means;
    const key = `${start.branch}${start.answer === undefined ? '' : `:${start.answer}`}/${outcomes.length}`;
    const uses = level.atMost === undefined ? undefined : { key, max: level.atMost };
    outcomes.push({
      ...start,
      written: level,
      means,
      elses: outcomes.length,
      after: [...after],
      ...(uses ? { uses } : {}),
    });
    if (!uses) break;
    if (!level.otherwise) openCounts.push(level);
    after.push(uses);
  }
  return outcomes;
}

function failedReadings(
  measured: readonly string[],
  here: ReadonlySet<string>,
  failing: ReadonlySet<string>,
): Outcome['readings'] {
  return new Map(
    measured.map((id) => {
      if (!failing.has(id)) return [id, 'passed'] as const;
      return [id, here.size === 1 && here.has(id) ? 'failed' : 'maybe'] as const;
    }),
  );
}

function readingRoutes(step: ResolvedStep, procedure: ResolvedProcedure) {
  const taken = new Map<ReadingOutcome, Set<string>>();
  const failing = new Set<string>();
  const uncovered = new Set<string>();
  for (const id of step.measure) {
    for (const ways of directionsOf(id, procedure)) {
      failing.add(id);
      const way = ways.find((each) => step.when.has(each));
      if (way) taken.set(way, (taken.get(way) ?? new Set()).add(id));
      else uncovered.add(id);
    }
  }
  return { taken, failing, uncovered: [...uncovered] };
}

// For each way in which a reading may fail: the branches that take it, the first that is written counts.
function directionsOf(id: string, procedure: ResolvedProcedure): readonly (readonly ReadingOutcome[])[] {
  const value = procedure.values.find((each) => each.id === id);
  if (value) {
    const limits = value.acceptance ?? value.tolerance;
    const directions = [...sidesOf(limits), ...bandOf(value.inside)];
    if (value.decision === 'three-zone' && limits) directions.push('unsure');
    return directions.map((direction) => waysOf(direction, limits));
  }
  const worksheet = procedure.worksheets.find((each) => each.id === id);
  if (!worksheet) return [];
  const results = worksheet.results.flatMap(({ limits }) => sidesOf(limits).map((side) => waysOf(side, limits)));
  const columns = worksheet.source.columns.some(({ limits }) => limits !== undefined);
  return columns ? [...results, ['outside', 'low', 'high']] : results;
}

function sidesOf(limits: Limits | undefined): Direction[] {
  return [...(limits?.low ? (['low'] as const) : []), ...(limits?.high ? (['high'] as const) : [])];
}

function bandOf(inside: Limits | undefined): Direction[] {
  return [...(inside?.low ? (['below-band'] as const) : []), ...(inside?.high ? (['above-band'] as const) : [])];
}

function waysOf(direction: Direction, limits: Limits | undefined): readonly ReadingOutcome[] {
  if (direction === 'low' || direction === 'high') return [direction, 'outside'];
  if (direction === 'unsure') return ['unsure', 'outside'];
  if (direction === 'below-band') return ['fault', 'outside', ...(limits?.low ? (['low'] as const) : [])];
  return ['fault', 'outside', ...(limits?.high ? (['high'] as const) : [])];
}

function idleBranches(step: ResolvedStep, taken: ReadonlyMap<ReadingOutcome, unknown>): Outcomes['idle'] {
  const idle: { branch: BranchTaken; at: Span }[] = [];
  for (const [branch, { at }] of step.when) if (!taken.has(branch)) idle.push({ branch, at });
  if (step.answers.length > 0 && step.then) idle.push({ branch: 'then', at: step.then.at });
  return idle;
}
