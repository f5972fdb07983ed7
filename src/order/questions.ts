// Turns the needs, rules, readings and ends of a variant into questions at the points of its graph. Follows no path.

import type { End, ResolvedCondition, ResolvedRule, World } from '../model/resolved.js';
import type { Span } from '../text/source.js';
import { actorOf, type Frame } from './frames.js';
import type { Act, Edge, Graph, Node } from './graph.js';
import type { Law } from './physics.js';
import { placesIn, readingsIn } from './places.js';
import type { Claim, Point, Question } from './question.js';
import type { Literal } from './slices.js';
import {
  absent,
  atomsOf,
  changedAtoms,
  describeMask,
  failed,
  fullMask,
  maskOfWords,
  personState,
  readCondition,
  stale,
  type Variable,
  type Wanted,
} from './variables.js';

/** A world made ready for asking: each rule once for each person that it may be about. */
interface Asking {
  readonly graph: Graph;
  readonly world: World;
  readonly rules: readonly RuleCase[];
  readonly laws: readonly Law[];
  /** Variables of laws that may contradict each other. */
  readonly contested: readonly Variable[];
  readonly found: Question[];
  /** Literals by what they fail: one list for all questions that want the same. */
  readonly failing: Map<string, readonly Literal[]>;
}

interface RuleCase {
  readonly rule: ResolvedRule;
  readonly key: string;
  readonly when: readonly Literal[];
  readonly must: readonly { readonly wanted: Wanted; readonly literals: readonly Literal[] }[];
  readonly unchanged: readonly Variable[];
  /** Nodes where it may trigger. */
  readonly nodes: ReadonlySet<number>;
}

/** What a graph is asked with. */
export interface Asked {
  readonly graph: Graph;
  readonly world: World;
  readonly laws: readonly Law[];
  /** Variables of laws that may contradict each other. */
  readonly contested: readonly Variable[];
  /** The nodes where all literals may hold together; more do no harm. */
  readonly nodesWhere: (literals: readonly Literal[]) => ReadonlySet<number>;
}

/** All questions of a variant. */
export function askAll(asked: Asked): readonly Question[] {
  const { graph } = asked;
  const asking: Asking = { ...asked, rules: ruleCases(asked), found: [], failing: new Map() };
  for (const node of graph.nodes) {
    if (node.kind === 'final') askFinal(asking, node);
    else askStep(asking, node);
  }
  return asking.found;
}

function ruleCases({ graph, world, nodesWhere }: Asked): readonly RuleCase[] {
  const { space } = graph.frames;
  return world.rules.flatMap((rule) => {
    const personal = [...rule.when, ...rule.must].some(({ state }) => state === personState);
    const persons = personal ? Array.from({ length: space.people }, (_, i) => i + 1) : [1];
    return persons.map((person) => {
      const read = (conditions: readonly ResolvedCondition[]): readonly Wanted[] =>
        conditions.flatMap((condition) => readCondition(space, condition, person) ?? []);
      const when = read(rule.when).map(holding);
      return {
        rule,
        key: `rule ${rule.id} ${person}`,
        when,
        must: read(rule.must).map((wanted) => ({ wanted, literals: [...when, failing(wanted)] })),
        nodes: nodesWhere(when),
        unchanged: rule.unchanged.flatMap((state) => space.states.get(state) ?? []),
      };
    });
  });
}

function holding({ variable, mask }: Pick<Wanted, 'variable' | 'mask'>): Literal {
  return { variable, atoms: atomsOf(variable, mask) };
}

function failing({ variable, mask }: Pick<Wanted, 'variable' | 'mask'>): Literal {
  return { variable, atoms: atomsOf(variable, fullMask(variable) & ~mask) };
}

function wantedOf({ variable, mask, condition }: Wanted): NonNullable<Claim['wanted']> {
  const { test, at, bundle } = condition;
  const texts = test.kind === 'limits' ? [test.text] : test.kind === 'words' ? test.words : [];
  return { variable, mask, texts, at, ...(bundle === undefined ? {} : { bundle }) };
}

