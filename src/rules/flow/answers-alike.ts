// A question whose answers come to the same.

import type { ResolvedBranch, ResolvedCondition, ResolvedStep } from '../../model/resolved.js';
import { listed } from '../order/words.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly step: string;
  readonly answers: readonly string[];
  /** Where they all lead. */
  readonly go?: string;
  /** What they all say is so: `arms: free`. */
  readonly means?: string;
  /** The answer that only comes to the same when it was given as often as it may be. */
  readonly counted?: string;
}

export default rule({
  id: 'answers-alike',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }) {
    for (const step of procedure.steps) {
      if (step.answers.length < 2) continue;
      const finding = sameWay(step) ?? sameMeaning(step) ?? sameAtLast(step);
      if (finding) yield finding;
    }
  },
  say: (facts: Facts) => ({
    message: messageOf(facts),
    help: helpOf(facts),
    note: 'A question is asked because the answers make a difference. Where they make none, a word was likely copied.',
  }),
});

function messageOf({ step, answers, go = '', means, counted }: Facts): string {
  const given = listed(
    answers.map((answer) => `\`${answer}\``),
    'and',
  );
  if (counted !== undefined)
    return `Answered \`${counted}\` as often as it may be, \`${step}\` goes on at \`${go}\` as if the answer were ${given}`;
  if (means === undefined) return `The answers of \`${step}\` all come to the same: ${given} lead to \`${go}\``;
  return `The answers of \`${step}\` all say the same: ${given} mean \`${means}\``;
}

function helpOf({ means, counted }: Facts): string {
  if (counted !== undefined)
    return 'Let its `else` lead to `call-service`, or to a step that does without that answer.';
  return means === undefined
    ? 'Mend where one of them leads; or write the question as a step with `do`.'
    : 'Mend what one of them means; or say it under `sets` of a step, where it is so either way.';
}

function sameWay({ id, source, answers }: ResolvedStep): Finding<Facts> | undefined {
  const [first, ...rest] = answers;
  if (!first || !rest.every(({ branch }) => ways(branch) === ways(first.branch))) return undefined;
  const at = source.answers.at(-1)?.branch.go.at ?? source.id.at;
  const related = source.answers.slice(0, 1).map(({ branch }) => ({ message: 'the same', at: branch.go.at }));
  return { at, related, data: { step: id, answers: answers.map(({ key }) => key), go: first.branch.go } };
}

function sameMeaning({ id, answers }: ResolvedStep): Finding<Facts> | undefined {
  const [first, ...rest] = answers;
  const means = first?.branch.means ?? [];
  if (!first || means.length === 0) return undefined;
  if (!rest.every(({ branch }) => textOf(branch.means) === textOf(means))) return undefined;
  const at = answers.at(-1)?.branch.means[0]?.at ?? first.branch.at;
  const related = means.slice(0, 1).map((one) => ({ message: 'the same', at: one.at }));
  return { at, related, data: { step: id, answers: answers.map(({ key }) => key), means: textOf(means) } };
}

/** An answer that is tried again, and then taken for the other one. */
function sameAtLast({ id, source, answers }: ResolvedStep): Finding<Facts> | undefined {
  for (const { key, branch } of answers) {
    const last = lastOf(branch);
    if (last === branch) continue;
    const means = last.means.length > 0 ? last.means : branch.means;
    const other = answers.find(
      (one) => one.key !== key && one.branch.go === last.go && textOf(one.branch.means) === textOf(means),
    );
    if (!other) continue;
    const at = lastOf(source.answers.find((one) => one.key.value === key)?.branch ?? branch).at;
    const related = [{ message: `where \`${other.key}\` leads`, at: other.branch.at }];
    return { at, related, data: { step: id, answers: [other.key], go: last.go, counted: key } };
  }
  return undefined;
}

function lastOf<B extends { readonly otherwise?: B }>(branch: B): B {
  return branch.otherwise ? lastOf(branch.otherwise) : branch;
}

/** Where a branch leads and what it says, with its counts; a reason of its own is something that it says. */
function ways(branch: ResolvedBranch): string {
  const reason = Object.values(branch.because ?? {}).join(' ');
  const own = `${branch.go} ${branch.atMost ?? ''} ${textOf(branch.means)} ${reason}`;
  return branch.otherwise ? `${own} else ${ways(branch.otherwise)}` : own;
}

function textOf(means: readonly ResolvedCondition[]): string {
  const words = means.map(({ state, test }) => {
    const text = test.kind === 'words' ? test.words.join(' or ') : test.kind === 'limits' ? test.text : test.kind;
    return `${state}: ${text}`;
  });
  return words.sort().join(', ');
}
