// All steps of a variant with all ways between them, procedures that are run and any-order groups unrolled. Which way is
// taken never depends on states, only on counts: states are followed along it elsewhere.

import type { End, ResolvedCondition, ResolvedStep, Variant, World } from '../model/resolved.js';
import { agedValues } from './aged.js';
import { actorOf, type Frame, type Frames, layOutFrames, placeOf } from './frames.js';
import { type Outcome, type Outcomes, outcomesOf } from './outcomes.js';
import { placesIn } from './places.js';
import type { StepPlace, Taken } from './result.js';
import type { Change, Operation } from './slices.js';
import { failed, fullMask, passed, readCondition, type Variable, type Wanted } from './variables.js';

/** A count of one run of a procedure. */
export interface Counter {
  readonly id: number;
  readonly frame: Frame;
  readonly max: number;
}

/** The counts that a way needs: those that must be used up before, and the one that it uses. */
export interface Toll {
  readonly uses?: Counter;
  readonly after: readonly Counter[];
  /** The frame that this way enters anew. */
  readonly enters?: Frame;
}

export interface Edge extends Toll {
  readonly to: number;
  /** What the reading and the branch make of readings and states. */
  readonly operation: Operation;
  readonly taken: Taken;
  readonly means: readonly Wanted[];
  /** It leads to an earlier step of the same frame, or to the same. */
  readonly back: boolean;
}

export interface Act {
  readonly phase: 'after' | 'failed';
  readonly operation: Operation;
  /** What the step sets, or what is seen where it failed. */
  readonly sets: readonly Wanted[];
  /** The counts without which it does not come to this: a failed act with what is seen then is that of one branch. */
  readonly toll: Toll;
  readonly edges: readonly Edge[];
}

/** A step about to be done (`step`), one whose procedure came back (`return`), or an end that is judged (`final`). */
export interface Node {
  readonly id: number;
  readonly kind: 'step' | 'return' | 'final';
  readonly frame?: Frame;
  readonly index: number;
  readonly step?: ResolvedStep;
  readonly place?: StepPlace;
  readonly actor: number;
  readonly end?: End;
  /** Where the person goes first. */
  readonly move?: Operation;
  readonly acts: Act[];
}

export interface Graph {
  readonly frames: Frames;
  readonly nodes: readonly Node[];
  /** More than one where the procedure begins with an any-order group. */
  readonly entries: readonly number[];
  /** Step by step of the variant's own procedure: branches that lead to no step of these rigs. */
  readonly lost: readonly { readonly place: StepPlace; readonly outcome: Outcome }[];
  readonly outcomes: ReadonlyMap<ResolvedStep, Outcomes>;
  readonly counters: readonly Counter[];
  /** The bound was met: the graph is not whole. */
  readonly cut: boolean;
}

const free: Toll = { after: [] };

/** Nothing happens. */
export const idle: Operation = { changes: [], physics: false };

// Which members of any-order groups are done, for each frame on the way in, as bits by step.
type Progress = readonly bigint[];

interface Making {
  readonly frames: Frames;
  readonly nodes: Node[];
  readonly ids: Map<string, number>;
  readonly waiting: { readonly node: Node; readonly progress: Progress }[];
  readonly lost: Map<string, { readonly place: StepPlace; readonly outcome: Outcome }>;
  readonly outcomes: Map<ResolvedStep, Outcomes>;
  readonly counters: Map<string, Counter>;
  readonly operations: Map<string, Operation>;
}

/** Lays out the graph of a variant, of at most `bound` nodes. */
export function makeGraph(variant: Variant, world: World, bound: number): Graph {
  const frames = layOutFrames(variant, world);
  const making: Making = {
    frames,
    nodes: [],
    ids: new Map(),
    waiting: [],
    lost: new Map(),
    outcomes: new Map(),
    counters: new Map(),
    operations: new Map(),
  };
  const entries = enterFrame(making, frames.main, []);
  let cut = false;
  while (making.waiting.length > 0) {
    if (making.nodes.length > bound) {
      cut = true;
      break;
    }
    const next = making.waiting.pop();
    if (next) fillNode(making, next.node, next.progress);
  }
  const { nodes, lost, outcomes, counters } = making;
  return { frames, nodes, entries, lost: [...lost.values()], outcomes, counters: [...counters.values()], cut };
}

