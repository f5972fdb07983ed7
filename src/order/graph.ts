// All steps of a variant with all ways between them, procedures that are run and any-order groups unrolled. Which way is
// taken never depends on states, only on counts: states are followed along it elsewhere.

import type { End, ResolvedProcedure, ResolvedStep, Variant, World } from '../model/resolved.js';
import { mayFollow, nodesOfGroup, plainMembers } from './any-order.js';
import { actorOf, type Frame, type Frames, layOutFrames, placeOf } from './frames.js';
import {
  actOperation,
  conditionsOf,
  type Doing,
  failedOperation,
  idle,
  moveOperation,
  readingOperation,
} from './operations.js';
import { type Outcome, type Outcomes, outcomesOf } from './outcomes.js';
import type { StepPlace, Taken } from './result.js';
import type { Operation } from './slices.js';
import type { Wanted } from './variables.js';

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
  readonly counters: readonly Counter[];
  /** All that its steps and branches do. */
  readonly operations: readonly Operation[];
  /** The bound was met: the graph is not whole. */
  readonly cut: boolean;
}

const free: Toll = { after: [] };

// Which members of any-order groups are done, for each frame on the way in, as bits by step.
type Progress = readonly bigint[];

interface Making {
  readonly frames: Frames;
  readonly nodes: Node[];
  readonly ids: Map<string, number>;
  readonly waiting: { readonly node: Node; readonly progress: Progress }[];
  readonly outcomes: Map<ResolvedStep, Outcomes>;
  readonly counters: Map<string, Counter>;
  readonly operations: Map<string, Operation>;
  /** By group, its members that need not be tried in every order. */
  readonly plain: Map<string, readonly number[]>;
}

/** Lays out the graph of a variant, of at most `bound` nodes. */
export function makeGraph(variant: Variant, world: World, bound: number): Graph {
  const frames = layOutFrames(variant, world);
  const making: Making = {
    frames,
    nodes: [],
    ids: new Map(),
    waiting: [],
    outcomes: new Map(),
    counters: new Map(),
    operations: new Map(),
    plain: new Map(),
  };
  const most = frames.all.some(({ procedure }) => isTooMuch(procedure, bound)) ? Math.min(bound, fewNodes) : bound;
  const entries = enterFrame(making, frames.main, []);
  let cut = false;
  while (making.waiting.length > 0) {
    if (making.nodes.length > most) {
      cut = true;
      break;
    }
    const next = making.waiting.pop();
    if (next) fillNode(making, next.node, next.progress);
  }
  const { nodes, counters, operations } = making;
  return {
    frames,
    nodes,
    entries,
    counters: [...counters.values()],
    operations: [...operations.values()],
    cut,
  };
}

// A group that comes to more nodes than may be looked at is not begun: a part of it proves nothing.
const fewNodes = 500;

function isTooMuch(procedure: ResolvedProcedure, bound: number): boolean {
  const groups = procedure.anyOrder.map((ids) => membersOf(procedure, ids));
  return groups.some((group) => group.length > 1 && nodesOfGroup(procedure, group) > bound);
}

function membersOf({ steps }: ResolvedProcedure, ids: readonly string[]): readonly number[] {
  return steps.flatMap((step, at) => (ids.includes(step.id) ? [at] : []));
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
  const isDone = (member: number): boolean => ((done.at(-1) ?? 0n) & bitsOf([member])) !== 0n;
  const plain = plainOf(making, frame, group);
  const rest = group.filter((member) => !isDone(member) && mayFollow(plain, member, isDone));
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
  const members = membersOf(procedure, ids);
  return members.length > 1 ? members : undefined;
}

function plainOf({ plain }: Making, { procedure }: Frame, group: readonly number[]): readonly number[] {
  const key = `${procedure.id} ${group.join()}`;
  const members = plain.get(key) ?? plainMembers(procedure, group);
  plain.set(key, members);
  return members;
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
  const doing: Doing = { space: making.frames.space, frame, index, step, returned: kind === 'return' };
  const callee = frame.callees.get(index);
  if (kind === 'step') {
    const move = kept(making, node, 'move', () => moveOperation(doing));
    if (move.changes.length > 0) (node as { move?: Operation }).move = move;
    if (callee) {
      node.acts.push(callAct(making, callee, progress));
      return;
    }
  }
  const outcomes = making.outcomes.get(step) ?? outcomesOf(step, frame.procedure);
  making.outcomes.set(step, outcomes);
  const leaving: Leaving = { node, doing, progress };
  node.acts.push({
    phase: 'after',
    operation: kept(making, node, 'act', () => actOperation(doing)),
    sets: conditionsOf(doing, step.sets),
    toll: free,
    edges: outcomes.held.flatMap((outcome) => edgesOf(making, leaving, outcome)),
  });
  for (const outcome of outcomes.failed) {
    node.acts.push({
      phase: 'failed',
      operation: kept(making, node, `failed ${outcome.elses}`, () => failedOperation(doing, outcome.means)),
      sets: conditionsOf(doing, outcome.means),
      toll: tollOf(making, node, outcome),
      edges: edgesOf(making, leaving, outcome),
    });
  }
}

// Operations are kept once for each step and part, so that what they make of a set is worked out once.
function kept(making: Making, node: Node, part: string, make: () => Operation): Operation {
  const key = `${node.frame?.id} ${node.index} ${node.kind} ${part}`;
  const operation = making.operations.get(key) ?? make();
  making.operations.set(key, operation);
  return operation;
}

function callAct(making: Making, callee: Frame, progress: Progress): Act {
  const taken: Taken = { branch: 'run', elses: 0, go: callee.procedure.id };
  const edges = enterFrame(making, callee, progress).map((to) => {
    return { to, operation: idle, taken, means: [], after: [], enters: callee, back: false };
  });
  return { phase: 'after', operation: idle, sets: [], toll: free, edges };
}

interface Leaving {
  readonly node: Node;
  readonly doing: Doing;
  readonly progress: Progress;
}

function edgesOf(making: Making, { node, doing, progress }: Leaving, outcome: Outcome): readonly Edge[] {
  const { written, branch, answer, elses } = outcome;
  const from = { frame: doing.frame, index: doing.index, progress };
  const targets = written ? goTo(making, from, written.go) : goOn(making, from.frame, from.index, progress);
  // a target that these rigs lack is a fault of its own
  if (!targets) return [];
  const failedAct = branch === 'otherwise';
  const means = failedAct ? [] : conditionsOf(doing, outcome.means);
  const part = `edge ${branch} ${answer} ${elses}`;
  const operation = failedAct ? idle : kept(making, node, part, () => readingOperation(doing, outcome, means));
  return targets.map((to) => ({
    to,
    operation,
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
