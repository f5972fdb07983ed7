// A rig as it was written at another day, read again: what it names may be gone from the book.

import type { Rig, SerialEnd } from '../model/resolved.js';
import type { RigMachines } from '../model/rig-lists.js';

/**
 * The rig that `rigLabel` wrote. Its software belongs to the module of the machine that lists one of the versions; where none
 * does, the rig counts as one with any software.
 */
export function readRigLabel(label: string, { machines }: RigMachines): Rig {
  const [, machine = '', rest = ''] = /^([^+~@#]*)(.*)$/s.exec(label) ?? [];
  const parts = rest.match(/[+~@][^+~@#]*|#.*$/gs) ?? [];
  const [header = '', ...others] = parts;
  const options = new Map<string, boolean>();
  const software = new Map<string, readonly string[]>();
  let serials: Rig['serials'];
  for (const part of others) {
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
  return { machine, header: header.slice(1), options, software, ...(serials && { serials }) };
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
