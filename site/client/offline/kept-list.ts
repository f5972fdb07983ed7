// On the start, and on the page for what is not kept: the machines that are on this phone.

import { element } from '../element.js';
import { isServed, siteRoot } from './root.js';
import { sayMoment } from './say.js';
import { readSets } from './store.js';

/** Fills the list; does nothing on pages without one. */
export async function listKept(): Promise<void> {
  const place = document.getElementById('kept');
  const list = place?.querySelector('ul');
  if (!place || !list || !isServed() || !('caches' in window)) return;
  const root = siteRoot();
  const sets = await readSets(root).catch(() => []);
  list.replaceChildren(
    ...sets.map(({ list: { folder }, name, keptAt }) =>
      element('li', {}, [
        element('a', { href: root + encodeURI(folder) }, [
          element('span', {}, [name]),
          element('span', { class: 'aside' }, [(place.dataset.since ?? '').replace('#', sayMoment(keptAt))]),
        ]),
      ]),
    ),
  );
  place.hidden = sets.length === 0;
}
