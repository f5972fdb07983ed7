// Lists of rigs: their order, and several that differ in nothing that matters made one.

import { compareText } from '../text/compare-text.js';
import type { Rig, SerialEnd } from './resolved.js';
import { compareSerials } from './serials.js';

/** What has to be known of machines to put their rigs in order and to see that nothing is left out. */
export interface RigMachines {
  readonly machines: ReadonlyMap<
    string,
    {
      readonly headers: readonly { readonly value: string }[];
      readonly software: readonly {
        readonly module: { readonly value: string };
        readonly versions: readonly { readonly value: string }[];
      }[];
      readonly serials?: { readonly from: string; readonly to?: string };
    }
  >;
}

/** Machines by id, headers as the machine lists them, then options, software and serials. */
export function compareRigs(book: RigMachines, a: Rig, b: Rig): number {
  const headerPlace = (rig: Rig): number =>
    book.machines.get(rig.machine)?.headers.findIndex(({ value }) => value === rig.header) ?? 0;
  return (
    compareText(a.machine, b.machine) ||
    headerPlace(a) - headerPlace(b) ||
    compareText(optionsKey(a), optionsKey(b)) ||
    compareText(softwareKey(a), softwareKey(b)) ||
    compareStarts(a, b)
  );
}

function compareStarts(a: Rig, b: Rig): number {
  const [from, other] = [a.serials?.from, b.serials?.from];
  if (!from || !other) return Number(Boolean(from)) - Number(Boolean(other));
  return compareSerials(from.serial, other.serial) || Number(other.included) - Number(from.included);
}

function optionsKey({ options }: Rig, without?: string): string {
  return [...options]
    .filter(([id]) => id !== without)
    .map(([id, fitted]) => `${id}${fitted ? '+' : '~'}`)
    .sort()
    .join();
}

function softwareKey({ software }: Rig, without?: string): string {
  return [...software]
    .filter(([module]) => module !== without)
    .map(([module, versions]) => `${module}@${versions.join('|')}`)
    .sort()
    .join();
}

function serialsKey({ serials }: Rig): string {
  return JSON.stringify(serials ?? {});
}

/** The same rigs in as few entries as it takes: with and without an option is either, stretches that touch are one. */
export function mergeRigs(book: RigMachines, rigs: readonly Rig[]): readonly Rig[] {
  let merged = rigs;
  for (const option of new Set(rigs.flatMap(({ options }) => [...options.keys()])))
    merged = mergeOption(merged, option);
  for (const module of new Set(rigs.flatMap(({ software }) => [...software.keys()]))) {
    merged = mergeSoftware(book, merged, module);
  }
  return [...mergeSerials(book, merged)].sort((a, b) => compareRigs(book, a, b));
}

function groupBy(rigs: readonly Rig[], key: (rig: Rig) => string): readonly (readonly Rig[])[] {
  const groups = new Map<string, Rig[]>();
  for (const rig of rigs) {
    const name = `${rig.machine} ${rig.header} ${key(rig)}`;
    groups.set(name, [...(groups.get(name) ?? []), rig]);
  }
  return [...groups.values()];
}

function mergeOption(rigs: readonly Rig[], option: string): readonly Rig[] {
  const groups = groupBy(rigs, (rig) => [optionsKey(rig, option), softwareKey(rig), serialsKey(rig)].join(' '));
  return groups.flatMap((group) => {
    const [first] = group;
    const answers = new Set(group.map(({ options }) => options.get(option)));
    if (!first || !answers.has(true) || !answers.has(false)) return group;
    return [{ ...first, options: new Map([...first.options].filter(([id]) => id !== option)) }];
  });
}

function mergeSoftware(book: RigMachines, rigs: readonly Rig[], module: string): readonly Rig[] {
  const groups = groupBy(rigs, (rig) => [optionsKey(rig), softwareKey(rig, module), serialsKey(rig)].join(' '));
  return groups.flatMap((group) => {
    const [first] = group;
    if (!first || group.length < 2) return group;
    const listed = book.machines.get(first.machine)?.software.find((one) => one.module.value === module);
    const kept = new Set(group.flatMap(({ software }) => software.get(module) ?? []));
    const all = listed?.versions.map(({ value }) => value) ?? [...kept];
    const software = new Map(first.software);
    if (group.some((rig) => !rig.software.has(module)) || all.every((version) => kept.has(version)))
      software.delete(module);
    else
      software.set(
        module,
        all.filter((version) => kept.has(version)),
      );
    return [{ ...first, software }];
  });
}

function mergeSerials(book: RigMachines, rigs: readonly Rig[]): readonly Rig[] {
  const groups = groupBy(rigs, (rig) => [optionsKey(rig), softwareKey(rig)].join(' '));
  return groups.flatMap((group) => joinStretches(book, [...group].sort(compareStarts)));
}

function joinStretches(book: RigMachines, sorted: readonly Rig[]): readonly Rig[] {
  const joined: Rig[] = [];
  for (const rig of sorted) {
    const last = joined.at(-1);
    const { from: _, to } = rig.serials ?? {};
    if (!last?.serials?.to || !rig.serials?.from || !touch(last.serials.to, rig.serials.from)) joined.push(rig);
    else
      joined[joined.length - 1] = withStretch(book, last, {
        ...(last.serials.from ? { from: last.serials.from } : {}),
        ...(to ? { to } : {}),
      });
  }
  return joined;
}

function touch(to: SerialEnd, from: SerialEnd): boolean {
  return compareSerials(to.serial, from.serial) === 0 && to.included !== from.included;
}

// a stretch that is all of the machine's makes no difference
function withStretch(book: RigMachines, rig: Rig, serials: NonNullable<Rig['serials']>): Rig {
  const own = book.machines.get(rig.machine)?.serials;
  const whole = serials.from?.serial === own?.from && serials.to?.serial === own?.to;
  const { serials: _, ...rest } = rig;
  return whole ? rest : { ...rest, serials };
}
