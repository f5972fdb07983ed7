// A hazard that a step meets and the procedure does not list.

import type { Book } from '../../model/book.js';
import type { Span } from '../../text/source.js';
import { capital, listed, stepIdAt, stepName } from '../order/words.js';
import { type Proof, rule } from '../rule.js';

interface Met {
  readonly hazard: string;
  readonly step: string;
  readonly rules: readonly string[];
  readonly at: Span;
}

export default rule({
  id: 'hazard-not-listed',
  severity: 'error',
  needs: 'proof',
  *run(proof, { book }) {
    const met = unlisted(proof, book);
    const [first, ...others] = met;
    if (!first) return;
    const related = others.map(({ hazard, step, at }) => ({ message: `${step} meets \`${hazard}\``, at }));
    yield { at: first.at, related, data: { met, listedNone: proof.variant.procedure.hazards.length === 0 } };
  },
  say: ({ met, listedNone }) => {
    const [first] = met;
    const names = met.map(({ hazard }) => `\`${hazard}\``);
    const rules = met.length === 1 && first ? first.rules : [];
    return {
      message:
        met.length === 1
          ? `${capital(first?.step ?? '')} meets the hazard ${names[0]}, and the procedure does not list it`
          : `Steps meet the hazards ${listed(names, 'and')}, and the procedure ${listedNone ? 'lists none' : 'does not list them'}`,
      help: listedNone
        ? `Say \`hazards: [${met.map(({ hazard }) => hazard).join(', ')}]\` at the top.`
        : `Add ${listed(names, 'and')} to \`hazards\` at the top.`,
      note:
        rules.length > 0
          ? `The safety rule ${rules.map((id) => `\`${id}\``).join(' and ')} keeps people from that hazard and holds there.`
          : 'Whoever reads the top of the page must know what can hurt them.',
    };
  },
});

/** Each hazard that is met and not listed, with the first step that meets it. */
function unlisted({ variant, result }: Proof, book: Book): readonly Met[] {
  const known = new Set(variant.procedure.hazards);
  const found: Met[] = [];
  for (const { place, hazards, rules } of result.facts) {
    if (place.end !== undefined) continue;
    for (const hazard of hazards) {
      if (known.has(hazard)) continue;
      known.add(hazard);
      const step = variant.procedure.source.steps.find(({ id }) => id.value === place.step);
      const own = place.calls.length === 0 ? step?.hazards.find(({ value }) => value === hazard) : undefined;
      const because = rules.filter((id) => book.rules.some((one) => one.id === id && one.hazard?.value === hazard));
      const outermost = place.calls[0] ? outer(variant.procedure.id, place.calls[0]) : {};
      const at = own?.at ?? stepIdAt({ ...place, ...outermost }, book);
      found.push({ hazard, step: stepName(place), rules: because, at });
    }
  }
  return found;
}

/** The step of the procedure itself that runs the one where the hazard is met. */
function outer(procedure: string, step: string): { procedure: string; step: string } {
  return { procedure, step };
}
