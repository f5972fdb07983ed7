// Reviews that the book wants every so many months: the day on which one is due, at the ends of months.

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook } from '../../src/compile.js';
import { filesOf } from './page.js';

const base = filesOf(join(import.meta.dirname, '../books/base'));
const procedure = 'sensors/learn-height-range.md';
const reviewed = 'reviewed: { on: 2026-09-02, by: Service desk, next: 2027-08-01 }';
const verified = 'on: 2026-09-02 }     #';

/** What is said of the review on one day, where the book wants one every `months`. */
function saidOf(on: string, months: string, today: string): readonly string[] {
  const files = new Map(base);
  files.set('book.yaml', `${base.get('book.yaml')}review-every: ${months}\n`);
  const text = base.get(procedure) ?? '';
  expect(text).toContain(reviewed);
  expect(text).toContain(verified);
  // the trial is long ago, so that the review alone is judged
  const old = text.replace(verified, 'on: 2020-01-01 }     #');
  files.set(procedure, old.replace(reviewed, `reviewed: { on: ${on}, by: Service desk }`));
  const sources = new Map([...files].map(([path, content]) => [path, { path, text: content }]));
  const { diagnostics } = checkBook({ sources, figures: new Set(), today });
  return diagnostics.filter(({ code }) => code.startsWith('review-')).map(({ message }) => message);
}

describe('a review that is due by the book', () => {
  it.each([
    ['2024-02-29', '12 months', '2025-02-28', []],
    ['2024-02-29', '12 months', '2025-03-01', ['The review was due on 2025-02-28, and today is 2025-03-01']],
    ['2023-02-28', '12 months', '2024-02-29', ['The review was due on 2024-02-28, and today is 2024-02-29']],
    ['2023-08-31', '6 months', '2024-02-29', []],
    ['2023-08-31', '6 months', '2024-03-01', ['The review was due on 2024-02-29, and today is 2024-03-01']],
    ['2025-12-31', '1 month', '2026-01-31', []],
    ['2025-12-31', '1 month', '2026-02-01', ['The review was due on 2026-01-31, and today is 2026-02-01']],
    ['2024-11-30', '2 years', '2026-12-01', ['The review was due on 2026-11-30, and today is 2026-12-01']],
    ['2026-12-02', '1 month', '2026-12-01', ['The review was on 2026-12-02, which is after today, 2026-12-01']],
  ])('on %s, every %s, seen on %s', (on, months, today, said) => {
    expect(saidOf(on, months, today)).toEqual(said);
  });
});
