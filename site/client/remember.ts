// Machines on this phone: kept as they are chosen, offered at the start, and one touch away on every page.

import { element } from './element.js';
import { currentRig, forgetRig, type KeptRig, keepRigs, nothingKnown, readRigs } from './rigs.js';

/** On a page of a home: this is the machine in use now. `?unit=` says which of several. */
export function rememberHome(): void {
  const { home, name } = document.body.dataset;
  if (home === undefined || name === undefined) return;
  const unit = new URLSearchParams(location.search).get('unit') ?? undefined;
  const named = readRigs().find((rig) => rig.folder === home && rig.unit === unit);
  keepRigs([named ?? currentRig() ?? { folder: home, name, known: nothingKnown }]);
}

/** On the page of a unit: keeps it with each of its headers. */
export function rememberUnit(): void {
  const { unit: text } = document.body.dataset;
  if (text === undefined) return;
  const { unit, name, known, homes } = JSON.parse(text) as {
    readonly unit: string;
    readonly name: string;
    readonly known: KeptRig['known'];
    readonly homes: readonly { readonly folder: string; readonly name: string }[];
  };
  const isKept = keepRigs(homes.map((home) => ({ folder: home.folder, name: `${name} · ${home.name}`, unit, known })));
  const note = document.getElementById('unit-kept');
  if (note && isKept && homes.length > 0) note.hidden = false;
}

/** Where a kept machine is opened, seen from the folder of the page's language. */
function addressOf({ folder, unit }: KeptRig): string {
  return unit === undefined ? folder : `${folder}?unit=${encodeURIComponent(unit)}`;
}

/** On the start: offers the machines that are kept. `?unit=` goes to that unit. */
export function showRemembered(): void {
  const place = document.getElementById('resume');
  if (!place) return;
  const asked = new URLSearchParams(location.search).get('unit');
  if (asked !== null && /^[\w.-]+$/.test(asked)) {
    location.replace(`u/${asked.toLowerCase()}/`);
    return;
  }
  const rigs = readRigs();
  const rows = rigs.map((rig, i) => {
    const words = i === 0 ? `${place.dataset.words ?? ''} ${rig.name}` : rig.name;
    const label = (place.dataset.forget ?? '').replace('#', rig.name);
    const forget = element('button', { type: 'button', class: 'forget', 'aria-label': label }, ['×']);
    const row = element('li', {}, [element('a', { href: addressOf(rig) }, [words]), forget]);
    forget.addEventListener('click', () => {
      forgetRig(rig);
      row.remove();
      if (readRigs().length === 0) place.hidden = true;
    });
    return row;
  });
  if (rows.length === 0) return;
  place.append(element('ul', { class: 'machine-list' }, rows));
  place.hidden = false;
}

/** How many other machines a page offers; the start has them all. */
const shown = 3;

/** On a page of a home: the other machines that are kept, one touch away. */
export function showOthers(): void {
  const place = document.getElementById('machines');
  const { home } = document.body.dataset;
  const current = currentRig();
  if (!place || home === undefined || !current) return;
  const way = document.querySelector('.way .rig');
  if (way && current.unit !== undefined && way.getAttribute('href') !== place.dataset.start)
    way.prepend(`${current.unit} · `);
  const others = readRigs().filter((rig) => rig.folder !== current.folder || rig.unit !== current.unit);
  if (others.length === 0) return;
  const start = place.dataset.start ?? './';
  const label = place.dataset.words ?? '';
  const links = others
    .slice(0, shown)
    .map((rig) => element('a', { href: start + addressOf(rig), title: `${label} ${rig.name}` }, [`⇄ ${rig.name}`]));
  place.replaceChildren(...links);
  place.hidden = false;
}
