// Whether what an author restricted (`applies`, `only`) holds for a rig.

import type { Applies, AppliesTest } from '../model/procedure.js';
import type { Located } from '../text/source.js';
import { hasOption, headerTypeOf, isAmong, machineOf, type Scene } from './scene.js';

/**
 * Whether all keys hold, any entry of each list. Asks no more of the rig than it needs: the machine before the header,
 * serials last, and nothing after the first key that fails.
 */
export function holdsFor(scene: Scene, applies: Applies): boolean {
  const holds = isMet(scene, applies);
  if (holds) scene.choices.picked.add(applies);
  return holds;
}

function isMet(scene: Scene, applies: Applies): boolean {
  if (applies.kind === 'all') return true;
  if (applies.kind === 'not') return !isMet(scene, applies.of);
  return [...applies.tests].sort((a, b) => order[a.key] - order[b.key]).every((test) => testHolds(scene, test));
}

const order: Readonly<Record<AppliesTest['key'], number>> = {
  machine: 0,
  header: 1,
  'header-type': 1,
  option: 2,
  not: 3,
  software: 4,
  serials: 5,
};

function testHolds(scene: Scene, test: AppliesTest): boolean {
  switch (test.key) {
    case 'machine':
    case 'header':
      return isAmong(
        scene,
        test.key,
        test.ids.map(({ value }) => value),
      );
    case 'header-type':
      return isOneOf(headerTypeOf(scene), test.ids);
    case 'option':
      return test.ids.some(({ value }) => hasOption(scene, value));
    case 'not':
      return !isMet(scene, test.of);
    case 'software':
      return hasSoftware(scene, test);
    case 'serials':
      return hasSerial(scene, test);
  }
}

function isOneOf(id: string, ids: readonly Located<string>[]): boolean {
  return ids.some(({ value }) => value === id);
}

function hasSerial(scene: Scene, test: AppliesTest & { key: 'serials' }): boolean {
  machineOf(scene);
  const isAbove = (serial: string, side: 'before' | 'after'): boolean =>
    scene.ask({ about: 'serial', cut: { serial, side } }) === true;
  return (!test.from || isAbove(test.from.value, 'before')) && (!test.to || !isAbove(test.to.value, 'after'));
}

type SoftwareTest = AppliesTest & { key: 'software' };

function hasSoftware(scene: Scene, test: SoftwareTest): boolean {
  return modulesMeant(scene, test).some(({ name, listed }) => {
    const first = test.atLeast ? listed.indexOf(test.atLeast.value) : -1;
    const newer = first < 0 ? [] : listed.slice(first);
    const exact = listed.filter((version) => isOneOf(version, test.versions));
    const versions = listed.filter((version) => newer.includes(version) || exact.includes(version));
    return versions.length > 0 && scene.ask({ about: 'software', module: name, versions }) === true;
  });
}

/** The kinds of software that a test speaks of: the named one, or all that list one of its versions. */
function modulesMeant(
  scene: Scene,
  test: SoftwareTest,
): readonly { readonly name: string; readonly listed: readonly string[] }[] {
  const named = [...(test.atLeast ? [test.atLeast] : []), ...test.versions].map(({ value }) => value);
  return machineOf(scene)
    .software.map(({ module, versions }) => ({ name: module.value, listed: versions.map(({ value }) => value) }))
    .filter(({ name, listed }) =>
      test.module ? test.module.value === name : listed.some((version) => named.includes(version)),
    );
}
