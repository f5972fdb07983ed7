// What sets rigs apart, as the browser and pages need it: facts of versions, what can be asked of a home, what is known of
// a unit of the fleet.

import type { FleetUnit, Machine } from '../../model/book.js';
import type { Rig } from '../../model/resolved.js';
import type { Stretch } from '../../model/serials.js';
import type { PageSerials } from '../page-serials.js';
import type { KnownMachine, RigFacts } from '../rig-match.js';
import type { Voice } from '../voice.js';
import { optionName, saySerials, serialsOf, unbroken } from './rig-words.js';
import type { Home } from './site-map.js';

/** A rig as plain data. */
export function rigFacts({ options, software, serials }: Rig): RigFacts {
  return {
    options: Object.fromEntries(options),
    software: Object.fromEntries(software),
    ...(serials && { serials }),
  };
}

/** The same for all rigs of a version, as text for an attribute. */
export function factsText(rigs: readonly Rig[]): string {
  return JSON.stringify(rigs.map(rigFacts));
}

/** Which serials these rigs have, as text for an attribute; nothing where the book does not say it of all of them. */
export function serialsText(rigs: readonly Pick<Rig, 'serials'>[], machine: Machine, voice: Voice): string | undefined {
  const whole = serialsOf(machine);
  const found = new Map<string, Stretch>();
  for (const { serials = whole } of rigs) {
    if (!serials) return undefined;
    found.set(JSON.stringify(serials), serials);
  }
  const stretches = [...found.values()];
  const words = stretches.map((stretch) => saySerials(stretch, voice).join(', ')).join(` ${voice.text('or')} `);
  return JSON.stringify({ stretches, words } satisfies PageSerials);
}

/** The same, unless it is for every rig of its home: nothing is to be left out then. */
export function narrowedFacts(rigs: readonly Rig[]): string | undefined {
  const isNarrowed = rigs.every(({ options, software, serials }) => options.size + software.size > 0 || serials);
  return isNarrowed ? factsText(rigs) : undefined;
}

/** What procedures of a home differ by. */
export interface Questions {
  readonly options: readonly string[];
  /** Modules of software. */
  readonly software: readonly string[];
  readonly serial: boolean;
}

/** What has to be known of a machine so that every procedure of its home opens at one version. */
export function questionsOf({ entries }: Home): Questions {
  const rigs = entries.flatMap(({ versions }) => versions.flatMap((version) => version.rigs));
  return {
    options: [...new Set(rigs.flatMap(({ options }) => [...options.keys()]))],
    software: [...new Set(rigs.flatMap(({ software }) => [...software.keys()]))],
    serial: rigs.some(({ serials }) => serials !== undefined),
  };
}

/** What fleet.yaml says of a unit. Options that it does not speak of are not known, unless it lists them all. */
export function knownOfUnit(unit: FleetUnit, machine: Machine): KnownMachine {
  const listed = unit.options.map(({ value }) => value);
  const options = machine.options.flatMap(({ id, is }): [string, boolean][] => {
    if (is === 'standard' || listed.includes(id)) return [[id, true]];
    return unit.optionsSaid ? [[id, false]] : [];
  });
  const modules = machine.software.map(({ module }) => module.value);
  const software = unit.software.flatMap(({ module, version }): [string, string][] => {
    const name = module?.value ?? (modules.length === 1 ? modules[0] : undefined);
    return name === undefined ? [] : [[name, version.value]];
  });
  return {
    options: Object.fromEntries(options),
    software: Object.fromEntries(software),
    ...(unit.serial && { serial: unit.serial.value }),
  };
}

/** `serial 70-00317, with lateral tilt, display software 4.2`: what sets one machine apart from its siblings. */
export function sayKnown(known: KnownMachine, machine: Machine, voice: Voice): string {
  const optional = machine.options.filter(({ is }) => is === 'optional').map(({ id }) => id);
  return [
    known.serial !== undefined && voice.text('serial-is', { serial: unbroken(known.serial) }),
    ...optional
      .filter((id) => known.options[id] === true)
      .map((id) => voice.text('with-option', { option: optionName(id, machine, voice) })),
    ...Object.entries(known.software).map(([module, versions]) => voice.text('software-is', { module, versions })),
  ]
    .filter((part) => part !== false)
    .join(', ');
}
