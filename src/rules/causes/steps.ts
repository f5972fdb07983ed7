// Steps that nobody comes to because a branch is missing, hazards met only where a safety rule is broken: they say again.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Procedure, Step } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';

/** A branch that is missing leaves the steps it was to lead to unreached. */
const missingBranches: ReadonlySet<string> = new Set([
  'failing-reading-without-branch',
  'loop-without-else',
  'missing-target',
  'question-with-one-answer',
]);

const brokenRules: ReadonlySet<string> = new Set(['safety-rule-broken', 'unchanged-rule-broken']);

/** Without steps that are unreached for want of a branch, and what else one step says of one fault again. */
export function withoutRepeated(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const files = (codes: ReadonlySet<string>): ReadonlySet<string> =>
    new Set(diagnostics.filter(({ code }) => codes.has(code)).map(({ at }) => at.file));
  const [branchless, endlessCounts, twice] = [
    files(missingBranches),
    files(new Set(['loop-without-else'])),
    files(new Set(['required-twice'])),
  ];
  const unreached = files(new Set(['unreachable-step']));
  const endless = files(new Set(['loop-without-bound']));
  const look = makeLook(diagnostics, book);
  return diagnostics.filter((diagnostic) => {
    const { code, at } = diagnostic;
    switch (code) {
      case 'unreachable-step':
        return !branchless.has(at.file);
      case 'never-done':
        // the good path is passed by: that is told where it begins
        return !unreached.has(at.file) && !endless.has(at.file);
      case 'start-impossible':
        return !twice.has(at.file);
      case 'stale-value-at-done':
        return !endlessCounts.has(at.file);
      case 'derived-from-stale':
        return !endlessCounts.has(at.file) && !look.saysStale(diagnostic);
      case 'run-does-not-apply':
        return !look.isInCircle(diagnostic);
      case 'hazard-not-listed':
        return !look.isBrokenHere(diagnostic);
      case 'safety-rule-broken':
        return !look.isBrokenInGroup(diagnostic);
      default:
        return true;
    }
  });
}

interface Look {
  /** Whether a value that is not read again is told already. */
  readonly saysStale: (of: Diagnostic) => boolean;
  /** Whether the step's `run` is one of those by which a procedure runs itself. */
  readonly isInCircle: (of: Diagnostic) => boolean;
  /** Whether a safety rule is broken at the very step. */
  readonly isBrokenHere: (of: Diagnostic) => boolean;
  /** Whether the same rule is broken in the same way at an earlier step of the same `any-order`. */
  readonly isBrokenInGroup: (of: Diagnostic) => boolean;
}

function makeLook(diagnostics: readonly Diagnostic[], book: Book): Look {
  const procedures = new Map([...book.procedures.values()].map((procedure) => [procedure.file, procedure]));
  const stepOf = ({ file, start }: Span): Step | undefined =>
    procedures.get(file)?.steps.find(({ at }) => at.start <= start && start < at.end);
  const broken = diagnostics.filter(({ code }) => brokenRules.has(code));
  const circles = diagnostics.filter(({ code }) => code === 'circular-run');
  const stale = diagnostics.filter(({ code }) => code === 'stale-value-at-done');
  const groupOf = (at: Span): unknown => {
    const step = stepOf(at);
    return procedures.get(at.file)?.anyOrder.find((group) => group.some(({ value }) => value === step?.id.value));
  };
  return {
    saysStale: ({ message, at }) => stale.some((one) => says(one, message, procedures.get(at.file))),
    isInCircle: ({ at }) => {
      const [from, to] = [procedures.get(at.file)?.id, stepOf(at)?.run?.value];
      return circles.some(({ message }) => message.includes(`\`${from}\`, then \`${to}\``));
    },
    isBrokenHere: ({ at }) => {
      const step = stepOf(at);
      return step !== undefined && broken.some((one) => stepOf(one.at) === step);
    },
    isBrokenInGroup: (diagnostic) => {
      const { at, code } = diagnostic;
      const group = groupOf(at);
      if (!group) return false;
      const earlier = broken.filter((one) => one.code === code && one.at.file === at.file && one.at.start < at.start);
      return earlier.some((one) => groupOf(one.at) === group && claims(one, diagnostic));
    },
  };
}

/** Whether all states that the second misses under its rule the first misses under the same. */
function claims(first: Diagnostic, second: Diagnostic): boolean {
  const [rule, missing] = partsOf(first);
  const [otherRule, others] = partsOf(second);
  return rule === otherRule && others.every((state) => missing.includes(state));
}

function partsOf({ message }: Diagnostic): readonly [string | undefined, readonly string[]] {
  const rule = /the safety rule `([^`]+)`/.exec(message)?.[1];
  const states = [...message.matchAll(/(?:: |; )(?:person \d|`([^`]+)`) (?:is|may be)/g)];
  return [rule, states.map(([, state = 'person']) => state)];
}

// A value that is not read again is missed at `done` and by what is worked out from it.
function says(stale: Diagnostic, message: string, procedure: Procedure | undefined): boolean {
  if (stale.at.file !== procedure?.file) return false;
  const names = procedure.values.map(({ id }) => `\`${id}\``).filter((name) => stale.message.includes(name));
  return names.some((name) => message.includes(` from ${name}`));
}
