// A worksheet with more rows than the steps that write them can be gone through.

import type { ResolvedBranch, ResolvedProcedure, ResolvedStep, ResolvedWorksheet } from '../../model/resolved.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly worksheet: string;
  readonly wanted: number;
  readonly most: number;
  readonly steps: readonly string[];
}

export default rule({
  id: 'rows-out-of-reach',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const worksheet of procedure.worksheets) {
      const finding = judge(worksheet, procedure);
      if (finding) yield finding;
    }
  },
  say: ({ worksheet, wanted, most, steps }: Facts) => ({
    message: `\`${worksheet}\` must have ${rowsIn(wanted)}, and ${steps.map((step) => `\`${step}\``).join(' and ')} can be done ${timesIn(most)} at most`,
    help: `Let the branch that leads back be taken more often, \`at-most: ${wanted - steps.length}\` or more; or ask for fewer \`rows\`.`,
    note: 'Each time one row is written. Whoever comes to the end of the tries has a table that is not full, and no result.',
  }),
});

function rowsIn(count: number): string {
  return count === 1 ? '1 row' : `${count} rows`;
}

function timesIn(count: number): string {
  return count === 1 ? 'once' : `${count} times`;
}

function judge({ id, rows, source }: ResolvedWorksheet, procedure: ResolvedProcedure): Finding<Facts> | undefined {
  const { steps } = procedure;
  const writing = steps.flatMap((step, index) => (step.write?.includes(id) ? [{ step, index }] : []));
  if (writing.length === 0) return undefined;
  const backs = writing.flatMap(({ index }) => backInto(steps, index));
  const counts = backs.map(({ atMost }) => atMost);
  // one way without a count is a loop without an end, which is told elsewhere
  if (counts.some((count) => count === undefined)) return undefined;
  const most = writing.length + counts.reduce<number>((sum, count) => sum + (count ?? 0), 0);
  if (most >= rows.min) return undefined;
  const related = [
    ...writing.map(({ step }) => ({ message: `\`${step.id}\` writes one row`, at: step.source.id.at })),
    ...backs.map(({ at }) => ({ message: 'the way back', at })),
  ];
  const data = { worksheet: id, wanted: rows.min, most, steps: writing.map(({ step }) => step.id) };
  return { at: source.rows.source.at, related, data };
}

/** The branches of a step or a later one that lead to that step or an earlier one: each lets it be done once more. */
function backInto(steps: readonly ResolvedStep[], index: number): readonly ResolvedBranch[] {
  const targets = new Map(steps.map(({ id }, at) => [id, at]));
  return steps.slice(index).flatMap((step) =>
    branchesOf(step).filter(({ go }) => {
      const to = targets.get(go);
      return to !== undefined && to <= index;
    }),
  );
}

function branchesOf({ otherwise, when, answers, then }: ResolvedStep): readonly ResolvedBranch[] {
  const first = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
  return first.flatMap((branch) => {
    const levels: ResolvedBranch[] = [];
    for (let level = branch; level; level = level.otherwise) levels.push(level);
    return levels;
  });
}
