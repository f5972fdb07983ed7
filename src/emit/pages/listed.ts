// Procedures as lists name them: which one a row is about, and that nobody may work by it where it was taken back. What was
// taken back since the page was made, the client script marks in the same words.

import type { ResolvedProcedure } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';

/** The attribute by which the client script knows what a row, or a part of a page, is about. */
export function about({ id }: Pick<ResolvedProcedure, 'id'>): Html {
  return html` data-of="${id}"`;
}

/** The mark of a procedure that was withdrawn; nothing for any other. */
export function drawTaken({ status }: Pick<ResolvedProcedure, 'status'>, voice: Voice): Html | undefined {
  if (status !== 'withdrawn') return undefined;
  return html`<strong class="taken">${voice.ui('withdrawn-title')}</strong>`;
}

/** The words with which the client script marks rows, for the body of a page that lists procedures. */
export function takenWords(voice: Voice): Readonly<Record<'data-withdrawn' | 'data-gone', string>> {
  return { 'data-withdrawn': voice.text('withdrawn-title'), 'data-gone': voice.text('gone-title') };
}
