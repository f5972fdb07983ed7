// What sets some rigs apart from others of the same machine and header, in words and as part of an address.

import type { Machine } from '../../model/book.js';
import type { Rig } from '../../model/resolved.js';
import type { Stretch } from '../../model/serials.js';
import { anyone, wordsOf } from '../book-text.js';
import type { Voice } from '../voice.js';

/** `with lateral tilt, display software 4.2, serial numbers from 70-00300`; empty where the rig is any of its kind. */
export function describeRig(rig: Rig, machine: Machine | undefined, voice: Voice): string {
  return [
    ...[...rig.options].map(([id, fitted]) =>
      voice.text(fitted ? 'with-option' : 'without-option', { option: optionName(id, machine, voice) }),
    ),
    ...[...rig.software].map(([module, versions]) =>
      voice.text('software-is', { module, versions: versions.join(` ${voice.text('or')} `) }),
    ),
    ...describeSerials(rig, machine, voice),
  ].join(', ');
}

/** What an option is called; its id in words where the book gives it no label. */
export function optionName(id: string, machine: Machine | undefined, voice: Voice): string {
  const label = machine?.options.find((option) => option.id === id)?.label;
  const name = label ? voice.plain(wordsOf(label, anyone)) : id.replaceAll('-', ' ');
  // within a sentence: `with lateral tilt`, but `with GPS mast`
  return /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

function describeSerials(rig: Rig, machine: Machine | undefined, voice: Voice): readonly string[] {
  return saySerials(innerEnds(rig, machine), voice);
}

/** `serial numbers 70-00100 to 70-04999`; of two parts where not both ends belong to it. */
export function saySerials({ from, to }: Stretch, voice: Voice): readonly string[] {
  if (from?.included && to?.included) {
    return [voice.text('serials-between', { from: unbroken(from.serial), to: unbroken(to.serial) })];
  }
  return [
    from && voice.text(from.included ? 'serials-from' : 'serials-after', { from: unbroken(from.serial) }),
    to && voice.text(to.included ? 'serials-to' : 'serials-before', { to: unbroken(to.serial) }),
  ].filter((text) => text !== undefined);
}

// an end that is where the machine's own serials end tells nothing apart
function innerEnds(rig: Rig, machine: Machine | undefined): NonNullable<Rig['serials']> {
  const { from, to } = rig.serials ?? {};
  const isFirst = from?.included && from.serial === machine?.serials?.from;
  const isLast = to?.included && to.serial === machine?.serials?.to;
  return { ...(from && !isFirst && { from }), ...(to && !isLast && { to }) };
}

/** All serials of a machine; nothing where the book does not say them. */
export function serialsOf({ serials }: Machine): Stretch | undefined {
  if (!serials) return undefined;
  const { from, to } = serials;
  return { from: { serial: from, included: true }, ...(to !== undefined && { to: { serial: to, included: true } }) };
}

/** A serial that reads as one: its hyphens do not break a line. */
export function unbroken(serial: string): string {
  return serial.replaceAll('-', '\u2011');
}

/** The part of an address that tells a rig apart: `with-lateral-tilt-display-4.2-from-70-00300`; empty for any rig. */
export function rigAddress(rig: Rig, machine: Machine): string {
  const { from, to } = innerEnds(rig, machine);
  return [
    ...[...rig.options].map(([id, fitted]) => `${fitted ? 'with' : 'without'}-${id}`),
    ...[...rig.software].map(([module, versions]) => `${module}-${versions.join('-')}`),
    from && `${from.included ? 'from' : 'after'}-${from.serial}`,
    to && `${to.included ? 'to' : 'before'}-${to.serial}`,
  ]
    .filter((part) => part !== undefined)
    .join('-')
    .replaceAll(/[^\w.-]+/g, '-');
}
