// Opens a procedure at the version of the machine in use, and says so where a page is for another one.

import { fittingVersions, type KnownMachine, mayBe, type RigFacts } from '../../src/emit/rig-match.js';
import { element } from './element.js';
import { currentRig } from './rigs.js';

/** On the page that a version is chosen on: goes on where only one can be meant; several that may be stay in sight. */
export function chooseVersion(): void {
  const list = document.getElementById('versions');
  if (!list) return;
  for (const link of list.querySelectorAll('a')) link.href += location.hash;
  const rig = currentRig();
  if (!rig || new URLSearchParams(location.search).has('choose')) return;
  const rows = [...list.querySelectorAll<HTMLElement>('li[data-rigs]')];
  const fitting = fittingVersions(
    rows.map((row) => factsOf(row)),
    rig.known,
  );
  const only = fitting.length === 1 ? rows[fitting[0] ?? 0]?.querySelector('a') : undefined;
  if (only) location.replace(only.href);
  else if (fitting.length > 0) for (const [i, row] of rows.entries()) row.hidden = !fitting.includes(i);
}

function factsOf(row: HTMLElement): readonly RigFacts[] {
  return JSON.parse(row.dataset.rigs ?? '[]') as readonly RigFacts[];
}

/** On the lists of a home: leaves out what is not for the machine in use, and says so; shows values of its version. */
export function narrowLists(): void {
  const rig = currentRig();
  if (!rig) return;
  const gone: string[] = [];
  for (const row of document.querySelectorAll<HTMLElement>('#main .entries [data-rigs]')) {
    if (factsOf(row).some((facts) => mayBe(facts, rig.known))) continue;
    row.hidden = true;
    gone.push(row.querySelector('b')?.textContent ?? '');
  }
  for (const sign of document.querySelectorAll<HTMLElement>('.sign')) {
    if ([...sign.querySelectorAll('li')].every(({ hidden }) => hidden)) sign.hidden = true;
  }
  const note = document.getElementById('not-for');
  if (note && gone.length > 0) {
    note.textContent = (note.dataset.words ?? '').replace('#', gone.join('; '));
    note.hidden = false;
  }
  for (const section of document.querySelectorAll('section:has([data-only])')) showOnly(section, rig.known);
}

/** Of the values of several versions those of the one that it must be. */
function showOnly(section: Element, known: KnownMachine): void {
  const lists = [...section.querySelectorAll<HTMLElement>('[data-only]')];
  const facts = lists.map((list) => JSON.parse(list.dataset.only ?? '[]') as readonly RigFacts[]);
  const fitting = fittingVersions(facts, known);
  const only = fitting.length === 1 ? lists[fitting[0] ?? 0] : undefined;
  const several = section.querySelector<HTMLElement>('.several');
  if (!only || !several) return;
  only.hidden = false;
  several.hidden = true;
}

/** On a page for one version: warns where the machine in use is another. */
export function warnOfOther(): void {
  const box = document.getElementById('applies');
  const rig = currentRig();
  if (!box?.dataset.rigs || !rig || factsOf(box).some((facts) => mayBe(facts, rig.known))) return;
  const right = element('a', { href: '../' }, [box.dataset.right ?? '']);
  box.before(
    element('div', { class: 'stop', role: 'alert' }, [
      element('p', {}, [element('b', {}, [box.dataset.unfit ?? ''])]),
      element('p', {}, [right]),
    ]),
  );
}
