// Proves the order of a variant's steps over all paths. Facts only: it says nothing in words and reads nothing.
//
//   start ─ step ─ step ─┬─ step ─ done       what may hold at each step is followed as sets, for each question only
//            ^           └─ step ─ stop       of the states that it depends on; a yes is followed path by path
//
import type { End, ResolvedProcedure, ResolvedStep, Variant, World } from '../model/resolved.js';
import { type Keep, keepResults } from '../text/keep.js';
import { askBack } from './ask-back.js';
import { findFacts } from './facts.js';
import { placeOf } from './frames.js';
import { type Graph, makeGraph } from './graph.js';
import type { Outcomes } from './outcomes.js';
import { makeLaws } from './physics.js';
import { nodesWhere, type Proving, spreadOf } from './proving.js';
import type { Question } from './question.js';
import { variablesOf } from './question.js';
import { askAll } from './questions.js';
import { addRepairs } from './repair.js';
import { reportHits } from './report.js';
import type { IdleBranch, OrderResult, ProofOptions, StepPlace, Violation, ViolationKind } from './result.js';
import { answerAt, type Hit, questionsByNode, searchCounted } from './search.js';
import { allOutcomes, findShapeFaults } from './shape.js';
import { signatureOf } from './signature.js';
import { type Component, makeSlicer, type Slice } from './slices.js';
import { sortViolations } from './sort-violations.js';
import { type Budget, type Spread, spread } from './spread.js';
import { findStart, startViolations } from './start.js';
import { atomsOf, fullMask, type Variable } from './variables.js';

export interface ProverOptions extends Pick<ProofOptions, 'budget'> {
  /** Procedures of the book that a repair of this variant may run. */
  readonly procedures?: (variant: Variant) => readonly ResolvedProcedure[];
  /** What was proved before; without it nothing is forgotten. */
  readonly keep?: Keep;
}

/** A prover that works out variants whose steps, branches and needs are equal only once. */
export function makeProver(world: World, options: ProverOptions): (variant: Variant) => OrderResult {
  const { budget, procedures, keep = keepResults(1).keep } = options;
  return (variant) => {
    const { id } = variant.procedure;
    const signature = keep(`signature ${variant.id}`, [variant], () => signatureOf(variant));
    const result = keep(`order ${id}`, [world, signature], () => proveAsWritten(variant, world, budget));
    if (!isMendable(result)) return result;
    const own = runnableIn(variant);
    const others = procedures?.(variant).filter((other) => own.every(({ id: known }) => known !== other.id)) ?? [];
    const runnable = [...own, ...others];
    return keep(`repairs ${id}`, [result, ...runnable], () =>
      withRepairs(result, variant, { world, budget, procedures: runnable }),
    );
  };
}

/** Follows every path of `variant` from every state that may be there at its start. */
export function proveVariant(variant: Variant, world: World, options: ProofOptions): OrderResult {
  const { budget, procedures = runnableIn(variant) } = options;
  const result = proveAsWritten(variant, world, budget);
  if (options.repairs === false || !isMendable(result)) return result;
  return withRepairs(result, variant, { world, budget, procedures });
}

function isMendable({ violations, complete }: OrderResult): boolean {
  return violations.length > 0 && complete;
}

function withRepairs(
  result: OrderResult,
  variant: Variant,
  { world, budget, procedures }: { world: World; budget: number; procedures: readonly ResolvedProcedure[] },
): OrderResult {
  let spent = 0;
  const violations = addRepairs(
    {
      procedure: variant.procedure,
      world,
      procedures,
      prove: (procedure) => {
        if (spent > repairEffort(result.explored)) return undefined;
        const after = proveAsWritten({ ...variant, procedure }, world, budget);
        spent += after.explored;
        return after.complete ? after : undefined;
      },
    },
    result,
  );
  return { ...result, violations };
}

// Looking for repairs costs a few proofs more at most; a procedure with many faults is mended from the first on.
function repairEffort(explored: number): number {
  return Math.max(20_000, 2 * explored);
}

function runnableIn({ procedure, ends }: Variant): readonly ResolvedProcedure[] {
  return runBy([procedure, ...ends.values()], new Map());
}

function runBy(
  procedures: readonly ResolvedProcedure[],
  found: Map<string, ResolvedProcedure>,
): readonly ResolvedProcedure[] {
  for (const { steps } of procedures) {
    for (const { run } of steps) {
      if (!run || found.has(run.id)) continue;
      found.set(run.id, run);
      runBy([run], found);
    }
  }
  return [...found.values()];
}

function proveAsWritten(variant: Variant, world: World, bound: number): OrderResult {
  const graph = makeGraph(variant, world, bound);
  const { space } = graph.frames;
  const laws = makeLaws(world, space);
  const slicer = makeSlicer(space, laws, findStart(graph.frames, world));
  const budget: Budget = { left: bound, explored: 0 };
  const proving: Proving = { graph, world, slicer, laws, budget, spreads: new Map() };
  const outcomes = allOutcomes(variant.procedure);
  const shape = shapeViolations(graph, variant.procedure, outcomes);
  const impossible = startViolations(graph.frames, slicer, world);
  const questions = impossible.length > 0 ? [] : askEverything(proving);
  const hits = findHits(proving, questions);
  const violations = [...impossible, ...shape, ...reportHits(graph, slicer, hits)];
  const facts = impossible.length > 0 ? [] : findFacts(proving, hits);
  return {
    violations: sortViolations(violations, variant.procedure),
    ...reachOf(graph, outcomes),
    ends: endsOf(graph),
    triggered: new Set(hits.flatMap(({ question }) => question.triggers?.id ?? [])),
    facts,
    asked: countAsked(questions),
    explored: budget.explored,
    complete: !graph.cut && budget.left >= 0,
  };
}

