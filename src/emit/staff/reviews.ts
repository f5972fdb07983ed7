// Reviews by date, as a page and as a calendar file. Dates come from the book alone: the same book gives the same bytes.

import { addMonths } from '../../model/dates.js';
import type { Procedure } from '../../model/procedure.js';
import { html } from '../html.js';
import type { Page } from '../pages/context.js';
import { linkToShared } from '../pages/context.js';
import { type CalendarEvent, writeCalendar } from './calendar.js';
import { drawTable, say, staffFolder, staffPage } from './staff-page.js';

/** One procedure with the day that its next review is due. */
export interface Review {
  readonly procedure: Procedure;
  /** Missing where no date follows from the book. */
  readonly due?: string;
}

/** Reviews of all procedures that are in use, by date; those without a date last. */
export function reviewsOf({ site }: Pick<Page, 'site'>): readonly Review[] {
  const { procedures, settings } = site.book.book;
  const every = settings.reviewEvery?.value;
  return [...procedures.values()]
    .filter(({ status }) => status.value !== 'withdrawn')
    .map((procedure): Review => {
      const { on, next } = procedure.reviewed ?? {};
      const due = next?.value ?? (on && every !== undefined ? addMonths(on.value, every) : undefined);
      return { procedure, ...(due !== undefined && { due }) };
    })
    .sort((a, b) => compare(a.due ?? '9999', b.due ?? '9999') || compare(a.procedure.id, b.procedure.id));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The page. */
export function reviewsPage(page: Page): string {
  const reviews = reviewsOf(page);
  const rows = reviews.map(({ procedure, due }) => [
    html`${titleOf(page, procedure)}`,
    html`${due === undefined ? say(page, 'reviews-undated') : page.voice.date(due)}`,
    html`${lastOf(page, procedure)}`,
  ]);
  const head = [say(page, 'procedure'), say(page, 'due-on'), say(page, 'last-review')];
  return staffPage(page, {
    title: say(page, 'reviews'),
    why: say(page, 'reviews-why'),
    body: html`${reviews.length === 0 ? html`<p>${say(page, 'reviews-none')}</p>` : drawTable(say(page, 'reviews'), head, rows)}
<p><a href="${linkToShared(page, `${staffFolder}reviews.ics`)}">${say(page, 'reviews-calendar')}</a></p>`,
  });
}

function titleOf({ site, voice }: Page, { id }: Procedure): string {
  const variant = site.book.variants.find(({ procedure }) => procedure.id === id);
  return variant ? voice.plain(variant.procedure.title) : id;
}

function lastOf(page: Page, { reviewed }: Procedure): string {
  if (!reviewed?.on) return '';
  return say(page, 'review-last', { on: page.voice.date(reviewed.on.value), by: reviewed.by?.value ?? '' });
}

/** The calendar, in the first language of the book. */
export function reviewsCalendar(page: Page): string {
  const { settings } = page.site.book.book;
  const events = reviewsOf(page).flatMap(({ procedure, due }): readonly CalendarEvent[] => {
    if (due === undefined) return [];
    const title = titleOf(page, procedure);
    return [
      {
        uid: `${procedure.id}-r${procedure.revision.value}@${hostOf(settings.url.value)}`,
        stamp: procedure.reviewed?.on?.value ?? due,
        on: due,
        summary: say(page, 'review-of', { title }),
        description: lastOf(page, procedure),
      },
    ];
  });
  return writeCalendar(say(page, 'reviews'), events);
}

function hostOf(url: string): string {
  return /^[a-z]+:\/\/([^/:?#]+)/i.exec(url)?.[1] ?? 'localhost';
}
