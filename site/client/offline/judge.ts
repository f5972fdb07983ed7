// Whether a page still holds, from what the site said last and when. Pure: the time is handed in.

import type { BookStatus } from '../../../src/emit/offline/shapes.js';

/** What the site said last. */
export interface Check {
  readonly status: BookStatus;
  /** When, in milliseconds by the phone's clock. */
  readonly checkedAt: number;
  /** The latest time that the phone's clock showed since: a clock that shows less was set back. */
  readonly seenAt: number;
}

/** What a page says of itself. */
export interface PageFacts {
  readonly procedure?: string;
  readonly revision?: number;
  /** Whether it is a kept page that has another content in the book by now. */
  readonly isChanged?: boolean;
  /** Days without a look online after which the page says so. */
  readonly days: number;
}

export interface Findings {
  /** Nobody may work by it: taken back, or no longer in the book. */
  readonly taken?: 'withdrawn' | 'gone';
  /** The revision that the book has, where the page is older. */
  readonly revised?: number;
  /** The page has another content by now. */
  readonly changed?: true;
  /** Full days since the last look online, where they are too many. */
  readonly stale?: number;
  /** The clock cannot be right: nobody knows how many days. */
  readonly clock?: true;
}

const day = 86_400_000;
/** How far a clock is set back by itself when it finds the right time: no reason to doubt it. */
const smallStep = 3_600_000;

/** What is to be said of a page now. Without any check nothing is known against it. */
export function judgePage(check: Check | undefined, page: PageFacts, now: number): Findings {
  if (!check) return {};
  const changed: Findings = page.isChanged ? { changed: true } : {};
  return { ...changed, ...judgeContent(check.status, page), ...judgeAge(check, page.days, now) };
}

function judgeContent(status: BookStatus, { procedure, revision = 0 }: PageFacts): Findings {
  if (procedure === undefined) return {};
  const taken = takenBack(status, procedure);
  if (taken) return { taken };
  const current = status.procedures[procedure] ?? 0;
  return current > revision ? { revised: current } : {};
}

/** Whether nobody may work by a procedure, and why. */
export function takenBack(status: BookStatus, procedure: string): Findings['taken'] {
  if (status.withdrawn.includes(procedure)) return 'withdrawn';
  return Object.hasOwn(status.procedures, procedure) ? undefined : 'gone';
}

function judgeAge({ checkedAt, seenAt }: Check, days: number, now: number): Findings {
  if (now < Math.max(checkedAt, seenAt) - smallStep) return { clock: true };
  const age = Math.floor((now - checkedAt) / day);
  return age >= days ? { stale: age } : {};
}
