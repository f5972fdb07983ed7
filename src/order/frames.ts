// Every place where a procedure of the variant is done: its own steps, each `run` of another, and what its ends run.
// Each has its own readings and counts.

import type { End, ResolvedCondition, ResolvedProcedure, ResolvedStep, Variant, World } from '../model/resolved.js';
import type { StepPlace } from './result.js';
import { addReading, makeSpace, type Space, type Variable } from './variables.js';

export interface Frame {
  readonly id: number;
  readonly procedure: ResolvedProcedure;
  /** The `run` steps that lead here, outermost first. */
  readonly calls: readonly string[];
  readonly numbers: readonly number[];
  readonly caller?: { readonly frame: Frame; readonly index: number };
  /** The end whose procedure this is, or is run by. */
  readonly end?: End;
  /** Who of all people stands in for the first person here: whoever runs it. */
  readonly first: number;
  readonly readings: ReadonlyMap<string, Variable>;
  /** By index of the step that runs it. */
  readonly callees: Map<number, Frame>;
}

export interface Frames {
  readonly main: Frame;
  readonly ends: ReadonlyMap<End, Frame>;
  readonly all: readonly Frame[];
  readonly space: Space;
  /** Procedures that run themselves: the chain of ids, and the step that closes it. */
  readonly cycles: readonly { readonly chain: readonly string[]; readonly step: ResolvedStep; readonly frame: Frame }[];
}

/** Lays out the frames of a variant and the variables of the whole proof. */
export function layOutFrames(variant: Variant, world: World): Frames {
  const procedures = [variant.procedure, ...variant.ends.values()];
  const space = makeSpace(world, Math.max(1, ...procedures.map((each) => peopleOf(each, new Set()))), [
    ...worldConditions(world),
    ...procedures.flatMap((each) => procedureConditions(each, new Set())),
  ]);
  const all: Frame[] = [];
  const cycles: { chain: string[]; step: ResolvedStep; frame: Frame }[] = [];
  const lay = (procedure: ResolvedProcedure, chain: readonly string[], around: Around): Frame => {
    const frame: Frame = {
      id: all.length,
      procedure,
      ...around,
      readings: new Map(readIds(procedure).map((id) => [id, addReading(space, id)])),
      callees: new Map(),
    };
    all.push(frame);
    procedure.steps.forEach((step, index) => {
      if (!step.run) return;
      const own = [...chain, step.run.id];
      if (chain.includes(step.run.id)) cycles.push({ chain: own, step, frame });
      else frame.callees.set(index, lay(step.run, own, aroundCallee(frame, step, index)));
    });
    return frame;
  };
  const main = lay(variant.procedure, [variant.procedure.id], { calls: [], numbers: [], first: 1 });
  const ends = new Map(
    [...variant.ends].map(([end, procedure]) => {
      return [end, lay(procedure, [procedure.id], { calls: [], numbers: [], first: 1, end })] as const;
    }),
  );
  return { main, ends, all, space, cycles };
}

type Around = Pick<Frame, 'calls' | 'numbers' | 'caller' | 'end' | 'first'>;

function aroundCallee(frame: Frame, step: ResolvedStep, index: number): Around {
  return {
    calls: [...frame.calls, step.id],
    numbers: [...frame.numbers, step.number],
    caller: { frame, index },
    first: actorOf(frame, step.by),
    ...(frame.end ? { end: frame.end } : {}),
  };
}

/** Who of all people does what `by` says in a frame: its first person is whoever runs it, who changes places with the other. */
export function actorOf({ first }: Frame, by: number): number {
  if (by === 1) return first;
  return by === first ? 1 : by;
}

/** The place of a step in a frame. */
export function placeOf(frame: Frame, step: ResolvedStep): StepPlace {
  return {
    procedure: frame.procedure.id,
    step: step.id,
    number: [...frame.numbers, step.number].join('.'),
    calls: frame.calls,
    ...(frame.end ? { end: frame.end } : {}),
    at: step.at,
  };
}

function readIds(procedure: ResolvedProcedure): readonly string[] {
  return [...procedure.values, ...procedure.worksheets].map(({ id }) => id);
}

function peopleOf(procedure: ResolvedProcedure, seen: ReadonlySet<string>): number {
  if (seen.has(procedure.id)) return 1;
  const own = new Set([...seen, procedure.id]);
  const runs = procedure.steps.flatMap(({ run }) => (run ? [peopleOf(run, own)] : []));
  return Math.max(procedure.people, ...procedure.steps.map(({ by }) => by), ...runs);
}

function worldConditions(world: World): readonly ResolvedCondition[] {
  return [
    ...world.variables.flatMap(({ movesWhen }) => movesWhen),
    ...world.physics.flatMap(({ when, then }) => [...when, ...then]),
    ...world.rules.flatMap(({ when, must }) => [...when, ...must]),
    ...[...world.ends.values()].flatMap(({ must }) => must),
  ];
}

function procedureConditions(procedure: ResolvedProcedure, seen: ReadonlySet<string>): readonly ResolvedCondition[] {
  if (seen.has(procedure.id)) return [];
  const own = new Set([...seen, procedure.id]);
  return [
    ...procedure.requires.map(({ condition }) => condition),
    ...procedure.values.flatMap(({ needs }) => needs),
    ...procedure.worksheets.flatMap(({ columns }) => columns.flatMap(({ instrument }) => instrument?.needs ?? [])),
    ...[...procedure.leaves.values()].flat(),
    ...procedure.steps.flatMap((step) => [
      ...step.needs,
      ...step.sets,
      ...branchConditions(step),
      ...(step.run ? procedureConditions(step.run, own) : []),
    ]),
  ];
}

function branchConditions(step: ResolvedStep): readonly ResolvedCondition[] {
  const written = [step.otherwise, ...step.when.values(), ...step.answers.map(({ branch }) => branch), step.then];
  return written.flatMap((branch) => {
    const found: ResolvedCondition[] = [];
    for (let level = branch; level; level = level.otherwise) found.push(...level.means);
    return found;
  });
}
