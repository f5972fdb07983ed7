// Turns a path found by the search into the trace that is shown, and finds where on it a fact was lost.

import type { Graph, Node } from './graph.js';
import { after, type Moment, possibleAtoms, type Sets, startSets } from './moment.js';
import type { Point } from './question.js';
import type { FactLoss, StateSet, TraceEntry } from './result.js';
import type { Hit, Stride } from './search.js';
import type { Literal, Operation, Slice } from './slices.js';
import { asStateSet, atomsOf, maskOf, type Space, type Variable } from './variables.js';

/** A path walked once more, with the states at every point of it. */
export interface Replay {
  readonly slice: Slice;
  readonly space: Space;
  readonly points: readonly ReplayPoint[];
  /** Where the question was met. */
  readonly moment: Moment;
  readonly trace: readonly TraceEntry[];
}

type Part = 'start' | 'move' | 'act' | 'failed' | 'edge';

interface ReplayPoint {
  readonly node?: Node;
  readonly part: Part;
  readonly act: number;
  readonly edge: number;
  readonly sets: Sets;
  /** Which entry of the trace it belongs to. */
  readonly entry: number;
  readonly operation?: Operation;
}

/** Walks the path of a hit again for the variables of `slice`. */
export function replay(graph: Graph, slice: Slice, { path, question }: Hit): Replay {
  const { space } = graph.frames;
  const points: ReplayPoint[] = [{ part: 'start', act: 0, edge: 0, sets: startSets(slice), entry: -1 }];
  const trace: TraceEntry[] = [];
  let sets = startSets(slice);
  const last = graph.nodes[question.node];
  const strides: readonly (Stride & { upTo?: Point })[] = last
    ? [...path, { node: last, ...numbersOf(question.point), upTo: question.point }]
    : path;
  let moment: Moment = { sets };
  for (const stride of strides) {
    const walked = walkStride(slice, stride, sets);
    const entry = entryOf({ slice, space }, stride, sets, walked);
    if (entry) trace.push(entry);
    points.push(...walked.map((point) => ({ ...point, entry: trace.length - 1 })));
    moment = walked.at(-1)?.moment ?? { sets };
    sets = moment.sets;
  }
  return { slice, space, points, moment, trace };
}

function numbersOf(point: Point): { act: number; edge: number } {
  return { act: 'act' in point ? point.act : 0, edge: 'edge' in point ? point.edge : 0 };
}

interface WalkedPoint extends Omit<ReplayPoint, 'entry'> {
  readonly moment: Moment;
}

function walkStride(slice: Slice, stride: Stride & { upTo?: Point }, start: Sets): readonly WalkedPoint[] {
  const { node, act, edge, upTo } = stride;
  const points: WalkedPoint[] = [];
  const add = (part: Part, moment: Moment, operation?: Operation): void => {
    points.push({ node, part, act, edge, sets: moment.sets, moment, ...(operation ? { operation } : {}) });
  };
  if (upTo?.kind === 'before') return points;
  const moved = node.move ? after(slice, start, node.move) : { sets: start };
  add('move', moved, node.move);
  const done = node.acts[act];
  if (!done || upTo?.kind === 'entered') return points;
  const acted = after(slice, moved.sets, done.operation);
  add(done.phase === 'failed' ? 'failed' : 'act', acted, done.operation);
  const way = done.edges[edge];
  if (!way || upTo?.kind === 'act') return points;
  add('edge', after(slice, acted.sets, way.operation), way.operation);
  return points;
}

// One entry of the trace; nothing for an end, nor for a return from another procedure after which nothing is done.
function entryOf(
  { slice, space }: { slice: Slice; space: Space },
  { node, act, edge, upTo }: Stride & { upTo?: Point },
  start: Sets,
  walked: readonly WalkedPoint[],
): TraceEntry | undefined {
  const { step, place, frame } = node;
  if (!step || !place || !frame) return undefined;
  const runs = node.kind === 'step' && frame.callees.has(node.index);
  const acted = walked.some(({ part }) => part === 'act' || part === 'failed') && !runs;
  const held = acted && node.acts[act]?.phase === 'after';
  const way = node.acts[act]?.edges[edge];
  const left = way !== undefined && walked.some(({ part }) => part === 'edge');
  const seen = node.acts[act]?.phase === 'failed' && acted ? (node.acts[act]?.sets ?? []) : left ? way.means : [];
  const entry: TraceEntry = {
    place,
    by: node.actor,
    ...standing(slice, node, start, walked),
    sets: acted ? setsOf(space, node) : [],
    means: seen.map(({ variable, mask }) => asStateSet(space, variable, mask)),
    physics: acted ? physicsOf({ slice, space }, walked) : [],
    measured: held ? step.measure : [],
    adjusted: acted ? step.adjust : [],
    ...(left ? { taken: way.taken } : {}),
  };
  const silent = node.kind === 'return' && !upTo && way?.taken.branch === 'next';
  const empty = [entry.sets, entry.means, entry.physics, entry.measured, entry.adjusted].every(
    ({ length }) => length === 0,
  );
  return silent && empty ? undefined : entry;
}

