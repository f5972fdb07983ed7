// A derived value that cannot be worked out for readings that are all inside.

import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { derivedFault } from './ranges.js';

export default rule({
  id: 'derived-without-value',
  severity: 'error',
  needs: 'value',
  *run({ value, variant: { procedure } }) {
    const fault = derivedFault(value, procedure);
    const written = value.source.from;
    if (!fault || !written) return;
    const at = spanWithin(written.source, fault.start, fault.end);
    yield { at, data: { id: value.id, fault: fault.message, inputs: value.derived?.inputs ?? [] } };
  },
  say: ({ id, fault, inputs }) => ({
    message: `\`${id}\` cannot be worked out while ${inputs.map((name) => `\`${name}\``).join(' and ')} are inside their limits: ${fault}`,
    help: 'Mend the expression, or the limits of what it is worked out from: one of them is a slip.',
    note: 'A person would stand before a reading without a verdict.',
  }),
});
