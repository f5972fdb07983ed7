// *This page is wrong*: a form over any procedure's page, kept with the open job or on its own, without signal.

import { element } from '../element.js';
import { openDialog } from './dialog.js';
import { reportWrong } from './reports.js';
import { StoreFault } from './store.js';
import { jobsLink, thisPage } from './this-page.js';
import { sayFault, sayJob } from './words.js';

/** Opens the form; `step` is the one to begin with. */
export function askWhatIsWrong(step?: string): void {
  const page = thisPage();
  if (!page) return;
  const where = element('select', { id: 'wrong-where' }, stepOptions()) as HTMLSelectElement;
  where.value = step ?? '';
  const text = element('textarea', { id: 'wrong-text', rows: '4' }, []) as HTMLTextAreaElement;
  const status = element('p', { class: 'status', role: 'status' }, []);
  const keep = element('button', { type: 'submit' }, [sayJob('wrong-keep')]);
  const close = element('button', { type: 'button', class: 'quiet' }, [sayJob('wrong-close')]);
  const fields = [
    element('label', { for: 'wrong-where' }, [sayJob('wrong-where')]),
    where,
    element('label', { for: 'wrong-text' }, [sayJob('wrong-text')]),
    text,
  ];
  const form = element('form', { class: 'fields' }, [...fields, status, keep, close]);
  const shut = openDialog(sayJob('wrong-title'), [form]);
  close.addEventListener('click', shut);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const said = text.value.trim();
    if (said === '') {
      status.textContent = sayJob('wrong-needs');
      text.focus();
      return;
    }
    const at = where.value === '' ? {} : { step: where.value };
    void reportWrong(page, { ...at, text: said })
      .then((kept) => {
        status.textContent = sayJob(`wrong-${kept}`);
        for (const part of [...fields, keep]) part.remove();
        if (kept === 'report') close.before(element('a', { href: jobsLink(page) }, [sayJob('wrong-jobs')]));
        close.focus();
      })
      .catch((fault: unknown) => {
        status.textContent = sayFault(fault instanceof StoreFault ? fault.kind : 'broken');
      });
  });
}

/** The whole page, then each step that stands on it. */
function stepOptions(): readonly HTMLElement[] {
  const steps = [...document.querySelectorAll<HTMLElement>('li.step[id^="step-"]')].map((step) => ({
    label: step.id.slice('step-'.length).replaceAll('-', '.'),
    name: step.querySelector('.step-number a')?.textContent ?? '',
  }));
  return [
    element('option', { value: '' }, [sayJob('wrong-page')]),
    ...steps.map(({ label, name }) => element('option', { value: label }, [name === '' ? label : name])),
  ];
}
