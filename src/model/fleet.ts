// Which rigs a customer's unit may be. What is not known of a unit speaks against nothing.

import type { FleetUnit, Machine } from './book.js';
import type { Rig } from './resolved.js';
import { isInStretch } from './serials.js';

/**
 * Whether a unit may be such a rig: with one of its headers, with the options that it has and that its machine has as
 * standard, with its serial and its software. Where `header` is given, with that one.
 */
export function mayBeRig(
  rig: Rig,
  of: { readonly unit: FleetUnit; readonly machine: Machine; readonly header?: string },
): boolean {
  const { unit, machine, header } = of;
  const headers = header === undefined ? unit.headers.map((one) => one.header.value) : [header];
  if (rig.machine !== unit.machine.value || !headers.includes(rig.header)) return false;
  const fitted = new Set([
    ...unit.options.map(({ value }) => value),
    ...machine.options.flatMap(({ id, is }) => (is === 'standard' ? [id] : [])),
  ]);
  if ([...rig.options].some(([id, wanted]) => fitted.has(id) !== wanted)) return false;
  if (unit.serial && rig.serials && !isInStretch(rig.serials, unit.serial.value)) return false;
  return unit.software.every(({ module, version }) => {
    const possible = module ? rig.software.get(module.value) : [...rig.software.values()][0];
    return !possible || possible.includes(version.value);
  });
}
