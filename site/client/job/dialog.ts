// A dialog over the page: what stands behind it waits, Escape leaves it, and the focus goes back to where it was.

import { element } from '../element.js';

/** Opens a dialog with a title; gives back how to shut it. */
export function openDialog(title: string, children: readonly (Node | string)[], shut?: () => void): () => void {
  const heading = element('h2', { id: 'dialog-title' }, [title]);
  const dialog = element('dialog', { 'aria-labelledby': 'dialog-title' }, [heading, ...children]) as HTMLDialogElement;
  dialog.addEventListener('close', () => {
    dialog.remove();
    shut?.();
  });
  document.body.append(dialog);
  dialog.showModal();
  return () => dialog.close();
}

/** What a question is made of. */
export interface Question {
  readonly title: string;
  readonly lines: readonly string[];
  readonly yes: string;
  readonly no: string;
}

/** Asks before something that cannot be taken back; not doing it is what Escape and the filled button mean. */
export function askFirst({ title, lines, yes, no }: Question): Promise<boolean> {
  return new Promise((resolve) => {
    let answer = false;
    const stay = element('button', { type: 'button' }, [no]);
    const go = element('button', { type: 'button', class: 'quiet' }, [yes]);
    const shut = openDialog(
      title,
      [...lines.map((line) => element('p', {}, [line])), element('div', { class: 'answers' }, [stay, go])],
      () => resolve(answer),
    );
    stay.addEventListener('click', shut);
    go.addEventListener('click', () => {
      answer = true;
      shut();
    });
  });
}
