// An expectation that was not met, and a branch that goes on as if it had been.

import type { ResolvedBranch, ResolvedCondition, ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly step: string;
  /** Where it goes whatever is seen. */
  readonly go?: string;
  /** What the step gives, `height-range: valid`, and its branch says is so although nothing was seen. */
  readonly given?: string;
  /** Only after the last try. */
  readonly counted: boolean;
}

export default rule({
  id: 'failed-expectation-goes-on',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const [index, step] of procedure.steps.entries()) {
      const onward = step.then ?? procedure.steps[index + 1]?.id;
      const finding = goesOn(step, typeof onward === 'string' ? onward : onward?.go) ?? givenAnyway(step, procedure);
      if (finding) yield finding;
    }
  },
  say: ({ step, go, given, counted }: Facts) => ({
    message:
      given === undefined
        ? `Where the expectation of \`${step}\` is not met${counted ? ' as often as it may be tried' : ''}, the work goes on at \`${go ?? ''}\` as if it were`
        : `Where the expectation of \`${step}\` is not met, \`means\` says \`${given}\` all the same`,
    help:
      given === undefined
        ? 'Let it lead to a step that mends it, back to another try, or to `call-service`; or say under `means` what is so then.'
        : 'Say under `means` what is so when nothing was seen.',
    note: 'Whoever does not see it finds a page that goes on, and takes that for all being well.',
  }),
});

/** The branch, or what stands behind its last try, that leads where the step goes anyway and leaves the same behind. */
function goesOn({ id, expect, source, otherwise, sets }: ResolvedStep, onward?: string): Finding<Facts> | undefined {
  if (!otherwise || onward === undefined || isEnd(onward)) return undefined;
  const last = lastOf(otherwise);
  const means = last.means.length > 0 ? last.means : otherwise.means;
  if (last.go !== onward || !means.every((one) => sets.some((set) => isSame(one, set)))) return undefined;
  const at = goAt(source.otherwise, last.go) ?? last.at;
  return {
    at,
    related: related(expect && source.expect?.at),
    data: { step: id, go: onward, counted: last !== otherwise },
  };
}

/** What the procedure gives is said to be so, although the step that has to do with it failed. */
function givenAnyway(
  { id, expect, source, otherwise, sets }: ResolvedStep,
  { gives }: ResolvedProcedure,
): Finding<Facts> | undefined {
  const means = otherwise?.means.find(({ state }) => state === gives);
  if (!means || !sets.some(({ state }) => state === gives)) return undefined;
  const [word] = means.test.kind === 'words' ? means.test.words : [];
  if (word !== 'valid') return undefined;
  const data = { step: id, given: `${means.state}: ${word}`, counted: false };
  return { at: means.at, related: related(expect && source.expect?.at), data };
}

function lastOf(branch: ResolvedBranch): ResolvedBranch {
  return branch.otherwise ? lastOf(branch.otherwise) : branch;
}

function goAt(branch: ResolvedStep['source']['otherwise'], go: string): Span | undefined {
  if (!branch) return undefined;
  return goAt(branch.otherwise, go) ?? (branch.go.value === go ? branch.go.at : undefined);
}

function related(at: Span | undefined) {
  return at ? [{ message: 'what is expected', at }] : [];
}

function isEnd(go: string): boolean {
  return go === 'done' || go === 'stop' || go === 'call-service';
}

function isSame(one: ResolvedCondition, two: ResolvedCondition): boolean {
  const words = ({ test }: ResolvedCondition): string =>
    test.kind === 'words' ? [...test.words].sort().join(' ') : test.kind === 'limits' ? test.text : test.kind;
  return one.state === two.state && words(one) === words(two);
}
