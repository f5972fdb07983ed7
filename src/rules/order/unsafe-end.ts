// An end at which what the book wants there may not hold.

import type { StepPlace, Violation } from '../../order/result.js';
import { rule } from '../rule.js';
import { bringAbout } from './help.js';
import { sayOf, violationsOf } from './violation.js';
import { code, endWords, missingWords, stepIdAt, stepName } from './words.js';

export default rule({
  id: 'unsafe-end',
  severity: 'error',
  needs: 'proof',
  *run(proof, context) {
    for (const finding of violationsOf('end-must-not-met', proof, context)) {
      const place = lostIn(finding.data);
      yield place ? { ...finding, at: stepIdAt(place, context.book) } : finding;
    }
  },
  say: (violation) => {
    const place = lostIn(violation);
    const end = code(violation.end ?? '');
    const when = place ? `${end}, after ${stepName(place)}` : endWords(violation);
    const others = place ? [] : [`let ${end} run a procedure that does so, under \`ends\` in safety.yaml`];
    return sayOf(violation, {
      message: `The machine is not left as the book wants it at ${when}: ${missingWords(violation.missing)}`,
      help: bringAbout(violation, others),
    });
  },
});

// The step of what the end runs that takes the first fact away: the same slip for every procedure that comes there.
function lostIn({ missing, trace }: Violation): StepPlace | undefined {
  const lost = missing[0]?.lost;
  const place = lost?.kind === 'step' ? trace[lost.entry]?.place : undefined;
  return place?.end === undefined ? undefined : place;
}
