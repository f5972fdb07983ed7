// A step that is at one place and reads a value that is read at another.

import type { ResolvedStep, Variant } from '../../model/resolved.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

export default rule({
  id: 'two-places-in-step',
  severity: 'warning',
  needs: 'variant',
  *run({ procedure }: Variant) {
    const values = new Map(procedure.values.map((value) => [value.id, value]));
    for (const step of procedure.steps) {
      const { place, measure, number, id } = step;
      const elsewhere = measure
        .flatMap((name) => values.get(name) ?? [])
        .find(({ readAt }) => readAt && readAt !== place);
      if (place === undefined || !elsewhere) continue;
      const { readAt = '', instrument, source } = elsewhere;
      const told = instrument?.source.readAt?.at ?? source.readAt?.at;
      const related = told ? [{ message: `where \`${elsewhere.id}\` is read`, at: told }] : [];
      yield { at: placeOf(step), related, data: { step: `${number} \`${id}\``, place, value: elsewhere.id, readAt } };
    }
  },
  say: ({ step, place, value, readAt }) => ({
    message: `Step ${step} is at \`${place}\`, and \`${value}\` is read at \`${readAt}\``,
    help: `Write \`at: ${readAt}\`, or read it in a step of its own.`,
    note: 'Nobody stands at two places: what is proved of the one would not hold at the other.',
  }),
});

function placeOf({ source, at }: ResolvedStep): Span {
  return source.place?.at ?? at;
}
