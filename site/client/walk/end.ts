// The end of a walk, and the call to service: what was read, ready to send, and the way to the record.

import { printedUnits } from '../../../src/emit/printed-units.js';
import type { WalkStep } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import type { ReadingAct } from '../job/journal.js';
import { wayFor } from './judge.js';
import { button } from './screen.js';
import type { Session } from './session.js';
import { stepOf } from './state.js';
import { say } from './words.js';

/** All readings in order, the same value several times. */
function readingsOf({ journal }: Session): readonly ReadingAct[] {
  return journal.job.entries.flatMap((entry) => (entry.kind === 'read' ? [entry] : []));
}

function line({ label, text, unit, verdict, limits }: ReadingAct): string {
  const number = printedUnits(`${text.replace('-', '\u2212')}${unit === '' ? '' : `\u00a0${unit}`}`);
  return `${label}: ${number} (${say(verdict)}${limits === undefined ? '' : `, ${say('why-limits', { limits }).replace(/\.$/, '')}`})`;
}

/** The readings as a text to send: what page, which rig, where it stands, every reading. */
function readingsText(session: Session, step: WalkStep | undefined): string {
  const { page, file } = session;
  const at = step ? `${say('place-step', { label: step.label })}: ${step.words}` : (reasonOf(session) ?? '');
  return [
    say('send-title', { title: file.title }),
    page.rig,
    `${say('code', { code: page.code })}, ${file.procedure} ${file.revision}`,
    at,
    ...readingsOf(session).map((reading) => `${reading.step}. ${line(reading)}`),
  ]
    .filter((part) => part !== '')
    .join('\n');
}

/** Why the work ended before it was done: what the step that was left last says of it. */
export function reasonOf({ file, journal }: Session): string | undefined {
  const { entries } = journal.job;
  const reasons = entries.flatMap((entry, i) => {
    if (entry.kind !== 'leave') return [];
    const step = stepOf(file, entry.step);
    if (!step) return [];
    const read = entries
      .slice(0, i)
      .findLast(
        (one) => one.kind === 'read' && one.step === entry.step && one.verdict !== 'pass' && one.verdict !== 'recorded',
      );
    const way =
      entry.by === 'otherwise'
        ? step.otherwise
        : entry.by === 'reading' && read?.kind === 'read'
          ? wayFor(step, read)
          : undefined;
    const because = way?.because;
    return because === undefined ? [] : [`${say('place-step', { label: step.label })}: ${because}`];
  });
  return reasons.at(-1);
}

/** Calls, or sends what was read, by whatever the phone offers; nothing leaves it by itself. */
export function callPanel(session: Session, step: WalkStep | undefined): HTMLElement {
  const { phone } = session.file;
  const said = element('p', { role: 'status' }, []);
  const send = button(say('send'), () => {
    void sendText(session, readingsText(session, step)).then((outcome) => {
      said.textContent = outcome === 'copied' ? say('send-copied') : '';
      // neither way is open: the text is there to be copied by hand
      if (outcome === 'refused') shown.setAttribute('open', '');
    });
  });
  const text = element('textarea', { readonly: '', rows: '6', 'aria-label': say('readings') }, [
    readingsText(session, step),
  ]);
  const shown = element('details', { class: 'walk-more' }, [element('summary', {}, [say('send-text')]), text]);
  return element('div', { class: 'walk-call' }, [
    element('a', { class: 'button-like', href: `tel:${phone.replaceAll(/[^\d+]/g, '')}` }, [say('call', { phone })]),
    send,
    said,
    shown,
  ]);
}

async function sendText({ file }: Session, text: string): Promise<'sent' | 'copied' | 'refused'> {
  const title = say('send-title', { title: file.title });
  try {
    if (navigator.share) {
      await navigator.share({ title, text });
      return 'sent';
    }
    await navigator.clipboard.writeText(text);
    return 'copied';
  } catch (fault) {
    // a person who closes the phone's own sheet has changed their mind
    return fault instanceof DOMException && fault.name === 'AbortError' ? 'sent' : 'refused';
  }
}

/** What was read, as found and as left where a value was read more than once. */
export function readingsList(session: Session): HTMLElement {
  const byValue = new Map<string, readonly ReadingAct[]>();
  for (const reading of readingsOf(session)) {
    byValue.set(reading.value, [...(byValue.get(reading.value) ?? []), reading]);
  }
  if (byValue.size === 0) return element('p', {}, [say('no-readings')]);
  const items = [...byValue.values()].flatMap((list) => {
    const [first, last] = [list[0], list.at(-1)];
    if (!first || !last) return [];
    if (first === last) return [element('li', {}, [line(first)])];
    return [
      element('li', {}, [`${line(first)}, ${say('as-found')}`]),
      element('li', {}, [`${line(last)}, ${say('as-left')}`]),
    ];
  });
  return element('div', {}, [element('h3', {}, [say('readings')]), element('ul', { class: 'walk-said' }, items)]);
}