interface Spot {
  readonly node: Node;
  readonly point: Point;
}

// A condition that must hold: shared by all that want the same, so that one loss is told once.
function askWanted(
  asking: Pick<Asking, 'found' | 'failing'>,
  { node, point }: Spot,
  wanted: Wanted,
  claim: Omit<Claim, 'wanted'>,
): void {
  const key = `${wanted.variable.index} ${wanted.mask}`;
  const literals = asking.failing.get(key) ?? [failing(wanted)];
  asking.failing.set(key, literals);
  if (literals[0]?.atoms === 0n) return;
  asking.found.push({
    id: `${claim.kind} ${node.frame?.id ?? ''} ${node.index} ${node.end ?? ''} ${claim.phase} ${claim.callee ?? ''} ${claim.value ?? ''} ${wanted.variable.index} ${wanted.mask}`,
    // a warning never hushes an error
    family: `${claim.kind === 'back-into-step' ? 'back' : 'want'} ${wanted.variable.index} ${wanted.mask}`,
    clear: literals,
    node: node.id,
    point,
    test: { kind: 'exists', literals },
    claim: { ...claim, wanted: wantedOf(wanted) },
  });
}

function askStep(asking: Asking, node: Node): void {
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

function askRules(asking: Asking, spot: Spot, phase: Claim['phase']): void {
  for (const each of asking.rules) {
    if (!each.nodes.has(spot.node.id)) continue;
    askTrigger(asking, spot, each);
    if (isSuspended(each, spot.node)) continue;
    each.must.forEach((must, number) => {
      askMust(asking, { ...spot, phase }, each, { ...must, number });
    });
  }
}

function askTrigger(asking: Asking, { node, point }: Spot, { rule, key, when }: RuleCase): void {
  asking.found.push({
    id: `trigger ${rule.id} ${node.frame?.id ?? ''} ${node.index} ${node.end ?? ''}`,
    family: `trigger ${key}`,
    node: node.id,
    point,
    test: { kind: 'exists', literals: when },
    triggers: rule,
  });
}

function isSuspended({ rule }: RuleCase, { step }: Node): boolean {
  return rule.exceptEnergized && step?.energized !== undefined;
}

function askMust(
  asking: Asking,
  { node, point, phase }: Spot & { readonly phase: Claim['phase'] },
  { rule, key, when }: RuleCase,
  { wanted, literals, number }: RuleCase['must'][number] & { readonly number: number },
): void {
  if (literals.at(-1)?.atoms === 0n) return;
  asking.found.push({
    id: `${key} must ${number} ${node.frame?.id ?? ''} ${node.index} ${node.end ?? ''}`,
    family: `${key} must ${number}`,
    clear: literals,
    node: node.id,
    point,
    test: { kind: 'exists', literals },
    claim: { kind: 'rule-broken', at: node.step?.at ?? rule.at, phase, rule, when, wanted: wantedOf(wanted) },
  });
}

function askAct(asking: Asking, spot: Spot, act: Act): void {
  const { node, point } = spot;
  const { step, frame } = node;
  if (!step || !frame) return;
  askRules(asking, spot, act.phase);
  askForced(asking, spot, act.sets, act.phase === 'after' ? 'sets' : 'means');
  for (const each of asking.rules) {
    if (each.nodes.has(node.id) && !isSuspended(each, node)) askUnchanged(asking, spot, each, act.phase);
  }
  if (!endsEarly(act)) askThroughout(asking, spot, act.phase);
  if (act.phase === 'after') askDerived(asking, spot);
  for (const variable of asking.contested) {
    asking.found.push({
      id: `conflict ${variable.index}`,
      family: `conflict ${variable.index}`,
      node: node.id,
      point,
      test: { kind: 'conflict', variable },
      claim: {
        kind: 'physics-conflict',
        at: step.at,
        phase: act.phase,
        changed: { state: variable.id, by: 'physics' },
      },
    });
  }
}

// Where a failed step leads straight to an early end, the procedure has come to nothing anyway.
function endsEarly({ phase, edges }: Act): boolean {
  return phase === 'failed' && edges.every(({ taken }) => taken.go === 'stop' || taken.go === 'call-service');
}

function askForced(asking: Asking, { node, point }: Spot, named: readonly Wanted[], by: 'sets' | 'means'): void {
  for (const { variable, condition } of named) {
    if (
      condition.test.kind === 'unknown' ||
      !asking.laws.some(({ effects }) => effects.some((each) => each.variable === variable))
    )
      continue;
    const id = `forced ${node.frame?.id} ${node.index} ${by} ${variable.index} ${condition.at.start}`;
    asking.found.push({
      id,
      family: id,
      node: node.id,
      point,
      test: { kind: 'forced', variable },
      claim: {
        kind: 'physics-forbids-set',
        at: condition.at,
        phase: 'after',
        changed: { state: condition.state, by },
      },
    });
  }
}

function askUnchanged(asking: Asking, { node, point }: Spot, each: RuleCase, phase: 'after' | 'failed'): void {
  const { rule, key, when, unchanged } = each;
  const family = `${key} unchanged`;
  const ask = (at: Point, test: Question['test'], changed: NonNullable<Claim['changed']>, where: Span): void => {
    asking.found.push({
      id: `${family} ${node.frame?.id} ${node.index} ${changed.state} ${changed.by}`,
      family,
      clear: when,
      node: node.id,
      point: at,
      test,
      claim: { kind: 'unchanged-broken', at: where, phase, rule, when, changed },
    });
  };
  for (const variable of unchanged) {
    const set = node.step?.sets.find(({ state }) => state === variable.id);
    const own = set && (variable.kind !== 'person' || variable.person === node.actor);
    if (own) {
      const test: Question['test'] = { kind: 'exists', literals: when };
      ask({ kind: 'entered' }, test, { state: variable.id, by: 'sets' }, set.at);
      if (phase === 'after') ask(point, test, { state: variable.id, by: 'sets' }, set.at);
    } else if (asking.laws.some(({ effects }) => effects.some((effect) => effect.variable === variable))) {
      ask(
        point,
        { kind: 'disturbed', variable, when },
        { state: variable.id, by: 'physics' },
        node.step?.at ?? rule.at,
      );
    }
  }
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

/** Requirements that a branch back into a step may find lost, where `held` says that they held when it was first come to. */
export function askBack(
  graph: Graph,
  held: (frame: Frame, index: number, wanted: Wanted) => boolean,
): readonly Question[] {
  const found: Question[] = [];
  const asking = { graph, found, failing: new Map<string, readonly Literal[]>() };
  for (const node of graph.nodes) {
    node.acts.forEach((act, number) => {
      act.edges.forEach((edge, at) => {
        const target = graph.nodes[edge.to];
        if (!edge.back || !node.frame || !target) return;
        for (const { condition } of node.frame.procedure.requires) {
          const wanted = readCondition(graph.frames.space, condition, actorOf(node.frame, 1));
          if (!wanted || !held(node.frame, target.index, wanted) || !isReadUnder(graph, target, wanted.variable))
            continue;
          const spot: Spot = { node, point: { kind: 'edge', act: number, edge: at } };
          const claim = {
            kind: 'back-into-step',
            at: edge.taken.at ?? node.step?.at ?? condition.at,
            phase: 'after',
          } as const;
          askWanted(asking, spot, wanted, claim);
        }
      });
    });
  }
  return found;
}

// Whether something is read or turned from here on before the state is set anew: only then can it matter that it changed.
function isReadUnder({ nodes }: Graph, from: Node, variable: Variable): boolean {
  const seen = new Set([from.id]);
  const waiting = [from];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    if (node.acts.some(({ sets, phase }) => phase === 'after' && sets.some((each) => each.variable === variable)))
      continue;
    const { step } = node;
    if (step && step.measure.length + step.adjust.length > 0) return true;
    for (const { to } of node.acts.flatMap(({ edges }) => edges)) {
      const next = nodes[to];
      if (!next || seen.has(to)) continue;
      seen.add(to);
      waiting.push(next);
    }
  }
  return false;
}

function askFinal(asking: Asking, node: Node): void {
  const spot: Spot = { node, point: { kind: 'before' } };
  const end: End = node.end ?? 'done';
  askRules(asking, spot, 'end');
  const { space, main } = asking.graph.frames;
  const leaves = main.procedure.leaves.get(end) ?? [];
  for (const condition of leaves) {
    const wanted = readCondition(space, condition, 1);
    if (wanted) askWanted(asking, spot, wanted, { kind: 'leaves-not-met', at: condition.at, phase: 'end' });
  }
  askEndMust(asking, spot, end);
  askRestored(asking, spot, end, new Set(leaves.map(({ state }) => state)));
  if (end === 'done') askReadings(asking, spot);
}

function askEndMust(asking: Asking, spot: Spot, end: End): void {
  const rule = asking.world.ends.get(end);
  for (const condition of end === 'done' ? [] : (rule?.must ?? [])) {
    const persons = condition.state === personState ? asking.graph.frames.space.people : 1;
    for (let person = 1; person <= persons; person += 1) {
      const wanted = readCondition(asking.graph.frames.space, condition, person);
      if (wanted) askWanted(asking, spot, wanted, { kind: 'end-must-not-met', at: condition.at, phase: 'end' });
    }
  }
}

function askRestored(asking: Asking, { node, point }: Spot, end: End, named: ReadonlySet<string>): void {
  const procedure = asking.graph.frames.main.procedure;
  for (const variable of asking.graph.frames.space.variables) {
    if (!variable.paired || !variable.source || named.has(variable.id)) continue;
    const safe = end !== 'done' && variable.source.safe !== undefined ? [variable.source.safe] : [];
    const mask = maskOfWords(variable, safe);
    const id = `restore ${variable.index} ${end}`;
    const texts = ['as it was at the start', ...describeMask(variable, mask)];
    asking.found.push({
      id,
      family: id,
      node: node.id,
      point,
      test: { kind: 'exists', literals: [{ variable, atoms: changedAtoms(variable, mask) }] },
      claim: {
        kind: 'not-restored',
        at: procedure.leaves.get(end)?.[0]?.at ?? procedure.source.at,
        phase: 'end',
        wanted: { variable, mask, texts, at: variable.source.at },
      },
    });
  }
}

function askReadings(asking: Asking, { node, point }: Spot): void {
  const { main } = asking.graph.frames;
  for (const [id, variable] of main.readings) {
    const at =
      main.procedure.values.find((value) => value.id === id)?.source.idAt ??
      main.procedure.worksheets.find((worksheet) => worksheet.id === id)?.source.idAt ??
      main.procedure.source.at;
    const ask = (
      kind: 'value-stale' | 'value-not-passed-at-done',
      reading: 'stale' | 'failed',
      atoms: bigint,
    ): void => {
      asking.found.push({
        id: `${kind} ${id}`,
        family: `${kind} ${id}`,
        node: node.id,
        point,
        test: { kind: 'exists', literals: [{ variable, atoms }] },
        claim: {
          kind,
          at,
          phase: 'end',
          value: id,
          reading,
          wanted: { variable, mask: fullMask(variable) & ~atoms, texts: ['passed'], at },
        },
      });
    };
    ask('value-not-passed-at-done', 'failed', failed);
    ask('value-stale', 'stale', stale);
  }
}
