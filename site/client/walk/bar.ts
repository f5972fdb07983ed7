// The bar at the foot of the walk, always in sight: the verdict, what is still missing, back and next.

import { element } from '../element.js';
import { showMissing } from './in-sight.js';
import { button, verdictMark } from './screen.js';
import { say } from './words.js';

/** A button of the bar. */
export interface BarAction {
  readonly words: string;
  readonly act: () => void;
  /** Filled and wide. */
  readonly main?: boolean;
}

/** What the bar shows. */
export interface BarView {
  /** The verdict of a reading and where it leads, or the turn that was worked out (`turn`). */
  readonly verdict?: { readonly kind: string; readonly word: string; readonly why: string; readonly then?: string };
  /** Why one cannot go on yet; a main action says it instead of acting. */
  readonly missing?: string;
  readonly warning?: string;
  readonly back?: () => void;
  readonly actions: readonly BarAction[];
}

/** Draws the bar anew in its place. */
export function drawBar(bar: HTMLElement, view: BarView): void {
  const { verdict, missing, warning, back, actions } = view;
  const said = element('p', { class: 'walk-missing', role: 'status' }, []);
  const blocked = (): void => {
    said.textContent = missing ?? '';
    showMissing();
  };
  const buttons = actions.map(({ words, act, main = false }) => {
    const made = button(words, main && missing !== undefined ? blocked : act, main ? 'main' : '');
    if (main && missing !== undefined) made.setAttribute('aria-disabled', 'true');
    return made;
  });
  const goBack = back ? [button(say('back'), back, 'back')] : [];
  const hadFocus = [...bar.querySelectorAll('button')].indexOf(document.activeElement as HTMLButtonElement);
  bar.replaceChildren(
    ...(warning === undefined ? [] : [element('p', { class: 'walk-warning', role: 'alert' }, [warning])]),
    ...(verdict ? [drawVerdict(verdict)] : []),
    said,
    element('div', { class: `walk-buttons${actions.length > 2 ? ' list' : actions.length > 1 ? ' many' : ''}` }, [
      ...goBack,
      ...buttons,
    ]),
  );
  // who stands on a button by keyboard stays on it
  if (hadFocus >= 0) bar.querySelectorAll('button')[hadFocus]?.focus({ preventScroll: true });
}

function drawVerdict({ kind, word, why, then }: NonNullable<BarView['verdict']>): HTMLElement {
  const reasons = [why, then].filter((part) => part !== undefined && part !== '').join(' ');
  const text = element('div', {}, [element('b', {}, [word]), ...(reasons === '' ? [] : [element('p', {}, [reasons])])]);
  return element('div', { class: `walk-verdict ${kind}`, role: 'status' }, [
    ...(kind === 'turn' ? [] : [verdictMark(kind)]),
    text,
  ]);
}
