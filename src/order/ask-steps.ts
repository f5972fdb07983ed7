// Steps as questions: their needs, what they read and turn, what they run, and what must hold throughout.

import type { ResolvedCondition } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import { askConflicts, askForced, askRules, askUnchanged, isSuspended } from './ask-rules.js';
import { type Asking, askWanted, type Spot } from './asking.js';
import type { Frame } from './frames.js';
import type { Act, Edge, Node } from './graph.js';
import { placesIn, readingsIn } from './places.js';
import type { Claim } from './question.js';
import {
  absent,
  fullMask,
  maskOfWords,
  personState,
  readCondition,
  stale,
  type Variable,
  type Wanted,
} from './variables.js';

/** All that is asked of a step. */
export function askStep(asking: Asking, node: Node): void {
  const { step, frame, kind } = node;
  if (!step || !frame) return;
  const { space } = asking.graph.frames;
  const read = (conditions: readonly ResolvedCondition[]): readonly Wanted[] =>
    conditions.flatMap((condition) => readCondition(space, condition, node.actor) ?? []);
  const entered: Spot = { node, point: { kind: 'entered' } };
  if (kind === 'step') {
    for (const wanted of read(step.needs)) {
      askWanted(asking, { node, point: { kind: 'before' } }, wanted, {
        kind: 'need-not-met',
        at: wanted.condition.at,
        phase: 'before',
      });
    }
    askRules(asking, entered, 'entered');
  }
  const runs = kind === 'step' && frame.callees.has(node.index);
  node.acts.forEach((act, number) => {
    if (!runs) askAct(asking, { node, point: { kind: 'act', act: number } }, act);
    act.edges.forEach((edge, at) => {
      askEdge(asking, { node, point: { kind: 'edge', act: number, edge: at } }, edge);
    });
  });
  if (runs) return;
  for (const id of new Set(step.sets.map(({ state }) => state))) {
    const source = asking.world.variables.find((each) => each.id === id);
    const set = step.sets.find(({ state }) => state === id);
    for (const wanted of read(source?.movesWhen ?? [])) {
      askWanted(asking, entered, wanted, { kind: 'moves-when', at: set?.at ?? step.at, phase: 'entered', value: id });
    }
  }
  askInstruments(asking, entered, read);
  askAdjusters(asking, entered);
}

// What an instrument needs must hold where it is read; what the step itself sets is asked of after the act.
function askInstruments(
  asking: Asking,
  entered: Spot,
  read: (conditions: readonly ResolvedCondition[]) => readonly Wanted[],
): void {
  const { step, frame } = entered.node;
  if (!step || !frame) return;
  for (const { id, needs } of readingsIn(step, frame.procedure)) {
    for (const wanted of read(needs)) {
      const own = step.sets.some(({ state }) => state === wanted.condition.state);
      const spot: Spot = own ? { node: entered.node, point: { kind: 'act', act: 0 } } : entered;
      askWanted(asking, spot, wanted, {
        kind: 'instrument-needs',
        at: step.at,
        phase: own ? 'after' : 'entered',
        value: id,
      });
    }
  }
}

function askAdjusters(asking: Asking, { node, point }: Spot): void {
  const { step, frame } = node;
  for (const id of step?.adjust ?? []) {
    const adjuster = frame?.procedure.adjusters.find((each) => each.id === id);
    const literals = [...(adjuster?.moves.keys() ?? [])].flatMap((value) => {
      const variable = frame?.readings.get(value);
      return variable ? [{ variable, atoms: absent | stale }] : [];
    });
    if (!step || literals.length === 0) continue;
    asking.found.push({
      id: `adjust ${frame?.id} ${node.index} ${id}`,
      family: `adjust ${frame?.id} ${node.index} ${id}`,
      node: node.id,
      point,
      test: { kind: 'exists', literals },
      claim: { kind: 'adjust-without-reading', at: step.at, phase: 'entered', value: id },
    });
  }
}

function askAct(asking: Asking, spot: Spot, act: Act): void {
  const { node } = spot;
  const { step, frame } = node;
  if (!step || !frame) return;
  askRules(asking, spot, act.phase);
  askForced(asking, spot, act.sets, act.phase === 'after' ? 'sets' : 'means');
  for (const each of asking.rules) {
    if (each.nodes.has(node.id) && !isSuspended(each, node)) askUnchanged(asking, spot, each, act.phase);
  }
  if (!endsEarly(act)) askThroughout(asking, spot, act.phase);
  if (act.phase === 'after') askDerived(asking, spot);
  askConflicts(asking, spot, act.phase);
}

