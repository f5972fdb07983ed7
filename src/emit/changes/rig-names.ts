// Rigs as they are written, in the words that people call them.

import { readRigLabel } from '../../model/rig.js';
import { type Page, plainOf } from '../pages/context.js';
import { describeRig } from '../pages/rig-words.js';

/** `12-row header, 20 in rows, display software 4.2` for `tarn-40+row-12x20@4.2`; the machine's name where nothing follows it. */
export function sayWrittenRig(page: Page, label: string): string {
  const { book } = page.site.book;
  const rig = readRigLabel(label, book, (name) => book.headers.has(name));
  const machine = book.machines.get(rig.machine);
  const said = [
    rig.header === '' ? '' : plainOf(page, book.headers.get(rig.header)?.name),
    describeRig(rig, machine, page.voice),
  ];
  const told = said.filter((words) => words !== '').join(', ');
  return told === '' ? plainOf(page, machine?.name) || rig.machine : told;
}
