// Rigs as they are written: on the command line, in diagnostics, in the compiled book.

import type { Rig } from './resolved.js';

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
