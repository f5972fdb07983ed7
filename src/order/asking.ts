// What all questions are made with: the rules made ready, points, and the condition that must hold.

import type { ResolvedCondition, ResolvedRule, World } from '../model/resolved.js';
import type { Graph, Node } from './graph.js';
import type { Law } from './physics.js';
import type { Claim, Point, Question } from './question.js';
import type { Literal } from './slices.js';
import { atomsOf, fullMask, personState, readCondition, type Variable, type Wanted } from './variables.js';

/** A world made ready for asking: each rule once for each person that it may be about. */
export interface Asking {
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

/** A rule for one person. */
export interface RuleCase {
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

/** Every rule for every person that it may be about. */
export function ruleCases({ graph, world, nodesWhere }: Asked): readonly RuleCase[] {
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

/** What holds where a condition does. */
export function holding({ variable, mask }: Pick<Wanted, 'variable' | 'mask'>): Literal {
  return { variable, atoms: atomsOf(variable, mask) };
}

/** What holds where a condition does not. */
export function failing({ variable, mask }: Pick<Wanted, 'variable' | 'mask'>): Literal {
  return { variable, atoms: atomsOf(variable, fullMask(variable) & ~mask) };
}

/** A condition as a claim shows it. */
export function wantedOf({ variable, mask, condition }: Wanted): NonNullable<Claim['wanted']> {
  const { test, at, bundle } = condition;
  const texts = test.kind === 'limits' ? [test.text] : test.kind === 'words' ? test.words : [];
  return { variable, mask, texts, at, ...(bundle === undefined ? {} : { bundle }) };
}

/** A point of a node. */
export interface Spot {
  readonly node: Node;
  readonly point: Point;
}

/** A condition that must hold: shared by all that want the same, so that one loss is told once. */
export function askWanted(
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
