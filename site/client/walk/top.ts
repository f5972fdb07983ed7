// The head of the walk: for which rig, which procedure and revision, the code to read out, and the state of the machine.

import { element } from '../element.js';
import { button, partsOf } from './screen.js';
import type { Session } from './session.js';
import { stepOf } from './state.js';
import { say } from './words.js';

/** Draws it anew for the place the walk stands at. */
export function drawTop(top: HTMLElement, session: Session): void {
  const { file, page, mode, state } = session;
  const close = button(say('close'), () => document.dispatchEvent(new Event('walk-close')), 'close');
  const code = document.querySelector('.top .code')?.textContent ?? page.code;
  const revision = document.querySelector('.top .meta span')?.textContent ?? '';
  const run = stepOf(file, stepOf(file, state.place)?.scope ?? '');
  top.replaceChildren(
    element('p', { class: 'walk-rig', tabindex: '0', role: 'group', 'aria-label': page.rig }, [
      element('b', { class: 'code' }, [code]),
      ` · ${page.rig} · ${revision}`,
    ]),
    element('div', { class: 'walk-title' }, [element('h1', {}, [file.title]), close]),
    ...(mode === 'job' ? [] : [element('p', { class: 'walk-mode' }, [say(mode)])]),
    ...(run ? [element('p', { class: 'walk-run' }, [say('run-in', { label: run.label, title: run.words })])] : []),
    ...strip(session),
  );
}

// the whole strip of the step: two lines of it, all of it at a tap
function strip({ state }: Session): readonly Node[] {
  const known = partsOf(state.place)[0]?.querySelector(':scope > .step-body > .strip p');
  if (!known) return [];
  const line = element('span', {}, []);
  line.append(...[...known.childNodes].map((node) => node.cloneNode(true)));
  return [element('details', { class: 'walk-strip', 'aria-label': stripName() }, [element('summary', {}, [line])])];
}

function stripName(): string {
  return document.body.dataset.stateNow ?? '';
}
