// A value or a column read with something that measures another quantity.

import { describeDimension, quantityDimension, sameDimension } from '../../calc/dimension.js';
import type { Unit } from '../../calc/unit.js';
import type { Instrument } from '../../model/book.js';
import type { ResolvedProcedure } from '../../model/resolved.js';
import { leavesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';

/** A value or a column, with the instrument that it is read with. */
interface Reading {
  readonly id: string;
  readonly unit: Unit;
  readonly quantity?: string;
  readonly instrument: Instrument;
  readonly at: Span;
}

export default rule({
  id: 'instrument-of-other-quantity',
  severity: 'error',
  needs: 'variant',
  *run({ procedure }) {
    for (const { id, unit, quantity, instrument, at } of readingsOf(procedure)) {
      const measured = quantityDimension(instrument.quantity.value);
      if (!measured || sameDimension(measured, unit.dimension)) continue;
      const measures = instrument.quantity.value;
      yield {
        at,
        related: [{ message: `\`${instrument.id}\` measures ${measures}`, at: instrument.quantity.at }],
        data: { id, instrument: instrument.id, measures, wanted: quantity ?? describeDimension(unit.dimension) },
      };
    }
  },
  say: ({ id, instrument, measures, wanted }) => ({
    message: `\`${id}\` is ${/^[aeiou]/.test(wanted) ? 'an' : 'a'} ${wanted}, and \`${instrument}\` measures ${measures}`,
    help: `Name an instrument that measures ${wanted} in \`read-with\`.`,
  }),
});

function* readingsOf({ values, worksheets }: ResolvedProcedure): Iterable<Reading> {
  for (const { id, unit, quantity, instrument, source } of values) {
    if (!instrument) continue;
    const names = source.readWith ? [...leavesOf(source.readWith)] : [];
    const at = names.find((name) => name.value === instrument.id)?.at ?? source.idAt;
    yield { id, unit, instrument: instrument.source, at, ...(quantity === undefined ? {} : { quantity }) };
  }
  for (const sheet of worksheets) {
    for (const { id, unit, instrument } of sheet.columns) {
      const written = sheet.source.columns.find((column) => column.id === id);
      if (unit && instrument && written) {
        yield { id, unit, instrument: instrument.source, at: written.readWith?.at ?? written.at };
      }
    }
  }
}
