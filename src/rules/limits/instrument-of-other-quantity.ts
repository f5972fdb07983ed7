// A value read with something that measures another quantity.

import { describeDimension, quantityDimension, sameDimension } from '../../calc/dimension.js';
import { leavesOf } from '../../model/walk.js';
import { rule } from '../rule.js';

export default rule({
  id: 'instrument-of-other-quantity',
  severity: 'error',
  needs: 'value',
  *run({ value }) {
    const { instrument } = value;
    const measured = instrument && quantityDimension(instrument.source.quantity.value);
    if (!instrument || !measured || sameDimension(measured, value.unit.dimension)) return;
    const names = value.source.readWith ? [...leavesOf(value.source.readWith)] : [];
    const at = names.find((name) => name.value === instrument.id)?.at ?? value.source.idAt;
    yield {
      at,
      related: [
        {
          message: `\`${instrument.id}\` measures ${instrument.source.quantity.value}`,
          at: instrument.source.quantity.at,
        },
      ],
      data: {
        id: value.id,
        instrument: instrument.id,
        measures: instrument.source.quantity.value,
        wanted: value.quantity ?? describeDimension(value.unit.dimension),
      },
    };
  },
  say: ({ id, instrument, measures, wanted }) => ({
    message: `\`${id}\` is a ${wanted} and \`${instrument}\` measures ${measures}`,
    help: `Name an instrument that measures ${wanted} in \`read-with\`.`,
  }),
});