function setsOf(space: Space, node: Node): readonly StateSet[] {
  const held = node.acts.find(({ phase }) => phase === 'after');
  return (held?.sets ?? []).map(({ variable, mask }) => asStateSet(space, variable, mask));
}

function standing(
  slice: Slice,
  node: Node,
  start: Sets,
  walked: readonly WalkedPoint[],
): Pick<TraceEntry, 'stands' | 'moved'> {
  const variable = [...slice.places.keys()].find(({ kind, person }) => kind === 'person' && person === node.actor);
  const moved = walked.find(({ part }) => part === 'move')?.sets ?? start;
  const goes = node.move?.changes[0];
  if (variable)
    return {
      stands: variable.values.filter(
        (_, i) => maskOf(variable, possibleAtoms(slice, variable, moved)) & (1n << BigInt(i)),
      ),
      moved: goes !== undefined,
    };
  if (!goes) return { stands: [], moved: false };
  return { stands: goes.variable.values.filter((_, i) => goes.mask & (1n << BigInt(i))), moved: true };
}

// What laws changed in a step, as far as the slice shows it.
function physicsOf(
  { slice, space }: { slice: Slice; space: Space },
  walked: readonly WalkedPoint[],
): TraceEntry['physics'] {
  const found: TraceEntry['physics'][number][] = [];
  for (const { moment, operation } of walked) {
    if (!operation?.physics || !moment.act) continue;
    const assigned = new Set(operation.changes.map(({ variable }) => variable));
    for (const variable of slice.places.keys()) {
      if (assigned.has(variable)) continue;
      const before = maskOf(variable, possibleAtoms(slice, variable, moment.act.before));
      const mask = maskOf(variable, possibleAtoms(slice, variable, moment.sets));
      if (mask === before) continue;
      const at = lawOf(slice, variable, moment.sets);
      if (at) found.push({ ...asStateSet(space, variable, mask), at });
    }
  }
  return found;
}

function lawOf(slice: Slice, variable: Variable, sets: Sets): TraceEntry['physics'][number]['at'] | undefined {
  const place = slice.places.get(variable);
  const component = place && slice.components[place.component];
  const boxes = (place && component?.sets[sets[place.component] ?? 0]) ?? [];
  const acts = component?.laws.filter(({ effects }) => effects.some((each) => each.variable === variable)) ?? [];
  const holds = acts.find(({ when }) => boxes.some((box) => box.every((bits, i) => (bits & (when[i] ?? 0n)) !== 0n)));
  return (holds ?? acts[0])?.law.at;
}

/** What a variable may be where the question was met, and where `literals` hold. */
export function valuesAt({ slice, moment }: Replay, variable: Variable, literals: readonly Literal[]): bigint {
  const mask = maskOf(variable, possibleAtoms(slice, variable, moment.sets, literals));
  return mask === 0n
    ? maskOf(variable, possibleAtoms(slice, variable, moment.act?.before ?? moment.sets, literals))
    : mask;
}

/** Where on the path it was last certain that the variable is among `atoms`, or else where it was last touched. */
export function findLoss(replayed: Replay, variable: Variable, atoms: bigint): FactLoss {
  const { slice, points } = replayed;
  let lost: ReplayPoint | undefined;
  let touched: ReplayPoint | undefined;
  let before = -1n;
  for (const point of points) {
    const now = possibleAtoms(slice, variable, point.sets);
    const set = point.operation?.changes.some((change) => change.variable === variable) ?? false;
    if (point.node && (now !== before || set)) touched = point;
    if ((now & ~atoms) === 0n) lost = undefined;
    else if (point.node && (before & ~atoms) === 0n) lost = point;
    before = now;
  }
  const point = lost ?? touched;
  return point?.node && point.entry >= 0 ? lossAt(replayed, { point, variable, atoms }) : { kind: 'start' };
}

interface Lost {
  readonly point: ReplayPoint;
  readonly variable: Variable;
  readonly atoms: bigint;
}

function lossAt({ slice, trace }: Replay, { point, variable, atoms }: Lost): FactLoss {
  const { node, part, operation, entry } = point;
  const step = node?.step;
  const at = step?.at ?? trace[entry]?.place.at;
  if (!node || !step || !at) return { kind: 'start' };
  const change = operation?.changes.find((each) => each.variable === variable);
  if (variable.kind === 'reading') {
    const how = part === 'edge' ? 'reading' : step.adjust.length > 0 ? 'adjust' : 'stale';
    return { kind: 'step', entry, how, at };
  }
  // what the step makes of it would do, so a law undid it
  const undone = change !== undefined && (atomsOf(variable, change.mask) & ~atoms) === 0n;
  if (!change || undone) return { kind: 'step', entry, how: 'physics', at: lawOf(slice, variable, point.sets) ?? at };
  const how = part === 'move' ? 'moved' : part === 'edge' ? 'means' : part === 'act' ? 'sets' : 'failed';
  const set = step.sets.find(({ state }) => state === variable.id);
  const moved = how === 'sets' && variable.kind === 'person' && !set;
  return { kind: 'step', entry, how: moved ? 'moved' : how, at: set && how === 'sets' ? set.at : at };
}
