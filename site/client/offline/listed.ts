// Marks what lists name and nobody may work by any more: withdrawn since the page was made, or no longer in the book. What
// was withdrawn before stands so in the page itself.

import type { BookStatus } from '../../../src/emit/offline/shapes.js';
import { element } from '../element.js';
import { askStatus, readCheck } from './check.js';
import { takenBack } from './judge.js';
import { onEachLook } from './look-again.js';
import { isServed } from './root.js';

/** Marks the lists of this page by what the site said last, asks it, and marks them again. */
export function watchLists(): void {
  if (!isServed() || document.body.dataset.withdrawn === undefined) return;
  onEachLook(() => {
    // what is new in the book is not in an old answer: only the site itself says what has left it
    markLists(document, readCheck()?.status, ['withdrawn']);
    void askStatus().then(() => markLists(document));
  });
}

/** Marks the rows below a part of the page by what the site said last, and takes marks back that hold no longer. */
export function markLists(
  within: ParentNode,
  status: BookStatus | undefined = readCheck()?.status,
  kinds: readonly ('withdrawn' | 'gone')[] = ['withdrawn', 'gone'],
): void {
  for (const row of within.querySelectorAll<HTMLElement>('[data-of]')) {
    const taken = status && takenBack(status, row.dataset.of ?? '');
    const word = taken && kinds.includes(taken) ? document.body.dataset[taken] : undefined;
    const own = row.querySelector('.taken:not([data-since])');
    row.classList.toggle('taken-from-list', own !== null || word !== undefined);
    row.querySelector('.taken[data-since]')?.remove();
    if (own || word === undefined) continue;
    (row.querySelector('a') ?? row).append(element('strong', { class: 'taken', 'data-since': '' }, [word]));
  }
}
