// What steps and branches do to states and readings, each worked out once: where the person goes, the act, what is seen.

import type { ResolvedCondition, ResolvedStep } from '../model/resolved.js';
import { agedValues } from './aged.js';
import { actorOf, type Frame } from './frames.js';
import type { Outcome } from './outcomes.js';
import { placesIn } from './places.js';
import type { Change, Operation } from './slices.js';
import { absent, failed, fullMask, passed, personState, readCondition, type Space, type Wanted } from './variables.js';

/** Nothing happens. */
export const idle: Operation = { changes: [], physics: false };

/** A step in its frame; `returned` behind a procedure that it runs. */
export interface Doing {
  readonly space: Space;
  readonly frame: Frame;
  readonly index: number;
  readonly step: ResolvedStep;
  readonly returned: boolean;
}

/** Conditions for whoever does the step. */
export function conditionsOf(
  { space, frame, step }: Doing,
  conditions: readonly ResolvedCondition[],
): readonly Wanted[] {
  const actor = actorOf(frame, step.by);
  return conditions.flatMap((condition) => readCondition(space, condition, actor) ?? []);
}

/** Brings the person to every place that the step has them come to; nothing where it has none. */
export function moveOperation(doing: Doing): Operation {
  const { all } = standing(doing);
  return all ? { changes: [all], physics: false } : idle;
}

// All places that the person comes to in a step, and those where they may stay.
function standing({ space, frame, step }: Doing): { all?: Change; stays?: Change } {
  const actor = actorOf(frame, step.by);
  const variable = space.states.get(personState)?.find(({ person }) => person === actor);
  if (!variable) return {};
  const places = placesIn(step, frame.procedure);
  const mask = (ids: readonly string[]): bigint =>
    variable.values.reduce((bits, id, i) => (ids.includes(id) ? bits | (1n << BigInt(i)) : bits), 0n);
  const [all, stays] = [mask(places.all), mask(places.stays)];
  const change = (bits: bigint): Change => ({ variable, kind: 'assign', mask: bits });
  return { ...(all ? { all: change(all) } : {}), ...(stays && stays !== all ? { stays: change(stays) } : {}) };
}

/** The act as it is meant: what the step sets, all at once. */
export function actOperation(doing: Doing): Operation {
  return actWith(doing, conditionsOf(doing, doing.step.sets).map(assign));
}

/** The act that failed: what the step sets is unknown, but for what is seen. */
export function failedOperation(doing: Doing, means: readonly ResolvedCondition[]): Operation {
  const unknown = conditionsOf(doing, doing.step.sets).map(({ variable }) =>
    assign({ variable, mask: fullMask(variable) }),
  );
  return actWith(doing, [...unknown, ...conditionsOf(doing, means).map(assign)]);
}

function actWith(doing: Doing, done: readonly Change[]): Operation {
  const { frame, index, step, returned } = doing;
  const callee = frame.callees.get(index);
  // behind a procedure that was run the person is where that left them
  const { stays } = returned ? {} : standing(doing);
  const forgotten = callee ? resetReadings(callee) : [];
  return { changes: [...forgotten, ...(stays ? [stays] : []), ...done, ...agedReadings(frame, step)], physics: true };
}

function assign({ variable, mask }: Pick<Wanted, 'variable' | 'mask'>): Change {
  return { variable, kind: 'assign', mask };
}

function resetReadings(callee: Frame): readonly Change[] {
  const own = [...callee.readings.values()].map((variable) => assign({ variable, mask: absent }));
  return [...own, ...[...callee.callees.values()].flatMap(resetReadings)];
}

function agedReadings(frame: Frame, step: ResolvedStep): readonly Change[] {
  return [...agedValues(frame.procedure, step)].flatMap((id) => {
    const variable = frame.readings.get(id);
    return variable ? [{ variable, kind: 'age', mask: 0n } as const] : [];
  });
}

/** How readings stand on a way out, and what is seen then. */
export function readingOperation({ frame }: Doing, outcome: Outcome, means: readonly Wanted[]): Operation {
  const readings = [...outcome.readings].flatMap(([id, result]): readonly Change[] => {
    const variable = frame.readings.get(id);
    const mask = result === 'passed' ? passed : result === 'failed' ? failed : passed | failed;
    return variable ? [assign({ variable, mask })] : [];
  });
  return { changes: [...readings, ...means.map(assign)], physics: means.length > 0 };
}
