// Which part of the page a place of the walk is, and showing that part alone.

import { element } from '../element.js';
import { beforePlace, cautionsPlace, endOf, type Place } from './state.js';

/** The parts of the page that a place shows; the first holds what the walk adds. */
export function partsOf(place: Place): readonly HTMLElement[] {
  const find = (selector: string): readonly HTMLElement[] => [...document.querySelectorAll<HTMLElement>(selector)];
  if (place === cautionsPlace) return find('section.cautions');
  if (place === beforePlace) return find('#before, section.ready');
  const end = endOf(place);
  if (end === undefined) return find(`#step-${CSS.escape(place.replaceAll('.', '-'))}`);
  return find(end === 'done' ? 'section.leaves' : 'section.leaves, #call');
}

/** Shows the parts of a place and hides all else; the ways to them stay, their own words hidden by the style sheet. */
export function showPlace(place: Place): void {
  for (const old of document.querySelectorAll('.walk-here, .walk-way')) old.classList.remove('walk-here', 'walk-way');
  for (const part of partsOf(place)) {
    part.classList.add('walk-here');
    for (const link of part.querySelectorAll('a[href^="#step"]')) link.setAttribute('tabindex', '-1');
    const main = document.getElementById('main');
    for (let up = part.parentElement; up && up !== main; up = up.parentElement) up.classList.add('walk-way');
  }
  for (const added of document.querySelectorAll('.walk-added')) added.remove();
}

/** A place for what the walk adds to the part shown: after its words, before steps that are nested in it. */
export function addPanel(place: Place, children: readonly (Node | string)[]): HTMLElement {
  const panel = element('div', { class: 'walk-added walk-panel' }, children);
  const part = partsOf(place)[0];
  const body = part?.querySelector(':scope > .step-body') ?? part;
  const nested = body?.querySelector(':scope > .steps');
  if (!body) document.getElementById('main')?.append(panel);
  else if (nested) nested.before(panel);
  else body.append(panel);
  return panel;
}

/** A button that does something. */
export function button(words: string, act: () => void, kind = ''): HTMLButtonElement {
  const made = element('button', { type: 'button', ...(kind !== '' && { class: kind }) }, [words]) as HTMLButtonElement;
  // the second click of a double one would do what stands there by then: a glove would skip a step
  made.addEventListener('click', ({ detail }) => {
    if (detail < 2) act();
  });
  return made;
}

/** The marks of verdicts, as the page draws them. */
export function verdictMark(verdict: string): SVGElement {
  const solid = verdict === 'fail' || verdict === 'fault';
  const svg = drawing('svg', { class: `verdict${solid ? ' solid' : ''}`, viewBox: '0 0 24 24', 'aria-hidden': 'true' });
  const box = drawing('rect', { x: '1.5', y: '1.5', width: '21', height: '21' });
  if (verdict === 'unsure') box.setAttribute('fill', 'url(#hatch)');
  svg.append(box);
  const path = solid ? 'M6.5 6.5l11 11M17.5 6.5l-11 11' : verdict === 'pass' ? 'M5.5 12.5l4.5 5 8.5-11' : '';
  if (path !== '') svg.append(drawing('path', { d: path }));
  return svg;
}

/** A part of a drawing. */
export function drawing(name: string, attributes: Readonly<Record<string, string>>, text?: string): SVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text !== undefined) made.textContent = text;
  return made;
}
