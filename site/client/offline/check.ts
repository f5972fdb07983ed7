// Asks the site what holds, and remembers its answer and the time. Nothing is sent but the question.

import { type BookStatus, statusName } from '../../../src/emit/offline/shapes.js';
import type { Check } from './judge.js';
import { siteRoot } from './root.js';

const key = (): string => `stepgauge-check ${siteRoot()}`;

/** What the site said last, if the phone still has it. */
export function readCheck(): Check | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(key()) ?? 'null') as Check | null;
    return kept?.status?.format === 1 && Number.isFinite(kept.checkedAt) && Number.isFinite(kept.seenAt)
      ? kept
      : undefined;
  } catch {
    // storage refused, or something else stands there: then nothing is known
    return undefined;
  }
}

function writeCheck(check: Check): void {
  try {
    localStorage.setItem(key(), JSON.stringify(check));
  } catch {
    // storage refused or full: the next page asks the site anew
  }
}

/** Notes that the clock showed this time. */
export function noteTime(check: Check, now: number): void {
  if (now > check.seenAt) writeCheck({ ...check, seenAt: now });
}

/** For so long one answer serves all parts of a page. */
const fresh = 60_000;
let asked: { readonly at: number; readonly answer: Promise<BookStatus | undefined> } | undefined;

/** What the site says now; nothing where it does not answer. */
export function askStatus(): Promise<BookStatus | undefined> {
  const now = performance.now();
  if (!asked || now - asked.at > fresh) asked = { at: now, answer: fetchStatus() };
  return asked.answer;
}

/** The next question goes to the site again. */
export function forgetAnswer(): void {
  asked = undefined;
}

async function fetchStatus(): Promise<BookStatus | undefined> {
  try {
    const response = await fetch(siteRoot() + statusName, { cache: 'no-store' });
    const status = response.ok ? ((await response.json()) as BookStatus) : undefined;
    if (status?.format !== 1) return undefined;
    const now = Date.now();
    writeCheck({ status, checkedAt: now, seenAt: now });
    return status;
  } catch {
    // no signal: what the site said last stands
    return undefined;
  }
}
