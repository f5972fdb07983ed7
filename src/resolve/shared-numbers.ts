// Numbers of the shared files on their own: parameters, what must agree, instruments. Whether or not a procedure uses them.

import type { ResolveCode } from '../diagnostic/resolving-codes.js';
import type { Book, Header, Machine } from '../model/book.js';
import { checkAgreement } from './agreements.js';
import { exploreRigs } from './explore.js';
import { type Ask, anyRig, type PartialRig } from './facets.js';
import type { Fault, FaultRun } from './faults.js';
import { findInstrument } from './instruments.js';
import { parameterLimits } from './numbers.js';
import type { Owner } from './parameter-names.js';
import type { Scene } from './scene.js';

/** Rigs that the numbers of one file are looked at for, at the most. */
const most = 512;

/** Faults that count only where something uses the number. */
const onUse: ReadonlySet<ResolveCode> = new Set(['choice-not-covered', 'missing-parameter', 'missing-word']);

/** A number of a shared file, or what must agree there. */
export interface SharedNumber {
  /** Tells it from all others. */
  readonly key: string;
  readonly file: string;
  readonly isAgreement: boolean;
  /** Looks at it for every rig that it may differ for. */
  readonly explore: (scene: SharedScene) => FaultRun;
}

type SharedScene = Omit<Scene, 'ask' | 'report'>;

/** Looks at every number of the shared files for every rig that it may differ for. */
export function checkSharedNumbers(scene: SharedScene): readonly FaultRun[] {
  return sharedNumbers(scene.book).map(({ explore }) => explore(scene));
}

/** Every number of the shared files that some rig may have. */
export function sharedNumbers(book: Book): readonly SharedNumber[] {
  const all = anyRig(book);
  if (all.pairs.length === 0) return [];
  const instruments = [...book.instruments.values()].map(({ id, at }): SharedNumber => {
    const explore = (scene: SharedScene): FaultRun =>
      exploreFaults(scene, { start: all, file: at.file }, (own) => findInstrument(own, id));
    return { key: `instrument ${id}`, file: at.file, isAgreement: false, explore };
  });
  return [
    ...[...book.machines.values()].flatMap((machine) => numbersOf(machine, 'machine', all)),
    ...[...book.headers.values()].flatMap((header) => numbersOf(header, 'header', all)),
    ...instruments,
  ];
}

function numbersOf(holder: Machine | Header, owner: Owner, all: PartialRig): readonly SharedNumber[] {
  const { id, file, parameters, agree } = holder;
  const start = { ...all, pairs: all.pairs.filter((pair) => pair[owner] === id) };
  if (start.pairs.length === 0) return [];
  const numberOf = (key: string, isAgreement: boolean, look: Look): SharedNumber => ({
    key: `${owner} ${id} ${key}`,
    file,
    isAgreement,
    explore: (scene) => exploreFaults(scene, { start, file }, look),
  });
  return [
    ...[...parameters.values()].map((parameter) =>
      numberOf(parameter.id, false, (scene) =>
        parameterLimits(scene, `${owner}.${parameter.id}`, { at: parameter.at }),
      ),
    ),
    ...agree.map((agreement, i) =>
      numberOf(`agreement ${i}`, true, (scene) => checkAgreement(scene, agreement, owner)),
    ),
  ];
}

type Look = (scene: Scene) => unknown;

function exploreFaults(
  scene: SharedScene,
  { start, file }: { readonly start: PartialRig; readonly file: string },
  look: Look,
): FaultRun {
  const { leaves } = exploreRigs(scene.book, { start, most }, (ask: Ask) => {
    const faults: Fault[] = [];
    look({ ...scene, ask, report: (fault) => !onUse.has(fault.code) && faults.push(fault) });
    return faults;
  });
  return { files: new Set([file]), leaves: leaves.map(({ rig, value }) => ({ rig, faults: value })) };
}
