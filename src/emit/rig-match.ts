// Which version of a procedure is for one machine, from what is known of it. Shared by the build and the browser, so it
// uses nothing of either. What is not known never decides.

import type { SerialEnd } from '../model/resolved.js';
import { isInStretch } from '../model/serials.js';

/** What sets some rigs of a machine and header apart from the others, as plain data. */
export interface RigFacts {
  readonly options: Readonly<Record<string, boolean>>;
  readonly software: Readonly<Record<string, readonly string[]>>;
  readonly serials?: { readonly from?: SerialEnd; readonly to?: SerialEnd };
}

/** What is known of one machine. What is missing is not known. */
export interface KnownMachine {
  readonly options: Readonly<Record<string, boolean>>;
  readonly software: Readonly<Record<string, string>>;
  readonly serial?: string;
}

/** Whether a machine may be that rig: no fact speaks against it. */
export function mayBe(rig: RigFacts, known: KnownMachine): boolean {
  const { serials } = rig;
  return (
    Object.entries(rig.options).every(([id, fitted]) => (known.options[id] ?? fitted) === fitted) &&
    Object.entries(rig.software).every(([module, versions]) => {
      const version = known.software[module];
      return version === undefined || versions.includes(version);
    }) &&
    (serials === undefined || known.serial === undefined || isInStretch(serials, known.serial))
  );
}

/** The places in the list of those versions that a machine may be: one where enough is known, none where facts disagree. */
export function fittingVersions(versions: readonly (readonly RigFacts[])[], known: KnownMachine): readonly number[] {
  return versions.flatMap((rigs, i) => (rigs.some((rig) => mayBe(rig, known)) ? [i] : []));
}