// Where a failed step leads straight to an early end, the procedure has come to nothing anyway.
function endsEarly({ phase, edges }: Act): boolean {
  return phase === 'failed' && edges.every(({ taken }) => taken.go === 'stop' || taken.go === 'call-service');
}

function askThroughout(asking: Asking, spot: Spot, phase: Claim['phase']): void {
  for (let frame = spot.node.frame; frame; frame = frame.caller?.frame) {
    for (const { condition, throughout } of frame.procedure.requires) {
      if (!throughout) continue;
      const wanted = readCondition(asking.graph.frames.space, condition, spot.node.actor);
      if (wanted)
        askWanted(asking, spot, wanted, { kind: 'throughout-broken', at: spot.node.step?.at ?? condition.at, phase });
    }
  }
}

// A derived value is decided from what is fresh then; what the same step reads is.
function askDerived(asking: Asking, { node, point }: Spot): void {
  const { step, frame } = node;
  for (const id of step?.measure ?? []) {
    const inputs = frame?.procedure.values.find((value) => value.id === id)?.derived?.inputs ?? [];
    for (const input of inputs) {
      const variable = frame?.readings.get(input);
      if (!step || !variable || step.measure.includes(input)) continue;
      for (const [reading, atoms] of [
        ['absent', absent],
        ['stale', stale],
      ] as const) {
        asking.found.push({
          id: `derived ${frame?.id} ${node.index} ${id} ${input} ${reading}`,
          family: `derived ${frame?.id} ${node.index} ${id} ${input}`,
          node: node.id,
          point,
          test: { kind: 'exists', literals: [{ variable, atoms }] },
          claim: {
            kind: 'derived-from-stale',
            at: step.at,
            phase: 'after',
            value: id,
            input,
            reading,
            wanted: fresh(variable, step.at),
          },
        });
      }
    }
  }
}

function fresh(variable: Variable, at: Span): NonNullable<Claim['wanted']> {
  return { variable, mask: fullMask(variable) & ~(absent | stale), texts: ['fresh'], at };
}

function askEdge(asking: Asking, spot: Spot, edge: Edge): void {
  askForced(asking, spot, edge.means, 'means');
  if (edge.enters) askCall(asking, spot, edge, edge.enters);
}

function askCall(asking: Asking, spot: Spot, edge: Edge, callee: Frame): void {
  const { space } = asking.graph.frames;
  const at = spot.node.step?.at ?? callee.procedure.source.at;
  const claim = { at, phase: 'entered', callee: callee.procedure.id } as const;
  for (const { condition } of callee.procedure.requires) {
    const wanted = readCondition(space, condition, callee.first);
    if (wanted) askWanted(asking, spot, wanted, { kind: 'requires-not-met-at-run', ...claim });
  }
  const assumed = assumedPlace(asking, callee);
  if (!assumed || (callee.end && !callee.caller && movesFirst(asking, edge))) return;
  askWanted(asking, spot, assumed, { kind: 'place-not-met-at-run', ...claim });
}

// Where a procedure takes whoever does it to be, unless its `requires` say so themselves.
function assumedPlace({ graph, world }: Asking, { procedure, first }: Frame): Wanted | undefined {
  const source = world.variables.find(({ id }) => id === personState);
  if (!source?.start || procedure.requires.some(({ condition }) => condition.state === personState)) return undefined;
  const variable = graph.frames.space.states.get(personState)?.find(({ person }) => person === first);
  if (!variable) return undefined;
  const words = [source.start];
  const condition: ResolvedCondition = { state: personState, test: { kind: 'words', words }, at: procedure.source.at };
  return { variable, mask: maskOfWords(variable, words), condition };
}

// An end may be reached from anywhere: what is run then need not ask where a person is that it moves at once.
function movesFirst({ graph }: Asking, { to }: Edge): boolean {
  const { step, frame } = graph.nodes[to] ?? {};
  return step !== undefined && frame !== undefined && placesIn(step, frame.procedure).all.length > 0;
}
