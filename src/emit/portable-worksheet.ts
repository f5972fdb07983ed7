// A worksheet as the calculation core wants it, ready to be carried to a phone with `writePortable`.

import { enclosureOf } from '../calc/limits.js';
import type { Sheet } from '../calc/worksheet/sheet.js';
import type { ResolvedWorksheet } from '../model/resolved.js';

/** What `workOutSheet` works out. Labels stay behind: the page has them in its language. */
export function portableSheet(worksheet: ResolvedWorksheet): Sheet {
  const { id, rows, decision, parameters, columns, results } = worksheet;
  return {
    id,
    rows,
    decision,
    parameters: [...parameters].flatMap(([path, limits]) => {
      const range = enclosureOf(limits);
      return range ? [[path, { low: range.low, high: range.high }] as const] : [];
    }),
    columns: columns.map(({ id: column, unit, choices, from, instrument, limits }) => ({
      id: column,
      ...(unit && { unit }),
      ...(choices && { choices: choices.map(({ id: choice }) => choice) }),
      ...(from && { from }),
      ...(instrument && { instrument: instrument.calc, instrumentName: instrument.id }),
      ...(limits && { limits }),
    })),
    results: results.map(({ id: result, unit, from, limits }) => ({
      id: result,
      unit,
      from,
      ...(limits && { limits }),
    })),
  };
}
