// What a person adds at any step: a mark, a note, a photo, and that the page itself is wrong.

import type { WalkStep } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import { button } from './screen.js';
import { perform, type Session } from './session.js';
import { markWords, say } from './words.js';

interface Added {
  readonly session: Session;
  readonly step: WalkStep | undefined;
  /** Draws the place anew. */
  readonly redraw: () => void;
}

/** The marks that a step offers, the one that was set pressed. */
export function markPanel({ session, step, redraw }: Added): HTMLElement | undefined {
  if (!step?.mark) return undefined;
  const set = session.state.marks.get(step.label);
  const choices = step.mark.map((mark) => {
    const choice = button(markWords(mark), () => {
      void perform({ session, act: { kind: 'mark', step: step.label, mark } }).then(redraw);
    });
    choice.setAttribute('aria-pressed', String(mark === set));
    return choice;
  });
  return element('fieldset', { class: 'walk-marks' }, [element('legend', {}, [say('mark')]), ...choices]);
}

/** Note, photo, and *this page is wrong*, folded. A photo that is asked for stands open. */
export function notesPanel({ session, step, redraw }: Added): readonly HTMLElement[] {
  const at = step ? { step: step.label } : {};
  const keepNote = (text: string): void => {
    void perform({ session, act: { kind: 'note', ...at, text } }).then(redraw);
  };
  const keepWrong = (text: string): void => {
    void perform({ session, act: { kind: 'wrong', ...at, text } }).then(redraw);
  };
  const here = session.journal.job.entries.filter((entry) => 'step' in entry && entry.step === step?.label);
  const said = here.flatMap((entry) => (entry.kind === 'note' || entry.kind === 'wrong' ? [entry] : []));
  const list = said.map((entry) =>
    element('li', {}, [`${say(entry.kind === 'note' ? 'note' : 'wrong')}: ${entry.text}`]),
  );
  const photo = step && session.mode === 'job' ? [photoField({ session, step, redraw })] : [];
  return [
    ...(list.length > 0 ? [element('ul', { class: 'walk-said' }, list)] : []),
    ...(step?.photo ? photo : []),
    element('details', { class: 'walk-more' }, [
      element('summary', {}, [say('note-add')]),
      textField('walk-note', say('note'), keepNote),
      ...(step?.photo ? [] : photo),
    ]),
    element('details', { class: 'walk-more' }, [
      element('summary', {}, [say('wrong')]),
      textField('walk-wrong', say('wrong-hint'), keepWrong),
    ]),
  ];
}

function textField(id: string, label: string, keep: (text: string) => void): HTMLElement {
  const area = element('textarea', { id, rows: '3' }, []) as HTMLTextAreaElement;
  const done = button(say('keep'), () => {
    if (area.value.trim() !== '') keep(area.value.trim());
  });
  return element('div', { class: 'walk-note' }, [element('label', { for: id }, [label]), area, done]);
}

function photoField({ session, step, redraw }: Added & { readonly step: WalkStep }): HTMLElement {
  const input = element(
    'input',
    {
      id: 'walk-photo',
      type: 'file',
      accept: 'image/*',
      capture: 'environment',
    },
    [],
  ) as HTMLInputElement;
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    if (!file) return;
    void session.journal
      .keepPhoto(file)
      .then((photo) => perform({ session, act: { kind: 'photo', step: step.label, photo, type: file.type } }))
      .catch(() => {
        session.lost = true;
      })
      .then(redraw);
  });
  const count = session.journal.job.entries.filter(
    (entry) => entry.kind === 'photo' && entry.step === step.label,
  ).length;
  return element('p', { class: 'walk-photo' }, [
    element('label', { for: 'walk-photo', class: 'button-like' }, [say('photo-add')]),
    input,
    ...(count > 0 ? [say('photo-kept', { count })] : []),
  ]);
}
