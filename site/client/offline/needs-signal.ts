// On a phone that keeps something: says on a choice that leads to none of it that it needs signal, before anybody is there
// without.

import { element } from '../element.js';
import { isServed, siteRoot } from './root.js';
import { filesOfSet, pathBelow, readSets } from './store.js';

/** Marks the choices of this page; nothing where the phone keeps nothing, for then all of them need it. */
export async function markUnkept(): Promise<void> {
  if (!isServed() || !('caches' in window)) return;
  const root = siteRoot();
  const sets = await readSets(root).catch(() => []);
  if (sets.length === 0) return;
  const kept = new Set(sets.flatMap(filesOfSet).map(([path]) => path));
  for (const list of document.querySelectorAll<HTMLElement>('[data-needs-signal]')) {
    for (const link of list.querySelectorAll('a')) {
      if (kept.has(pathBelow(root, link.href) ?? '')) continue;
      link.append(element('span', { class: 'aside' }, [list.dataset.needsSignal ?? '']));
    }
  }
}
