// A rig as it is written on the command line: `tarn-40+row-12x20+lateral-tilt@4.2#70-00317`. Parts left out mean all.

import { askWhetherMeant, nearestNames } from '../diagnostic/nearest.js';
import type { Book, Machine } from '../model/book.js';
import type { SerialEnd } from '../model/resolved.js';
import { isInStretch } from '../model/serials.js';
import { anyRig, headersOf, ownStretch, type PartialRig } from './facets.js';
import { joinNames } from './faults.js';

/** A rig as far as its text decides it, or why the text is none. */
export type ReadRig =
  | { readonly ok: true; readonly rig: PartialRig }
  | { readonly ok: false; readonly message: string; readonly help: string };

interface Unknown {
  readonly part: string;
  readonly what: string;
  readonly known: readonly string[];
  /** Instead of the known names. */
  readonly help?: string;
}

/** Reads a rig: a machine, then in any order `+header`, `+option`, `~option`, `@version`, `#serial` or `#from..to`. */
export function readRig(book: Book, text: string): ReadRig {
  const [name = '', ...parts] = text.trim().split(/(?=[+~@#])/);
  const machine = book.machines.get(name);
  if (!machine)
    return refuse(text, { part: name, what: 'machine of the book', known: [...book.machines.keys()].sort() });
  let rig: PartialRig = { ...anyRig(book), pairs: anyRig(book).pairs.filter((pair) => pair.machine === machine.id) };
  for (const part of parts) {
    const next = addPart(book, machine, { rig, sign: part.slice(0, 1), name: part.slice(1) });
    if ('known' in next) return refuse(text, next);
    rig = next;
  }
  return { ok: true, rig };
}

function refuse(text: string, { part, what, known, help }: Unknown): ReadRig {
  const near = nearestNames(part, known);
  const listed =
    known.length > 0 ? `Write ${known.length < 3 ? '' : 'one of '}${joinNames(known, 'or')}.` : `There is no ${what}.`;
  return {
    ok: false,
    message: `\`${part}\` in the rig \`${text}\` is no ${what}`,
    help: help ?? askWhetherMeant(near) ?? listed,
  };
}

interface Part {
  readonly rig: PartialRig;
  readonly sign: string;
  readonly name: string;
}

function addPart(book: Book, machine: Machine, { rig, sign, name }: Part): PartialRig | Unknown {
  if (sign === '@') return addVersions(machine, rig, name);
  if (sign === '#') return addSerial(machine, rig, name);
  const headers = headersOf(book, machine);
  if (sign === '+' && headers.includes(name))
    return { ...rig, pairs: rig.pairs.filter(({ header }) => header === name) };
  const options = machine.options.filter((option) => option.is === 'optional').map(({ id }) => id);
  const isStandard = machine.options.some(({ id, is }) => id === name && is === 'standard');
  if (sign === '+' && isStandard) return rig;
  if (options.includes(name)) return { ...rig, options: new Map(rig.options).set(name, sign === '+') };
  return sign === '+'
    ? { part: name, what: `header or option of \`${machine.id}\``, known: [...headers, ...options] }
    : { part: name, what: `option of \`${machine.id}\` that it may be without`, known: options };
}

function addVersions(machine: Machine, rig: PartialRig, text: string): PartialRig | Unknown {
  const wanted = text.split('|');
  const all = machine.software.flatMap(({ versions }) => versions.map(({ value }) => value));
  for (const version of wanted) {
    if (!all.includes(version)) return { part: version, what: `software version of \`${machine.id}\``, known: all };
  }
  const software = new Map(rig.software);
  for (const { module, versions } of machine.software) {
    const kept = versions.map(({ value }) => value).filter((version) => wanted.includes(version));
    if (kept.length > 0) software.set(module.value, kept);
  }
  return { ...rig, software };
}

function addSerial(machine: Machine, rig: PartialRig, text: string): PartialRig | Unknown {
  const [first = '', last] = text.split('..');
  const own = ownStretch(machine);
  const from = last === undefined ? { serial: first, included: true } : endOf(first, own.from);
  const to = last === undefined ? { serial: first, included: true } : endOf(last, own.to);
  for (const end of [from, to]) {
    if (end && !isInStretch(own, end.serial)) {
      const { id } = machine;
      const help = `Its serials run from \`${own.from?.serial}\` to ${own.to ? `\`${own.to.serial}\`` : 'the newest'}.`;
      return { part: end.serial, what: `serial of \`${id}\``, known: [], help };
    }
  }
  return { ...rig, serials: { ...(from ? { from } : {}), ...(to ? { to } : {}) } };
}

/** `70-00300`, or `(70-00299)` for an end that does not belong to it; the machine's own end where nothing is written. */
function endOf(text: string, own: SerialEnd | undefined): SerialEnd | undefined {
  if (text === '') return own;
  const open = /^\((.*)\)$/.exec(text);
  return open ? { serial: open[1] ?? '', included: false } : { serial: text, included: true };
}
