// What is added to a closed record: a note or a fact, with who and why. What stands in it stays.

import { element } from '../element.js';
import { amendJob } from '../job/jobs.js';
import type { AmendingAct, FactName, Job } from '../job/journal.js';
import { StoreFault } from '../job/store.js';
import { sayFault } from '../job/words.js';
import { factNames, serialRemark } from './facts.js';
import { fold } from './parts.js';
import { say } from './words.js';

/** The form, folded. */
export function amendPanel(job: Job, redraw: () => Promise<void>): readonly HTMLElement[] {
  const what = element('select', { id: 'amend-what' }, [
    element('option', { value: 'note' }, [say('amend-note')]),
    ...factNames.map((name) => element('option', { value: name }, [say(`fact-${name}`)])),
  ]) as HTMLSelectElement;
  const text = element('textarea', { id: 'amend-text', rows: '3' }, []) as HTMLTextAreaElement;
  const who = element('input', { id: 'amend-by', type: 'text', autocomplete: 'name' }, []) as HTMLInputElement;
  const why = element('input', { id: 'amend-because', type: 'text' }, []) as HTMLInputElement;
  const status = element('p', { class: 'status', role: 'status' }, []);
  const form = element('form', { class: 'fields' }, [
    ...labelled('amend-what', what),
    ...labelled('amend-text', text),
    ...labelled('amend-by', who),
    ...labelled('amend-because', why),
    element('button', { type: 'submit' }, [say('amend-do')]),
    status,
  ]);
  const remark = (): void => {
    status.textContent = what.value === 'machine-serial' ? serialRemark(job, text.value.trim()) : '';
  };
  for (const field of [what, text]) field.addEventListener('change', remark);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const [said, by, because] = [text, who, why].map(({ value }) => value.trim());
    if (!said || !by || !because) {
      status.textContent = say('amend-missing');
      return;
    }
    const act: AmendingAct =
      what.value === 'note' ? { kind: 'note', text: said } : { kind: 'fact', name: what.value as FactName, text: said };
    void amendJob(job.id, act, { who: by, why: because })
      .then(redraw)
      .catch((fault: unknown) => {
        if (!(fault instanceof StoreFault)) throw fault;
        status.textContent = sayFault(fault.kind);
      });
  });
  return [
    element('section', { class: 'amend' }, [
      fold(say('amend'), [element('p', { class: 'aside' }, [say('amend-why')]), form]),
    ]),
  ];
}

function labelled(
  key: 'amend-what' | 'amend-text' | 'amend-by' | 'amend-because',
  field: HTMLElement,
): readonly HTMLElement[] {
  return [element('label', { for: field.id }, [say(key)]), field];
}
