// Every condition of a book: which states and bundles are asked about or set anywhere.

import type { Book } from './book.js';
import type { Conditions, StateCondition } from './conditions.js';
import type { Branch, Procedure, Step } from './procedure.js';

export interface ConditionUse {
  /** States that a condition, an effect or a rule names. */
  readonly states: ReadonlySet<string>;
  /** Bundles that something names. */
  readonly bundles: ReadonlySet<string>;
}

/** Gathers what all procedures and shared files of a book name. */
export function conditionsOf(book: Book): ConditionUse {
  const all = [
    ...[...book.procedures.values()].flatMap((procedure) => [...procedureConditions(procedure)]),
    ...[...book.states.values()].flatMap(({ movesWhen }) => movesWhen ?? []),
    ...book.physics.flatMap(({ when, then }) => [when, then]),
    ...book.rules.flatMap(({ when, must }) => [when, must].filter((conditions) => conditions !== undefined)),
    ...[...book.ends.values()].flatMap(({ must }) => must ?? []),
    ...[...book.instruments.values()].flatMap(({ needs }) => needs ?? []),
    ...[...book.bundles.values()].map(({ conditions }) => conditions),
  ];
  const states = all.flatMap((conditions) => (conditions.kind === 'map' ? conditions.conditions.map(stateOf) : []));
  const required = [...book.procedures.values()].flatMap(({ requires }) => requires.map(({ state }) => state.value));
  const unchanged = book.rules.flatMap((rule) => (rule.unchanged ?? []).map(({ value }) => value));
  const bundles = all.flatMap((conditions) => (conditions.kind === 'bundle' ? [conditions.name.value] : []));
  // Where people are is set by every step with a place, named or not.
  return { states: new Set([...states, ...required, ...unchanged, 'person']), bundles: new Set(bundles) };
}

function stateOf({ state }: StateCondition): string {
  return state.value;
}

/** Every condition that a procedure sets, needs, means or leaves; not what it requires. */
export function* procedureConditions(procedure: Procedure): Iterable<Conditions> {
  yield* procedure.leaves.values();
  for (const step of procedure.steps) yield* stepConditions(step);
}

function* stepConditions(step: Step): Iterable<Conditions> {
  if (step.needs) yield step.needs;
  if (step.sets) yield step.sets;
  const branches = [step.otherwise, step.then, ...step.when.values(), ...step.answers.map(({ branch }) => branch)];
  for (const branch of branches) yield* branchConditions(branch);
}

function* branchConditions(branch: Branch | undefined): Iterable<Conditions> {
  if (!branch) return;
  if (branch.means) yield branch.means;
  yield* branchConditions(branch.otherwise);
}
