// Numbers of the shared files on their own: parameters, what must agree, instruments. Whether or not a procedure uses them.

import type { ResolveCode } from '../diagnostic/resolving-codes.js';
import type { Header, Machine } from '../model/book.js';
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

/** Looks at every number of the shared files for every rig that it may differ for. */
export function checkSharedNumbers(scene: Omit<Scene, 'ask' | 'report'>): readonly FaultRun[] {
  const { book } = scene;
  const all = anyRig(book);
  const runs: FaultRun[] = [];
  for (const [owner, holders] of [
    ['machine', book.machines],
    ['header', book.headers],
  ] as const) {
    for (const holder of holders.values()) {
      const start = { ...all, pairs: all.pairs.filter((pair) => pair[owner] === holder.id) };
      if (start.pairs.length === 0) continue;
      for (const look of looksAt(holder, owner)) runs.push(exploreFaults(scene, { start, file: holder.file }, look));
    }
  }
  if (all.pairs.length === 0) return runs;
  for (const { id, at } of book.instruments.values()) {
    runs.push(exploreFaults(scene, { start: all, file: at.file }, (own) => findInstrument(own, id)));
  }
  return runs;
}

type Look = (scene: Scene) => unknown;

function looksAt(holder: Machine | Header, owner: Owner): readonly Look[] {
  const parameters = [...holder.parameters.values()].map(
    ({ id, at }): Look =>
      (scene) =>
        parameterLimits(scene, `${owner}.${id}`, { at }),
  );
  return [
    ...parameters,
    ...holder.agree.map(
      (agreement): Look =>
        (scene) =>
          checkAgreement(scene, agreement, owner),
    ),
  ];
}

function exploreFaults(
  scene: Omit<Scene, 'ask' | 'report'>,
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