function addNode(
  making: Making,
  kind: Node['kind'],
  at: { frame?: Frame; index?: number; progress?: Progress; end?: End },
): number {
  const { frame, index = -1, progress = [], end } = at;
  const key = [kind, end ?? '', frame?.id ?? '', index, progress.join('.')].join('|');
  const known = making.ids.get(key);
  if (known !== undefined) return known;
  const step = frame?.procedure.steps[index];
  const node: Node = {
    id: making.nodes.length,
    kind,
    index,
    actor: frame && step ? actorOf(frame, step.by) : 1,
    ...(frame && step ? { frame, step, place: placeOf(frame, step) } : {}),
    ...(end ? { end } : {}),
    acts: [],
  };
  making.nodes.push(node);
  making.ids.set(key, node.id);
  if (step) making.waiting.push({ node, progress });
  return node.id;
}

/** Nodes that a frame may begin with: more than one where it begins with an any-order group. */
function enterFrame(making: Making, frame: Frame, around: Progress): readonly number[] {
  return arriveAt(making, frame, 0, [...around, 0n]);
}

// Comes to a step from the one before it; past the last one the procedure is done.
function arriveAt(making: Making, frame: Frame, index: number, progress: Progress): readonly number[] {
  if (index >= frame.procedure.steps.length) return leaveFrame(making, frame, 'done', progress);
  const group = groupOf(frame, index);
  if (!group) return [addNode(making, 'step', { frame, index, progress })];
  const fresh = withProgress(progress, (bits) => bits & ~bitsOf(group));
  return group.map((member) => addNode(making, 'step', { frame, index: member, progress: fresh }));
}

// Leaves a step for the next one: the rest of its group first.
function goOn(making: Making, frame: Frame, index: number, progress: Progress): readonly number[] {
  const group = groupOf(frame, index);
  if (!group) return arriveAt(making, frame, index + 1, progress);
  const done = withProgress(progress, (bits) => bits | bitsOf([index]));
  const rest = group.filter((member) => ((done.at(-1) ?? 0n) & bitsOf([member])) === 0n);
  if (rest.length > 0) return rest.map((member) => addNode(making, 'step', { frame, index: member, progress: done }));
  return arriveAt(
    making,
    frame,
    Math.max(...group) + 1,
    withProgress(done, (bits) => bits & ~bitsOf(group)),
  );
}

function goTo(
  making: Making,
  from: { frame: Frame; index: number; progress: Progress },
  go: string,
): readonly number[] | undefined {
  const { frame, index, progress } = from;
  if (go === 'done' || go === 'stop' || go === 'call-service') return leaveFrame(making, frame, go, progress);
  const target = frame.procedure.steps.findIndex(({ id }) => id === go);
  if (target < 0) return undefined;
  const group = groupOf(frame, index);
  const done = group?.includes(target) ? withProgress(progress, (bits) => bits | bitsOf([index])) : progress;
  const outside = groupOf(frame, target) ? done : withProgress(done, (bits) => keepReachable(frame, target, bits));
  return [addNode(making, 'step', { frame, index: target, progress: outside })];
}

// A group that lies wholly before the target is begun anew when it is come to again.
function keepReachable(frame: Frame, target: number, bits: bigint): bigint {
  let kept = bits;
  for (const ids of frame.procedure.anyOrder) {
    const group = ids.map((id) => frame.procedure.steps.findIndex((step) => step.id === id));
    if (group.every((member) => member > target)) kept &= ~bitsOf(group);
  }
  return kept;
}

function leaveFrame(making: Making, frame: Frame, end: End, progress: Progress): readonly number[] {
  const { caller } = frame;
  if (caller && end === 'done') {
    return [addNode(making, 'return', { frame: caller.frame, index: caller.index, progress: progress.slice(0, -1) })];
  }
  if (frame.end) return [addNode(making, 'final', { end: frame.end })];
  const after = making.frames.ends.get(end);
  return after ? enterFrame(making, after, []) : [addNode(making, 'final', { end })];
}

function groupOf({ procedure }: Frame, index: number): readonly number[] | undefined {
  const id = procedure.steps[index]?.id;
  const ids = id === undefined ? undefined : procedure.anyOrder.find((group) => group.includes(id));
  if (!ids) return undefined;
  const members = procedure.steps.flatMap((step, at) => (ids.includes(step.id) ? [at] : []));
  return members.length > 1 ? members : undefined;
}

