// Hazard panels. The signal word comes from the severity, colours from ISO 3864; the word and the sign say the same.

import type { Severity } from '../../model/conditions.js';
import type { Words } from '../../model/text.js';
import { wordsOf } from '../book-text.js';
import { type Html, html, trusted } from '../html.js';
import type { Voice } from '../voice.js';
import { languageNameIn } from '../words/interface.js';
import { type Page, readerOf } from './context.js';

export interface HazardWords {
  readonly id: string;
  readonly severity: Severity;
  readonly what: Words;
  readonly harm: Words;
  readonly avoid: Words;
}

/** A hazard of the book, for the rig of a page. */
export function findHazard(page: Page, id: string): HazardWords {
  const hazard = page.site.book.book.hazards.get(id);
  if (!hazard) throw new Error(`The hazard ${id} is not in the book`);
  const read = (text: typeof hazard.what): Words => wordsOf(text, readerOf(page));
  return {
    id,
    severity: hazard.severity.value,
    what: read(hazard.what),
    harm: read(hazard.harm),
    avoid: read(hazard.avoid),
  };
}

/** Whether it can kill. */
export function isDeadly({ severity }: Pick<HazardWords, 'severity'>): boolean {
  return severity === 'will-kill' || severity === 'may-kill';
}

const weight: Readonly<Record<Severity, number>> = { 'will-kill': 0, 'may-kill': 1, 'may-injure': 2, damage: 3 };

/** The worst first; equals as they stand. */
export function worstFirst(hazards: readonly HazardWords[]): readonly HazardWords[] {
  return [...hazards].sort((a, b) => weight[a.severity] - weight[b.severity]);
}

// the alert sign of ISO 3864; a notice of damage carries none (ANSI Z535.4)
const sign = trusted(
  '<svg class="alert" viewBox="0 0 26 24" aria-hidden="true" focusable="false"><path d="M13 1.8 24.6 22H1.4Z"/><path d="M13 9v7"/><path d="M13 18v2.2"/></svg>',
);

/** One panel: signal word, what it is, what it does, how to stay clear. Never in another language without saying so. */
export function drawHazard(hazard: HazardWords, voice: Voice): Html {
  const { severity, what, harm, avoid } = hazard;
  const missing = [what, harm, avoid].some((words) => !voice.has(words));
  return html`<div class="hazard ${severity}" role="note" data-hazard="${hazard.id}">
<p class="signal">${severity !== 'damage' && sign}${voice.ui(severity)}</p>
<div class="hazard-text">${missing && html`<p class="untranslated">${voice.ui('untranslated', { language: languageNameIn(voice.language, voice.first) })}</p>`}
<p><b>${voice.say(what)}</b> ${voice.say(harm)} ${voice.say(avoid)}</p></div>
</div>
`;
}
