// Steps in any order that need not be tried in every order: those that do the same to all but their own readings.
//
//   a b c d all plain:   a b c d   b c d a   c d a b   d a b c     each is first, second, third and last in one of them
//
// Whichever of them were done before, the states at each one depend only on how many, and on which others: so to go round
// from each of them, with all others in between in every order, comes to every state that every order comes to.

import type { ResolvedBranch, ResolvedProcedure, ResolvedStep } from '../model/resolved.js';
import { placesIn } from './places.js';
import { personState } from './variables.js';

/** Fewer than that are tried in every order. */
const fewest = 3;

/** Of a group of steps (by their place among the steps, in order) those that need not be tried in every order. */
export function plainMembers(procedure: ResolvedProcedure, group: readonly number[]): readonly number[] {
  const ids = new Set(group.flatMap((index) => procedure.steps[index]?.id ?? []));
  const targets = new Set(procedure.steps.flatMap((step) => branchesOf(step)).map(({ go }) => go));
  const alike = new Map<string, number[]>();
  for (const index of group) {
    const step = procedure.steps[index];
    if (!step || targets.has(step.id) || !isPlain(step, procedure, ids)) continue;
    const key = JSON.stringify([step.by, placesIn(step, procedure)]);
    alike.set(key, [...(alike.get(key) ?? []), index]);
  }
  const most = [...alike.values()].reduce((a, b) => (b.length > a.length ? b : a), []);
  return most.length < fewest ? [] : most;
}

/** Whether `member` may come next where `isDone` says which were: one that is plain follows the one before it. */
export function mayFollow(plain: readonly number[], member: number, isDone: (index: number) => boolean): boolean {
  const place = plain.indexOf(member);
  if (place < 0 || !plain.some(isDone)) return true;
  return isDone(plain.at(place - 1) ?? member);
}

// Nothing but its place and its own readings; and nobody else looks at those, or comes to it from elsewhere.
function isPlain(step: ResolvedStep, procedure: ResolvedProcedure, group: ReadonlySet<string>): boolean {
  const { sets, adjust, stale, run, needs, measure } = step;
  if (sets.length + adjust.length + stale.length > 0 || run || step.then) return false;
  // asked before the person moves: who was done before has moved them
  if (needs.some(({ state }) => state === personState)) return false;
  if (branchesOf(step).some(({ go }) => group.has(go))) return false;
  return measure.every((id) => isOwn(id, step, procedure));
}

function isOwn(id: string, step: ResolvedStep, { steps, values, adjusters }: ResolvedProcedure): boolean {
  const isReadHere = (value: string): boolean => steps.every((each) => each === step || !each.measure.includes(value));
  const isTouched =
    steps.some(({ stale }) => stale.includes(id)) ||
    adjusters.some(({ moves, watch }) => moves.has(id) || watch === id);
  const inputs = values.find((value) => value.id === id)?.derived?.inputs ?? [];
  const users = values.filter(({ derived }) => derived?.inputs.includes(id)).map((value) => value.id);
  // what is derived ages with what it is derived from
  const isAged = inputs.some((input) => !step.measure.includes(input));
  return isReadHere(id) && !isTouched && !isAged && users.every((user) => step.measure.includes(user));
}

function branchesOf({ otherwise, when, answers, then }: ResolvedStep): readonly ResolvedBranch[] {
  const written = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
  const levels = (branch: ResolvedBranch | undefined): readonly ResolvedBranch[] =>
    branch ? [branch, ...levels(branch.otherwise)] : [];
  return written.flatMap(levels);
}

/** How many nodes a group comes to at least: what is more than a proof may look at is not begun. */
export function nodesOfGroup(procedure: ResolvedProcedure, group: readonly number[]): number {
  const plain = plainMembers(procedure, group).length;
  const others = group.length - plain;
  return (others + 1) * 2 ** Math.max(0, others - 1) * (plain === 0 ? 1 : plain * plain);
}
