// A reading that may fail and has nowhere to go then.

import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import type { Violation } from '../../order/result.js';
import { type Finding, rule } from '../rule.js';
import { grouped, sayOf, violationsOf } from './violation.js';
import { capital, code, listed, where } from './words.js';

export default rule({
  id: 'failing-reading-without-branch',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    const { procedure } = proof.variant;
    const all = violationsOf('outside-without-branch', proof, context);
    for (const findings of grouped(all, ({ data }) => data.place?.step ?? '')) {
      const [first] = findings;
      const step = procedure.steps.find(({ id }) => id === first?.data.place?.step);
      if (!first || !step) continue;
      // beside the branches that are there, else at the step
      const written = context.book.procedures
        .get(procedure.id)
        ?.steps.find(({ id }) => id.value === first.data.place?.step);
      const at = [...(written?.when.values() ?? [])].at(-1)?.at ?? first.at;
      yield { ...first, at, data: { violation: first.data, ...missedBy(findings, { procedure, step }) } };
    }
  },
  say: ({ violation, values, ways, hasBranches }) => {
    const more = ways.map((way) => `\`${way}: …\``);
    return sayOf(violation, {
      message: `${capital(where(violation))} does not say where to go when ${listed(values.map(code), 'or')} is ${wayWords(ways)}`,
      help: `${hasBranches ? `Add ${listed(more, 'and')} to its \`when\`` : 'Add `when: { outside: … }` to it'}, with a step id, \`stop\` or \`call-service\` in place of the dots.`,
      note: 'Whoever stands there goes on with a machine that has just failed.',
    });
  },
});

type Way = 'outside' | 'low' | 'high' | 'fault';

interface Missed {
  readonly values: readonly string[];
  readonly ways: readonly Way[];
  readonly hasBranches: boolean;
}

function missedBy(
  findings: readonly Finding<Violation>[],
  { procedure, step }: { readonly procedure: ResolvedProcedure; readonly step: ResolvedStep },
): Missed {
  const values = findings.flatMap(({ data }) => data.value ?? []);
  const ways = new Set(values.flatMap((id) => missedWays(id, { procedure, step })));
  return { values, ways: [...ways], hasBranches: step.when.size > 0 };
}

// Which ways to fail no branch takes; all of them are `outside`.
function missedWays(
  id: string,
  { procedure, step }: { readonly procedure: ResolvedProcedure; readonly step: ResolvedStep },
): readonly Way[] {
  const value = procedure.values.find((each) => each.id === id);
  const limits = value?.acceptance ?? value?.tolerance;
  if (!value || !limits || step.when.size === 0) return ['outside'];
  const sides = (['low', 'high'] as const).filter((side) => limits[side] && !step.when.has(side));
  return sides.length > 0 ? sides : ['fault'];
}

function wayWords(ways: readonly Way[]): string {
  const words: Record<Way, string> = {
    outside: 'outside its limits',
    low: 'too low',
    high: 'too high',
    fault: 'outside what it can be',
  };
  return listed(
    ways.map((way) => words[way]),
    'or',
  );
}
