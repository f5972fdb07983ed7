// A customer's unit, or a header of one, that no procedure of the book is for.

import type { FleetUnit } from '../../model/book.js';
import { mayBeRig } from '../../model/fleet.js';
import { rule } from '../rule.js';

export default rule({
  id: 'unit-without-procedure',
  severity: 'warning',
  needs: 'book',
  *run(book, { resolved, proofs, isPart }) {
    // with some rigs left out, or a procedure that could not be worked out, more may be for it than can be seen
    if (isPart || book.procedures.size === 0 || resolved.variants.some(({ id }) => !proofs?.has(id))) return;
    const variants = resolved.variants.filter(({ procedure }) => procedure.status !== 'withdrawn');
    const known = new Set(resolved.variants.map(({ procedure }) => procedure.id));
    if ([...book.procedures.keys()].some((id) => !known.has(id)) || book.unread.size > 0) return;
    for (const unit of book.fleet) {
      const machine = book.machines.get(unit.machine.value);
      if (!machine) continue;
      const fitting = unit.headers.filter(({ header }) => machine.headers.some(({ value }) => value === header.value));
      for (const { header } of fitting) {
        const of = { unit, machine, header: header.value };
        if (variants.some(({ rigs }) => rigs.some((rig) => mayBeRig(rig, of)))) continue;
        yield { at: header.at, data: { unit: unit.id.value, header: header.value, about: aboutOf(unit) } };
      }
    }
  },
  say: ({ unit, header, about }) => ({
    message: `No procedure of the book is for \`${unit}\` with \`${header}\`: ${about}`,
    help: 'Mend what is said of the unit, or widen `applies` of the procedures that it needs; waive this if none is to be.',
    note: 'Whoever chooses this machine and header on the phone finds nothing.',
  }),
});

function aboutOf({ machine, serial, software, options }: FleetUnit): string {
  const fitted = options.map(({ value }) => `\`${value}\``);
  return [
    `\`${machine.value}\``,
    ...(serial ? [`serial \`${serial.value}\``] : []),
    ...software.map(({ version }) => `software \`${version.value}\``),
    fitted.length > 0 ? `with ${fitted.join(' and ')}` : 'without options',
  ].join(', ');
}
