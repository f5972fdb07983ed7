// Rigs written as short as is true: a machine alone stands for all its rigs here, a machine with a header for all of those.

import type { Rig } from '../model/resolved.js';
import { rigLabel } from '../model/rig.js';
import { mergeRigs, type RigMachines } from '../model/rig-lists.js';
import { sharedBox } from './rig-boxes.js';

/**
 * How a part of some boxes is written. `all` are boxes that do not overlap, `wanted` those of them that are meant. Nothing
 * is written for all of them; `tarn-40` for all that are of this machine, `tarn-40@4.2` for all of it with that software.
 */
export function writeRigs(wanted: ReadonlySet<Rig>, all: readonly Rig[], machines: RigMachines): readonly string[] {
  if (all.every((box) => wanted.has(box))) return [];
  const ids = [...new Set([...wanted].map(({ machine }) => machine))].sort();
  return ids.flatMap((machine) => {
    const own = all.filter((box) => box.machine === machine);
    if (own.every((box) => wanted.has(box))) return [machine];
    const { written, rest } = writeAcross(wanted, own);
    return [...written, ...writeHeaders(rest, own, machines)];
  });
}

/** What holds for all headers of a machine alike is written without them. */
function writeAcross(
  wanted: ReadonlySet<Rig>,
  own: readonly Rig[],
): { readonly written: readonly string[]; readonly rest: ReadonlySet<Rig> } {
  const rest = new Set(own.filter((box) => wanted.has(box)));
  const written: string[] = [];
  for (const box of [...rest]) {
    if (!rest.has(box) || facetsOf(box) === '') continue;
    const touched = own.filter((other) => sharedBox({ ...box, header: other.header }, other));
    const alike = touched.filter((other) => facetsOf(other) === facetsOf(box));
    if (alike.length < 2 || !touched.every((other) => wanted.has(other))) continue;
    written.push(box.machine + facetsOf(box));
    for (const other of alike) rest.delete(other);
  }
  return { written: written.sort(), rest };
}

function facetsOf(box: Rig): string {
  return rigLabel(box).slice(`${box.machine}+${box.header}`.length);
}

function writeHeaders(wanted: ReadonlySet<Rig>, own: readonly Rig[], machines: RigMachines): readonly string[] {
  const headers = [...new Set(own.filter((box) => wanted.has(box)).map(({ header }) => header))].sort();
  return headers.flatMap((header) => {
    const boxes = own.filter((box) => box.header === header);
    const meant = boxes.filter((box) => wanted.has(box));
    const [first] = meant;
    if (first && meant.length === boxes.length) return [`${first.machine}+${header}`];
    return mergeRigs(machines, meant).map(rigLabel);
  });
}