function bitsOf(members: readonly number[]): bigint {
  return members.reduce((bits, member) => bits | (1n << BigInt(Math.max(0, member))), 0n);
}

function withProgress(progress: Progress, change: (bits: bigint) => bigint): Progress {
  return [...progress.slice(0, -1), change(progress.at(-1) ?? 0n)];
}

function fillNode(making: Making, node: Node, progress: Progress): void {
  const { frame, step, index, kind } = node;
  if (!frame || !step) return;
  const callee = frame.callees.get(index);
  if (kind === 'step') {
    const move = operationOf(making, node, 'move');
    if (move.changes.length > 0) (node as { move?: Operation }).move = move;
    if (callee) {
      node.acts.push(callAct(making, callee, progress));
      return;
    }
  }
  const outcomes = making.outcomes.get(step) ?? outcomesOf(step, frame.procedure);
  making.outcomes.set(step, outcomes);
  const from = { frame, index, progress };
  const reset = callee ? resetReadings(making, callee) : [];
  const held = outcomes.held.flatMap((outcome) => edgesOf(making, node, from, outcome));
  const sets = conditionsOf(making, node, step.sets);
  node.acts.push({ phase: 'after', operation: operationOf(making, node, 'act', reset), sets, toll: free, edges: held });
  for (const outcome of outcomes.failed) {
    const edges = edgesOf(making, node, from, outcome);
    const operation = operationOf(making, node, `failed ${outcome.elses}`, reset, outcome.means);
    node.acts.push({
      phase: 'failed',
      operation,
      sets: conditionsOf(making, node, outcome.means),
      toll: tollOf(making, node, outcome),
      edges,
    });
  }
}

function callAct(making: Making, callee: Frame, progress: Progress): Act {
  const taken: Taken = { branch: 'run', elses: 0, go: callee.procedure.id };
  const edges = enterFrame(making, callee, progress).map((to) => {
    return { to, operation: idle, taken, means: [], after: [], enters: callee, back: false };
  });
  return { phase: 'after', operation: idle, sets: [], toll: free, edges };
}

function resetReadings(making: Making, callee: Frame): readonly Change[] {
  const own = [...callee.readings.values()].map((variable) => ({ variable, kind: 'assign', mask: 1n }) as const);
  return [...own, ...[...callee.callees.values()].flatMap((each) => resetReadings(making, each))];
}

function edgesOf(
  making: Making,
  node: Node,
  from: { frame: Frame; index: number; progress: Progress },
  outcome: Outcome,
): readonly Edge[] {
  const { written } = outcome;
  const targets = written ? goTo(making, from, written.go) : goOn(making, from.frame, from.index, from.progress);
  if (!targets) {
    if (node.place)
      making.lost.set(`${node.frame?.id} ${node.index} ${outcome.branch} ${outcome.answer} ${outcome.elses}`, {
        place: node.place,
        outcome,
      });
    return [];
  }
  const failedAct = outcome.branch === 'otherwise';
  const means = failedAct ? [] : conditionsOf(making, node, outcome.means);
  return targets.map((to) => ({
    to,
    operation: failedAct ? idle : readingOperation(making, node, outcome, means),
    taken: takenOf(making, outcome, to),
    means,
    ...tollOf(making, node, outcome),
    ...enteredBy(making, to, from.frame),
    back: isBack(making, from, to, written !== undefined),
  }));
}

function tollOf(making: Making, node: Node, { uses, after }: Outcome): Toll {
  return {
    ...(uses ? { uses: counterOf(making, node, uses) } : {}),
    after: after.map((count) => counterOf(making, node, count)),
  };
}

function enteredBy(making: Making, to: number, from: Frame): { enters?: Frame } {
  const target = making.nodes[to]?.frame;
  return target?.end && !from.end ? { enters: target } : {};
}

function isBack(making: Making, from: { frame: Frame; index: number }, to: number, written: boolean): boolean {
  const target = making.nodes[to];
  return written && target?.kind === 'step' && target.frame === from.frame && target.index <= from.index;
}

function takenOf(making: Making, { branch, answer, elses, written }: Outcome, to: number): Taken {
  const target = making.nodes[to];
  return {
    branch,
    ...(answer === undefined ? {} : { answer }),
    elses,
    go: written?.go ?? target?.step?.id ?? target?.end ?? 'done',
    ...(written ? { at: written.at } : {}),
  };
}

