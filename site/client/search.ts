// The search box of a home: loads the index when it is first needed, shows hits by procedure as they are typed.

import type { SearchFile } from '../../src/emit/search/index-shape.js';
import { narrowLines } from '../../src/emit/search/narrow.js';
import {
  type Group,
  indexFile,
  markParts,
  openSearch,
  type Search,
  type SearchPart,
} from '../../src/emit/search/query.js';
import { element } from './element.js';
import { markLists } from './offline/listed.js';
import { currentRig } from './rigs.js';

interface Box {
  readonly form: HTMLElement;
  readonly input: HTMLInputElement;
  readonly status: HTMLElement;
  readonly results: HTMLElement;
  readonly listing: HTMLElement | null;
}

/** Shows the box and makes it work; does nothing on pages without one. */
export function startSearch(): void {
  const form = document.getElementById('search');
  const input = form?.querySelector('input');
  const status = form?.querySelector<HTMLElement>('.status');
  const results = document.getElementById('results');
  if (!form || !input || !status || !results) return;
  const box: Box = { form, input, status, results, listing: document.getElementById('listing') };
  form.hidden = false;
  form.addEventListener('submit', (event) => event.preventDefault());
  const asked = new URLSearchParams(location.search).get('q');
  if (asked !== null) input.value = asked;
  let loading: Promise<void> | undefined;
  const ask = (): void => {
    loading ??= load(box);
    void loading.then(() => show(box));
  };
  input.addEventListener('focus', ask, { once: true });
  input.addEventListener('input', ask);
  if (input.value !== '') ask();
}

/** What was loaded: the files, and the search over them. */
const loaded: { main?: SearchFile; search?: Search } = {};

async function load(box: Box): Promise<void> {
  box.status.textContent = box.form.dataset.wait ?? '';
  try {
    const main = forThisMachine(await fetchIndex(box.form.dataset.index));
    loaded.main = main;
    const part = indexFile(main);
    loaded.search = openSearch([part]);
    box.status.textContent = '';
    // conditions and steps are the larger part: they follow once the first answers can be given
    void addDetails(box, part);
  } catch {
    box.status.textContent = box.form.dataset.broken ?? '';
  }
}

async function addDetails(box: Box, main: SearchPart): Promise<void> {
  try {
    loaded.search = openSearch([
      main,
      indexFile(forThisMachine(await fetchIndex(box.form.dataset.details), main.file.narrowed)),
    ]);
    show(box);
  } catch {
    // without the details everything else is still found; the next visit asks for them again
  }
}

function forThisMachine(file: SearchFile, narrowed = file.narrowed): SearchFile {
  const rig = currentRig();
  return rig && narrowed ? narrowLines(file, narrowed, rig.known) : file;
}

async function fetchIndex(path = ''): Promise<SearchFile> {
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return (await response.json()) as SearchFile;
}

function show({ form, input, status, results, listing }: Box): void {
  const { search, main } = loaded;
  if (!search || !main) return;
  const query = input.value.trim();
  if (listing) listing.hidden = query !== '';
  if (query === '') {
    results.replaceChildren();
    status.textContent = '';
    return;
  }
  // on a phone the keypad takes the lower half: what is found stands right below the box at the top
  if (document.activeElement === input && form.getBoundingClientRect().top > 60) form.scrollIntoView();
  const groups = search(query);
  if (groups.length === 0 && listing) listing.hidden = false;
  status.textContent =
    groups.length === 0 ? (form.dataset.none ?? '') : (form.dataset.count ?? '').replace('#', String(groups.length));
  results.replaceChildren(
    element(
      'div',
      { class: 'hits' },
      groups.map((group) => drawGroup(group, main)),
    ),
  );
  markLists(results);
}

function drawGroup({ procedure, hits }: Group, { procedures, kinds }: SearchFile): HTMLElement {
  const [title = '', folder = '', taken] = procedures[procedure] ?? [];
  const rows = hits.map(({ line: [kind, , text, anchor, extra], met }) => {
    const words = markParts(text, met).map((part) => (part.met ? element('mark', {}, [part.text]) : part.text));
    const label = kind === 'p' ? kinds.p.replace('{label}', extra) : kinds[kind];
    const aside =
      kind === 'v'
        ? element('span', { class: 'limits-inline' }, [extra])
        : element('span', { class: 'aside' }, [extra]);
    return element('li', {}, [
      element('a', { href: folder + anchor }, [
        element('span', { class: 'kind' }, [label]),
        element('b', {}, words),
        kind === 'p' || extra === '' ? '' : aside,
      ]),
    ]);
  });
  const mark = taken ? element('strong', { class: 'taken' }, [document.body.dataset[taken] ?? '']) : '';
  return element('section', { class: 'hit', 'data-of': folder.replace(/\/.*/, '') }, [
    element('h2', {}, [element('a', { href: folder }, [title, mark])]),
    rows.length === 0 ? '' : element('ul', {}, rows),
  ]);
}
