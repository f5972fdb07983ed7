// Rigs as boxes: which rigs two of them share, and what of one is left without the other. What a box does not say may be
// anything.

import type { CompiledBook, PlainRig } from '../model/compiled-book.js';
import type { Rig } from '../model/resolved.js';
import type { RigMachines } from '../model/rig-lists.js';
import { type Cut, compareSerials, cutStretch, type Stretch } from '../model/serials.js';

/** A rig of a compiled book. */
export function boxOf({ machine, header, options, software, serials }: PlainRig): Rig {
  return {
    machine,
    header,
    options: new Map(Object.entries(options)),
    software: new Map(Object.entries(software)),
    ...(serials && { serials }),
  };
}

/** What both books know of their machines: headers and versions of either. */
export function machinesOf(...books: readonly CompiledBook[]): RigMachines {
  const machines = new Map<string, RigMachines['machines'] extends ReadonlyMap<string, infer M> ? M : never>();
  for (const machine of books.flatMap((book) => book.machines)) {
    const known = machines.get(machine.id);
    const headers = new Set([...(known?.headers ?? []).map(({ value }) => value), ...machine.headers]);
    const modules = new Map(
      (known?.software ?? []).map(({ module, versions }) => [module.value, versions.map(({ value }) => value)]),
    );
    for (const [module, versions] of Object.entries(machine.software))
      modules.set(module, [...new Set([...(modules.get(module) ?? []), ...versions])]);
    machines.set(machine.id, {
      headers: [...headers].map((value) => ({ value })),
      software: [...modules].map(([module, versions]) => ({
        module: { value: module },
        versions: versions.map((value) => ({ value })),
      })),
      ...(machine.serials && { serials: machine.serials }),
    });
  }
  return { machines };
}

/** The rigs that are in both boxes; undefined where there are none. */
export function sharedBox(a: Rig, b: Rig): Rig | undefined {
  if (a.machine !== b.machine || a.header !== b.header) return undefined;
  const options = new Map(a.options);
  for (const [id, fitted] of b.options) {
    if ((options.get(id) ?? fitted) !== fitted) return undefined;
    options.set(id, fitted);
  }
  const software = new Map(a.software);
  for (const [module, versions] of b.software) {
    const kept = (software.get(module) ?? versions).filter((version) => versions.includes(version));
    if (kept.length === 0) return undefined;
    software.set(module, kept);
  }
  const serials = sharedStretch(a.serials, b.serials);
  if (serials === 'none') return undefined;
  return { machine: a.machine, header: a.header, options, software, ...(serials && { serials }) };
}

function sharedStretch(a: Stretch | undefined, b: Stretch | undefined): Stretch | undefined | 'none' {
  if ((a && isEmpty(a)) || (b && isEmpty(b))) return 'none';
  if (!a || !b) return a ?? b;
  const above = b.from ? cutStretch(a, startOf(b.from)).above : a;
  if (!above) return 'none';
  const both = b.to ? cutStretch(above, endOf(b.to)).below : above;
  return both ?? 'none';
}

function isEmpty({ from, to }: Stretch): boolean {
  if (!from || !to) return false;
  const order = compareSerials(from.serial, to.serial);
  return order > 0 || (order === 0 && !(from.included && to.included));
}

function startOf({ serial, included }: NonNullable<Stretch['from']>): Cut {
  return { serial, side: included ? 'before' : 'after' };
}

function endOf({ serial, included }: NonNullable<Stretch['to']>): Cut {
  return { serial, side: included ? 'after' : 'before' };
}

/** What is left of boxes without others. */
export function boxesWithout(boxes: readonly Rig[], others: readonly Rig[], machines: RigMachines): readonly Rig[] {
  return others.reduce<readonly Rig[]>((left, other) => left.flatMap((box) => boxWithout(box, other, machines)), boxes);
}

function boxWithout(box: Rig, other: Rig, machines: RigMachines): readonly Rig[] {
  const shared = sharedBox(box, other);
  if (!shared) return [box];
  const left: Rig[] = [];
  let rest = box;
  for (const [id, fitted] of shared.options) {
    if (rest.options.has(id)) continue;
    left.push({ ...rest, options: new Map(rest.options).set(id, !fitted) });
    rest = { ...rest, options: new Map(rest.options).set(id, fitted) };
  }
  for (const [module, versions] of shared.software) {
    const all = rest.software.get(module) ?? versionsOf(machines, box.machine, module);
    const without = all.filter((version) => !versions.includes(version));
    if (without.length > 0) left.push({ ...rest, software: new Map(rest.software).set(module, without) });
    rest = { ...rest, software: new Map(rest.software).set(module, versions) };
  }
  return [...left, ...withoutStretch(rest, shared.serials)];
}

function withoutStretch(rest: Rig, shared: Stretch | undefined): readonly Rig[] {
  if (!shared) return [];
  const own = rest.serials ?? {};
  const below = shared.from && cutStretch(own, startOf(shared.from)).below;
  const above = shared.to && cutStretch(own, endOf(shared.to)).above;
  return [below, above].flatMap((serials) => (serials ? [{ ...rest, serials }] : []));
}

function versionsOf({ machines }: RigMachines, machine: string, module: string): readonly string[] {
  const listed = machines.get(machine)?.software.find((one) => one.module.value === module);
  return listed?.versions.map(({ value }) => value) ?? [];
}
