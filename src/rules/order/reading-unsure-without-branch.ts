// A reading in three zones that may be too close to call, and no word of what to do then.

import type { Variant } from '../../model/resolved.js';
import { rule } from '../rule.js';

export default rule({
  id: 'reading-unsure-without-branch',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }: Variant) {
    const three = new Set(
      procedure.values.flatMap(({ id, decision, tolerance }) => (decision === 'three-zone' && tolerance ? [id] : [])),
    );
    for (const { measure, when, number, id } of procedure.steps) {
      const [value] = measure.filter((one) => three.has(one));
      const outside = when.get('outside');
      if (value === undefined || !outside || when.has('unsure')) continue;
      yield { at: outside.at, data: { step: `${number} \`${id}\``, value, go: outside.go } };
    }
  },
  say: ({ step, value, go }) => ({
    message: `Step ${step} does not say where a reading of \`${value}\` goes that is too close to call: it goes to \`${go}\`, as a failing one does`,
    help: `Add \`unsure\` to \`when\`, such as a step that reads once more; \`unsure: ${go}\` if it is to be taken as failing.`,
    note: 'ILAC-G8: under a decision in three zones a reading near a limit neither passes nor fails.',
  }),
});
