// The page of jobs: the list, or one record as its address says (`#record=ID`). Draws anew when another tab changes something.

import { element } from '../element.js';
import { StoreFault, watchJobs } from '../job/store.js';
import { sayFault } from '../job/words.js';
import { markLists } from '../offline/listed.js';
import { drawList } from './list.js';
import { drawRecord } from './record-view.js';

const place = document.getElementById('jobs');
const title = document.querySelector('h1');
const listTitle = title?.textContent ?? '';

function wantedRecord(): string | undefined {
  return /^#record=([\da-f]+)$/.exec(location.hash)?.[1];
}

/** What is shown for the address now; the title of the page follows it. */
async function draw(): Promise<void> {
  if (!place || !title) return;
  const id = wantedRecord();
  try {
    const view = id === undefined ? await drawList(draw) : await drawRecord(id, draw);
    if (id !== wantedRecord()) return;
    title.textContent = id === undefined ? listTitle : view.title;
    document.body.classList.toggle('one-record', id !== undefined);
    place.replaceChildren(...view.children);
    markLists(place);
  } catch (fault) {
    if (!(fault instanceof StoreFault)) throw fault;
    place.replaceChildren(element('div', { class: 'stop', role: 'alert' }, [sayFault(fault.kind)]));
  }
}

addEventListener('hashchange', () => {
  void draw().then(() => {
    scrollTo(0, 0);
    title?.setAttribute('tabindex', '-1');
    title?.focus();
  });
});
watchJobs((_job, isOwn) => {
  // what is being typed here is not torn away by what another tab keeps
  const isTyping = document.activeElement?.matches('input, textarea, select') ?? false;
  if (!isOwn && !isTyping) void draw();
});
void draw();
