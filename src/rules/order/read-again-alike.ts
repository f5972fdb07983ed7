// Two values read one after the other by the same words, with nothing done in between.

import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import { type Finding, rule } from '../rule.js';
import { sidesOf } from '../text/sides.js';

interface Facts {
  readonly steps: readonly [string, string];
  readonly values: readonly [string, string];
  readonly words: string;
}

export default rule({
  id: 'read-again-alike',
  severity: 'warning',
  needs: 'proof',
  *run({ variant: { procedure }, result }, { book }) {
    // where the order is wrong, that is mended first
    if (result.violations.length === 0) yield* alikeReadings(procedure, book.settings.languages[0] ?? 'en');
  },
  say: ({ steps, values, words }: Facts) => ({
    message: `\`${steps[0]}\` reads \`${values[0]}\` and \`${steps[1]}\` reads \`${values[1]}\` by the same words, “${words}”, and nothing is done in between`,
    help: 'Put back the step that is to come between them; or say in each what is read.',
    note: 'Whoever does what both say writes the same reading down twice, under two names and against two limits.',
  }),
});

/** What is read again by the same words, with nothing done in between. */
export function* alikeReadings(procedure: ResolvedProcedure, language: string): Iterable<Finding<Facts>> {
  for (const [index, step] of procedure.steps.entries()) {
    const finding = readBefore(step, index, { procedure, language });
    if (finding) yield finding;
  }
}

interface Reading {
  readonly procedure: ResolvedProcedure;
  readonly language: string;
}

function readBefore(step: ResolvedStep, index: number, reading: Reading): Finding<Facts> | undefined {
  const { procedure, language } = reading;
  const words = step.do?.[language];
  const [value] = readIn(step, procedure);
  if (words === undefined || value === undefined) return undefined;
  for (const before of procedure.steps.slice(0, index).reverse()) {
    const [other] = readIn(before, procedure);
    if (other === undefined) return undefined;
    if (before.do?.[language] !== words || !isSameWay(step, before, procedure)) continue;
    const related = [{ message: `\`${before.id}\``, at: before.source.do?.at ?? before.source.id.at }];
    const at = step.source.do?.at ?? step.source.id.at;
    return { at, related, data: { steps: [before.id, step.id], values: [other, value], words } };
  }
  return undefined;
}

/** The values that a step reads and does nothing else; none for one that does something. */
function readIn(step: ResolvedStep, { values }: ResolvedProcedure): readonly string[] {
  const { sets, adjust, run, stale, hold, wait } = step;
  if (sets.length + adjust.length + stale.length > 0 || run || hold || wait) return [];
  return step.measure.filter((id) => values.some((value) => value.id === id && value.derived === undefined));
}

/** Whether two ids differ in the side alone: `side-not-said` looks at those. */
function isOtherSide(one: string, two: string, { source }: ResolvedProcedure): boolean {
  const sides = new Set(sidesOf(source));
  const plain = (id: string): string =>
    id
      .split(/[_-]/)
      .map((part) => (sides.has(part) ? '' : part))
      .join('_');
  return plain(one) === plain(two);
}

/** Other values, by one instrument and one person at one place. */
function isSameWay(step: ResolvedStep, before: ResolvedStep, procedure: ResolvedProcedure): boolean {
  const [own, others] = [readIn(step, procedure), readIn(before, procedure)];
  const instruments = [...own, ...others].map((id) => procedure.values.find((one) => one.id === id)?.instrument?.id);
  return (
    own.every((id) => others.every((other) => other !== id && !isOtherSide(id, other, procedure))) &&
    new Set(instruments).size === 1 &&
    step.by === before.by &&
    (step.place === undefined || step.place === before.place)
  );
}
