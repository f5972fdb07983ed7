// Rigs as they are written: on the command line, in diagnostics, in the compiled book.

import type { Rig, SerialEnd } from './resolved.js';
import type { RigMachines } from './rig-lists.js';

/**
 * `tarn-40+row-12x20+lateral-tilt@4.2#70-00300..70-00499`. Parts that make no difference are left out. An option that is
 * not fitted is `~lateral-tilt`; several software versions are joined by `|`; an end of a serial stretch that does not
 * belong to it is in parentheses: `#(70-00299)..`.
 */
export function rigLabel(rig: Rig): string {
  const options = [...rig.options].map(([id, fitted]) => `${fitted ? '+' : '~'}${id}`).sort();
  const software = [...rig.software.values()].map((versions) => `@${versions.join('|')}`);
  return [rig.machine, `+${rig.header}`, ...options, ...software, serialLabel(rig)].join('');
}

function serialLabel(rig: Rig): string {
  const { from, to } = rig.serials ?? {};
  if (!from && !to) return '';
  const end = (of: typeof from): string => (of ? (of.included ? of.serial : `(${of.serial})`) : '');
  return `#${end(from)}..${end(to)}`;
}

/**
 * The rig that `rigLabel` wrote, be it on another day: what it names may be gone from the book. Its software belongs to the
 * module of the machine that lists one of the versions; where none does, the rig counts as one with any software. A label
 * may have been written without its header, which is then empty: `isHeader` tells whether the first name is one.
 */
export function readRigLabel(
  label: string,
  { machines }: RigMachines,
  isHeader: (name: string) => boolean = () => true,
): Rig {
  const [, machine = '', rest = ''] = /^([^+~@#]*)(.*)$/s.exec(label) ?? [];
  const parts = rest.match(/[+~@][^+~@#]*|#.*$/gs) ?? [];
  const [first = ''] = parts;
  const header = first.startsWith('+') && isHeader(first.slice(1)) ? first.slice(1) : '';
  const options = new Map<string, boolean>();
  const software = new Map<string, readonly string[]>();
  let serials: Rig['serials'];
  for (const part of header === '' ? parts : parts.slice(1)) {
    const [sign, name] = [part.slice(0, 1), part.slice(1)];
    if (sign === '#') serials = stretchOf(name);
    else if (sign === '@') {
      const versions = name.split('|');
      const known = machines
        .get(machine)
        ?.software.find((one) => one.versions.some(({ value }) => versions.includes(value)));
      if (known) software.set(known.module.value, versions);
    } else options.set(name, sign === '+');
  }
  return { machine, header, options, software, ...(serials && { serials }) };
}

function stretchOf(text: string): Rig['serials'] {
  const [first = '', last = first] = text.split('..');
  const [from, to] = [endOf(first), endOf(last)];
  return from || to ? { ...(from && { from }), ...(to && { to }) } : undefined;
}

function endOf(text: string): SerialEnd | undefined {
  if (text === '') return undefined;
  const open = /^\((.*)\)$/s.exec(text)?.[1];
  return open === undefined ? { serial: text, included: true } : { serial: open, included: false };
}
