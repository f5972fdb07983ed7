// A hazard that a step meets and the procedure does not list.

import { capital, stepIdAt, stepName } from '../order/words.js';
import { rule } from '../rule.js';

export default rule({
  id: 'hazard-not-listed',
  severity: 'error',
  needs: 'proof',
  *run({ variant, result }, { book }) {
    const listed = new Set(variant.procedure.hazards);
    const reported = new Set<string>();
    for (const { place, hazards, rules } of result.facts) {
      if (place.end !== undefined) continue;
      for (const hazard of hazards) {
        if (listed.has(hazard) || reported.has(hazard)) continue;
        reported.add(hazard);
        const step = variant.procedure.source.steps.find(({ id }) => id.value === place.step);
        const own = place.calls.length === 0 ? step?.hazards.find(({ value }) => value === hazard) : undefined;
        const because = rules.filter((id) =>
          book.rules.some((rule) => rule.id === id && rule.hazard?.value === hazard),
        );
        yield {
          at:
            own?.at ??
            stepIdAt({ ...place, ...(place.calls[0] ? outer(variant.procedure.id, place.calls[0]) : {}) }, book),
          data: { hazard, step: stepName(place), rules: because, listedNone: variant.procedure.hazards.length === 0 },
        };
      }
    }
  },
  say: ({ hazard, step, rules, listedNone }) => ({
    message: `${capital(step)} meets the hazard \`${hazard}\`, and the procedure does not list it`,
    help: listedNone ? `Say \`hazards: [${hazard}]\` at the top.` : `Add \`${hazard}\` to \`hazards\` at the top.`,
    note:
      rules.length > 0
        ? `The safety rule ${rules.map((id) => `\`${id}\``).join(' and ')} keeps people from that hazard and holds there.`
        : 'Whoever reads the top of the page must know what can hurt them.',
  }),
});

/** The step of the procedure itself that runs the one where the hazard is met. */
function outer(procedure: string, step: string): { procedure: string; step: string } {
  return { procedure, step };
}