// Questions of one id ask the same at several points of one step.
function countAsked(questions: readonly Question[]): OrderResult['asked'] {
  const kinds = new Map(questions.flatMap(({ id, claim }) => (claim ? [[id, claim.kind] as const] : [])));
  const asked = new Map<ViolationKind, number>();
  for (const kind of kinds.values()) asked.set(kind, (asked.get(kind) ?? 0) + 1);
  return asked;
}

function askEverything(proving: Proving): readonly Question[] {
  const { graph, world, laws, slicer } = proving;
  const forward = new Map<Component, Spread>();
  const back = askBack(graph, (frame, index, { variable, mask }) => {
    const slice = slicer.sliceFor([variable]);
    const place = slice.places.get(variable);
    const component = place && slice.components[place.component];
    if (!place || !component) return false;
    const reached = forward.get(component) ?? spread(graph, component, proving.budget, (edge) => !edge.back);
    forward.set(component, reached);
    const outside = atomsOf(variable, fullMask(variable) & ~mask);
    const nodes = graph.nodes.filter((node) => node.kind === 'step' && node.frame === frame && node.index === index);
    const sets = nodes.flatMap(({ id }) => reached.get(id) ?? []);
    const boxes = sets.flatMap((set) => component.sets[set] ?? []);
    return boxes.length > 0 && boxes.every((box) => ((box[place.index] ?? 0n) & outside) === 0n);
  });
  const asked = { graph, world, laws, contested: slicer.contested };
  return [...askAll({ ...asked, nodesWhere: (literals) => nodesWhere(proving, literals) }), ...back];
}

// Each family by itself: first what the union over all paths already denies, then path by path.
function findHits(proving: Proving, questions: readonly Question[]): readonly Hit[] {
  const families = new Map<string, Question[]>();
  for (const question of questions) {
    const family = families.get(question.family);
    if (family) family.push(question);
    else families.set(question.family, [question]);
  }
  return [...families.values()].flatMap((family) => findFamilyHits(proving, family));
}

function findFamilyHits(proving: Proving, family: readonly Question[]): readonly Hit[] {
  const { graph, slicer, budget } = proving;
  const slice = slicer.sliceFor(distinctVariables(family));
  if (!mayBeMet(proving, slice, family)) return [];
  return [...searchCounted({ graph, slice, questions: family, counters: [], budget }).values()];
}

function distinctVariables(family: readonly Question[]): readonly Variable[] {
  return [...new Set(family.flatMap((question) => variablesOf(question)))];
}

function mayBeMet(proving: Proving, slice: Slice, family: readonly Question[]): boolean {
  const spreads = slice.components.map((component) => spreadOf(proving, component));
  for (const [id, questions] of questionsByNode(family)) {
    const sets = spreads.map((reached) => reached.get(id));
    const node = proving.graph.nodes[id];
    if (!node || sets.some((set) => set === undefined)) continue;
    if (
      answerAt(
        slice,
        node,
        sets.map((set) => set ?? 0),
        questions,
      ).size > 0
    )
      return true;
  }
  return false;
}

function shapeViolations(
  graph: Graph,
  procedure: ResolvedProcedure,
  outcomes: ReadonlyMap<ResolvedStep, Outcomes>,
): readonly Violation[] {
  const { main, cycles } = graph.frames;
  const base = { phase: 'before', missing: [], triggeredBy: [], cycle: [], trace: [] } as const;
  const faults = findShapeFaults(procedure, outcomes).map(({ step, ...fault }): Violation => {
    return { ...base, ...fault, place: placeOf(main, step) };
  });
  const runs = cycles.map(({ chain, step, frame }): Violation => {
    return {
      ...base,
      kind: 'run-cycle',
      place: placeOf(frame, step),
      at: step.at,
      cycle: chain,
      callee: chain.at(-1) ?? '',
    };
  });
  return [...faults, ...runs];
}

function reachOf(
  graph: Graph,
  outcomes: ReadonlyMap<ResolvedStep, Outcomes>,
): Pick<OrderResult, 'unreachable' | 'idle'> {
  const { main } = graph.frames;
  const own = graph.nodes.filter(({ frame }) => frame === main);
  const reached = new Set(own.map(({ index }) => index));
  const places = (indexes: (index: number) => boolean): readonly StepPlace[] =>
    main.procedure.steps.flatMap((step, index) => (indexes(index) ? [placeOf(main, step)] : []));
  const idle = main.procedure.steps.flatMap((step): readonly IdleBranch[] =>
    (outcomes.get(step)?.idle ?? []).map((branch) => ({ ...branch, place: placeOf(main, step) })),
  );
  return {
    // a graph that was cut says nothing of what lies behind the cut
    unreachable: graph.cut ? [] : places((index) => !reached.has(index)),
    idle,
  };
}

function endsOf({ nodes }: Graph): ReadonlySet<End> {
  return new Set(nodes.flatMap(({ end, frame }) => end ?? frame?.end ?? []));
}
