// A value of one side that a way to `done` jumps over, while the same value of another side is read on it.

import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import { outcomesOf } from '../../order/outcomes.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly step: string;
  readonly go: string;
  readonly read: string;
  readonly missed: string;
}

export default rule({
  id: 'side-not-read',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const copies of copiesIn(procedure)) {
      const finding = missedIn(copies, procedure);
      if (finding) yield finding;
    }
  },
  say: ({ step, go, read, missed }: Facts) => ({
    message: `From \`${step}\` ${go === 'done' ? 'the procedure is `done`' : `the work goes on at \`${go}\` and comes to \`done\``} without a reading of \`${missed}\`, and \`${read}\` was read`,
    help: 'Let it go on at the next step of its own side, as in `then: "cover-{side}"`, or take `then` out: the other side is read below.',
    note: 'Where both sides are to be read, a way that leaves one out ends as if it were well on both.',
  }),
});

/** The values that are written once and stand for several sides. */
function copiesIn({ values }: ResolvedProcedure): readonly (readonly string[])[] {
  const groups = new Map<number, string[]>();
  for (const { id, derived, source } of values) {
    if (!derived) groups.set(source.idAt.start, [...(groups.get(source.idAt.start) ?? []), id]);
  }
  return [...groups.values()].filter((group) => group.length > 1);
}

/** A step with what was read before it; what leads there is kept, to tell where a reading was jumped over. */
interface Place {
  readonly index: number;
  readonly read: ReadonlySet<string>;
  readonly by?: { readonly from: Place; readonly branch: string; readonly at: Span | undefined };
}

/** Follows every way from the first step, the shortest first; how often a branch may be taken is not counted. */
function missedIn(copies: readonly string[], procedure: ResolvedProcedure): Finding<Facts> | undefined {
  const { steps } = procedure;
  const seen = new Set<string>();
  const queue: Place[] = [{ index: 0, read: new Set() }];
  for (let place = queue.shift(); place; place = queue.shift()) {
    const key = `${place.index} ${[...place.read].sort().join(' ')}`;
    const step = steps[place.index];
    if (!step || seen.has(key)) continue;
    seen.add(key);
    for (const { go, ...way } of waysOf(step, place.index, procedure)) {
      const measured = way.branch === 'otherwise' ? [] : step.measure.filter((id) => copies.includes(id));
      const read = new Set([...place.read, ...measured]);
      const by = { from: place, branch: way.branch, at: way.at };
      if (go !== 'done') queue.push({ index: steps.findIndex(({ id }) => id === go), read, by });
      else if (read.size > 0 && read.size < copies.length) {
        const finding = jumpOf({ index: steps.length, read, by }, copies, steps);
        if (finding) return finding;
      }
    }
  }
  return undefined;
}

function waysOf(step: ResolvedStep, index: number, procedure: ResolvedProcedure) {
  const { failed, held } = outcomesOf(step, procedure);
  return [...failed, ...held].map(({ branch, written }) => ({
    branch: branch as string,
    go: written?.go ?? procedure.steps[index + 1]?.id ?? 'done',
    at: written?.at,
  }));
}

/** The `then` on the way that jumps over the reading; another branch may have its reason to leave a side out. */
function jumpOf(end: Place, copies: readonly string[], steps: readonly ResolvedStep[]): Finding<Facts> | undefined {
  const missed = copies.find((id) => !end.read.has(id));
  const [read] = end.read;
  const target = steps.findIndex(({ measure }) => missed !== undefined && measure.includes(missed));
  if (missed === undefined || read === undefined || target < 0) return undefined;
  for (let place: Place | undefined = end; place?.by; place = place.by.from) {
    const { from, branch, at } = place.by;
    const step = steps[from.index];
    if (!step || from.index >= target || place.index <= target) continue;
    // a step of one side that all sides lead to is told by `side-written-out`
    if (branch !== 'then' || !at || steps[place.index]?.source.repeated) return undefined;
    const go = steps[place.index]?.id ?? 'done';
    const related = [{ message: `\`${missed}\` is read here`, at: steps[target]?.source.id.at ?? at }];
    return { at: step.source.then?.go.at ?? at, related, data: { step: step.id, go, read, missed } };
  }
  return undefined;
}