function counterOf(making: Making, node: Node, { key, max }: { key: string; max: number }): Counter {
  const id = `${node.frame?.id} ${node.index} ${key}`;
  const known = making.counters.get(id);
  if (known || !node.frame) return known ?? { id: -1, frame: making.frames.main, max };
  const counter = { id: making.counters.size, frame: node.frame, max };
  making.counters.set(id, counter);
  return counter;
}

function conditionsOf(making: Making, node: Node, conditions: readonly ResolvedCondition[]): readonly Wanted[] {
  return conditions.flatMap((condition) => readCondition(making.frames.space, condition, node.actor) ?? []);
}

// Operations are kept once for each step and part, so that what they make of a set is worked out once.
function operationOf(
  making: Making,
  node: Node,
  part: string,
  reset: readonly Change[] = [],
  means: readonly ResolvedCondition[] = [],
): Operation {
  const key = `${node.frame?.id} ${node.index} ${node.kind} ${part}`;
  const known = making.operations.get(key);
  if (known) return known;
  const made = part === 'move' ? moveOperation(making, node) : actOperation(making, node, part === 'act', reset, means);
  making.operations.set(key, made);
  return made;
}

function moveOperation(making: Making, node: Node): Operation {
  const { all } = standing(making, node);
  return { changes: all ? [all] : [], physics: false };
}

// All places that the person comes to in a step, and those where they may stay.
function standing(making: Making, node: Node): { all?: Change; stays?: Change } {
  const { step, frame } = node;
  const people = making.frames.space.states.get('person');
  const variable = people?.find(({ person }) => person === node.actor);
  if (!step || !frame || !variable) return {};
  const places = placesIn(step, frame.procedure);
  const mask = (ids: readonly string[]): bigint =>
    variable.values.reduce((bits, id, i) => (ids.includes(id) ? bits | (1n << BigInt(i)) : bits), 0n);
  const [all, stays] = [mask(places.all), mask(places.stays)];
  const change = (bits: bigint): Change => ({ variable, kind: 'assign', mask: bits });
  return { ...(all ? { all: change(all) } : {}), ...(stays && stays !== all ? { stays: change(stays) } : {}) };
}

function actOperation(
  making: Making,
  node: Node,
  held: boolean,
  reset: readonly Change[],
  means: readonly ResolvedCondition[],
): Operation {
  const { step, frame } = node;
  if (!step || !frame) return idle;
  // behind a procedure that was run the person is where that left them
  const stays = node.kind === 'step' ? standing(making, node).stays : undefined;
  const sets = conditionsOf(making, node, step.sets);
  const assign = ({ variable, mask }: Wanted): Change => ({ variable, kind: 'assign', mask });
  const done = held
    ? sets.map(assign)
    : [
        ...sets.map(({ variable }): Change => ({ variable, kind: 'assign', mask: fullMask(variable) })),
        ...conditionsOf(making, node, means).map(assign),
      ];
  const changes = [...reset, ...(stays ? [stays] : []), ...done, ...agedReadings(frame, step)];
  return { changes, physics: true };
}

function agedReadings(frame: Frame, step: ResolvedStep): readonly Change[] {
  return [...agedValues(frame.procedure, step)].flatMap((id) => {
    const variable = frame.readings.get(id);
    return variable ? [{ variable, kind: 'age', mask: 0n } as const] : [];
  });
}

function readingOperation(making: Making, node: Node, outcome: Outcome, means: readonly Wanted[]): Operation {
  const key = `${node.frame?.id} ${node.index} edge ${outcome.branch} ${outcome.answer} ${outcome.elses}`;
  const known = making.operations.get(key);
  if (known) return known;
  const readings = [...outcome.readings].flatMap(([id, result]): readonly Change[] => {
    const variable: Variable | undefined = node.frame?.readings.get(id);
    const mask = result === 'passed' ? passed : result === 'failed' ? failed : passed | failed;
    return variable ? [{ variable, kind: 'assign', mask }] : [];
  });
  const seen = means.map(({ variable, mask }): Change => ({ variable, kind: 'assign', mask }));
  const made = { changes: [...readings, ...seen], physics: seen.length > 0 };
  making.operations.set(key, made);
  return made;
}
