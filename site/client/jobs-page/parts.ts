// Small parts that the list and the record are put together from.

import { element } from '../element.js';

/** What a view of the page consists of. */
export interface View {
  readonly title: string;
  readonly children: readonly Node[];
}

/** A button that does something. */
export function button(words: string, act: () => void, kind = ''): HTMLButtonElement {
  const made = element('button', { type: 'button', ...(kind !== '' && { class: kind }) }, [words]) as HTMLButtonElement;
  made.addEventListener('click', act);
  return made;
}

/** A part of the page with its heading; nothing where there is nothing in it. */
export function section(heading: string, children: readonly (Node | string)[], kind = ''): readonly HTMLElement[] {
  if (children.length === 0) return [];
  const title = element('h2', {}, [heading]);
  return [element('section', kind === '' ? {} : { class: kind }, [title, ...children])];
}

/** Names and what they stand for; those without a text are left out. */
export function pairs(rows: readonly (readonly [string, string | Node | undefined])[]): HTMLElement {
  const shown = rows.flatMap(([name, text]) =>
    text === undefined || text === ''
      ? []
      : [element('div', {}, [element('dt', {}, [name]), element('dd', {}, [text])])],
  );
  return element('dl', { class: 'pairs' }, shown);
}

/** A small line of facts, set apart by dots. */
export function aside(facts: readonly string[]): HTMLElement {
  return element('span', { class: 'aside' }, [facts.filter((fact) => fact !== '').join(' · ')]);
}

/** Something folded. */
export function fold(summary: string, children: readonly (Node | string)[], kind = ''): HTMLElement {
  return element('details', kind === '' ? {} : { class: kind }, [element('summary', {}, [summary]), ...children]);
}
