// Rigs as they are written, in the words that people call them.

import type { SerialEnd } from '../../model/resolved.js';
import { type Page, plainOf } from '../pages/context.js';
import { describeRig } from '../pages/rig-words.js';

/** `12-row header, 20 in rows, display software 4.2` for `tarn-40+row-12x20@4.2`; the machine's name where nothing follows it. */
export function sayWrittenRig(page: Page, label: string): string {
  const { machines, headers } = page.site.book.book;
  const [id = '', ...parts] = label.split(/(?=[+~@#])/);
  const machine = machines.get(id);
  const options = new Map<string, boolean>();
  const software = new Map<string, readonly string[]>();
  let serials: { from?: SerialEnd; to?: SerialEnd } | undefined;
  let header: string | undefined;
  for (const part of parts) {
    const [sign, name] = [part.slice(0, 1), part.slice(1)];
    if (sign === '+' && headers.has(name)) header = name;
    else if (sign === '+' || sign === '~') options.set(name, sign === '+');
    else if (sign === '@') software.set(moduleOf(machine?.software ?? [], name.split('|')), name.split('|'));
    else serials = readStretch(name);
  }
  const rig = { machine: id, header: header ?? '', options, software, ...(serials && { serials }) };
  const said = [
    header === undefined ? '' : plainOf(page, headers.get(header)?.name),
    describeRig(rig, machine, page.voice),
  ];
  const told = said.filter((words) => words !== '').join(', ');
  return told === '' ? plainOf(page, machine?.name) || id : told;
}

// versions are written without their module
function moduleOf(
  software: readonly {
    readonly module: { readonly value: string };
    readonly versions: readonly { readonly value: string }[];
  }[],
  versions: readonly string[],
): string {
  const found = software.find((one) => one.versions.some(({ value }) => versions.includes(value)));
  return found?.module.value ?? '';
}

function readStretch(text: string): { from?: SerialEnd; to?: SerialEnd } {
  const end = (of: string | undefined): SerialEnd | undefined => {
    if (of === undefined || of === '') return undefined;
    const open = /^\((.*)\)$/.exec(of);
    return open ? { serial: open[1] ?? '', included: false } : { serial: of, included: true };
  };
  const [from, to] = text.split('..').map(end);
  return { ...(from && { from }), ...(to && { to }) };
}
