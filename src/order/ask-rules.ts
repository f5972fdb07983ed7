// Safety rules and laws of physics as questions: what must hold, what must not change, what may not be set.

import type { Span } from '../text/source.js';
import { type Asking, type RuleCase, type Spot, wantedOf } from './asking.js';
import type { Act, Node } from './graph.js';
import type { Claim, Point, Question } from './question.js';
import type { Wanted } from './variables.js';

/** Whether rules trigger at a point, and are kept. */
export function askRules(asking: Asking, spot: Spot, phase: Claim['phase']): void {
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

/** Whether the step says that it is done energized, and the rule allows that. */
export function isSuspended({ rule }: RuleCase, { step }: Node): boolean {
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

/** Whether an act sets or changes what the rules want unchanged. */
export function askUnchanged(asking: Asking, { node, point }: Spot, each: RuleCase, phase: 'after' | 'failed'): void {
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

/** Whether physics undoes what is set or seen. */
export function askForced(asking: Asking, { node, point }: Spot, named: readonly Wanted[], by: 'sets' | 'means'): void {
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

/** Whether laws come to rest after an act. */
export function askConflicts(asking: Asking, { node, point }: Spot, phase: Act['phase']): void {
  const { step } = node;
  if (!step) return;
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
        phase: phase,
        changed: { state: variable.id, by: 'physics' },
      },
    });
  }
}
