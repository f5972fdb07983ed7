// What is said of a page that was kept: by what the site said last, and by the phone's clock, right or wrong.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Check, judgePage } from '../../site/client/offline/judge.js';
import { partsOf, type View } from '../../site/client/offline/keep-panel.js';
import { namesOf } from '../../site/client/offline/standing.js';

const day = 86_400_000;
const start = Date.UTC(2026, 10, 24);
const check: Check = {
  status: { format: 1, version: 'v', procedures: { learn: 3, old: 2 }, withdrawn: ['old'], sets: {} },
  checkedAt: start,
  seenAt: start,
};

describe('the age of a page', () => {
  it('is said from the day on that the book sets', () => {
    expect(judgePage(check, { days: 14 }, start + 14 * day - 1)).toEqual({});
    expect(judgePage(check, { days: 14 }, start + 14 * day)).toEqual({ stale: 14 });
    expect(judgePage(check, { days: 1 }, start + 400.5 * day)).toEqual({ stale: 400 });
  });

  it('is unknown when the clock was set back, by more than it corrects itself by', () => {
    expect(judgePage(check, { days: 14 }, start - 30 * 60_000)).toEqual({});
    expect(judgePage(check, { days: 14 }, start - 2 * 3_600_000)).toEqual({ clock: true });
    expect(judgePage({ ...check, seenAt: start + 20 * day }, { days: 14 }, start + day)).toEqual({ clock: true });
  });

  it('never makes a page look fresh that was seen to be old', () => {
    fc.assert(
      fc.property(fc.integer({ min: 14, max: 4000 }), fc.integer({ min: -4000, max: 4000 }), (seen, now) => {
        const later = { ...check, seenAt: start + seen * day };
        const found = judgePage(later, { days: 14 }, start + now * day);
        expect(found.stale !== undefined || found.clock === true).toBe(true);
      }),
    );
  });
});

describe('the content of a page', () => {
  const judge = (procedure: string, revision: number) => judgePage(check, { procedure, revision, days: 14 }, start);

  it('is stopped when withdrawn or gone, in any revision', () => {
    expect(judge('old', 2)).toEqual({ taken: 'withdrawn' });
    expect(judge('old', 9)).toEqual({ taken: 'withdrawn' });
    expect(judge('never-heard-of', 1)).toEqual({ taken: 'gone' });
    expect(judge('constructor', 1)).toEqual({ taken: 'gone' });
    expect(namesOf({ taken: 'gone', stale: 20 })).toEqual(['gone']);
  });

  it('is called old when the book has a later revision, and not when the site still has an earlier one', () => {
    expect(judge('learn', 2)).toEqual({ revised: 3 });
    expect(judge('learn', 3)).toEqual({});
    expect(judge('learn', 4)).toEqual({});
    expect(namesOf({ revised: 3 })).toEqual(['revised', 'call']);
  });

  it('is called old when the page has another content by now, under the same revision', () => {
    expect(judgePage(check, { procedure: 'learn', revision: 3, isChanged: true, days: 14 }, start)).toEqual({
      changed: true,
    });
    expect(namesOf({ changed: true })).toEqual(['changed-page', 'call']);
    expect(namesOf({ changed: true, revised: 3 })).toEqual(['revised', 'call']);
    expect(namesOf({ changed: true, taken: 'withdrawn' })).toEqual(['withdrawn']);
  });

  it('is not judged without any word of the site', () => {
    expect(judgePage(undefined, { procedure: 'learn', revision: 1, days: 14 }, start)).toEqual({});
    expect(namesOf({})).toEqual([]);
  });
});

describe('the part of a home that keeps it', () => {
  const set: View['set'] = {
    list: { format: 1, version: 'one', folder: 'tarn-40/row-12x20/', away: 'not-kept.html', bytes: 9, files: [] },
    name: 'Tarn 40',
    keptAt: '2026-11-24T00:00:00.000Z',
    carried: [],
  };
  const view = {
    isTorn: false,
    wasKept: false,
    isAnswered: true,
    hasJob: false,
    isWalked: false,
    isPromised: false,
    latest: ['one', 9, 1],
  } as const;

  it('offers, with the reason where it was thrown away', () => {
    expect(partsOf(view)).toEqual(['offer', 'keep']);
    expect(partsOf({ ...view, wasKept: true })).toEqual(['evicted', 'offer', 'keep']);
    expect(partsOf({ ...view, latest: undefined, isAnswered: false })).toEqual(['away']);
    expect(partsOf({ ...view, hindrance: 'full' })).toEqual(['full', 'offer', 'keep']);
  });

  it('offers a new version, but not while a job is open', () => {
    expect(partsOf({ ...view, set })).toEqual(['kept', 'how', 'unpromised', 'remove']);
    const newer = { ...view, set, latest: ['two', 9, 1] } as const;
    expect(partsOf(newer)).toContain('update');
    expect(partsOf({ ...newer, hasJob: true, isWalked: true })).toContain('job');
    expect(partsOf({ ...newer, hasJob: true, isWalked: true })).not.toContain('update');
    expect(partsOf({ ...newer, hasJob: true })).toEqual(expect.arrayContaining(['open-job', 'update']));
    expect(partsOf({ ...newer, isPromised: true })).toContain('promised');
  });

  it('says when parts are gone', () => {
    expect(partsOf({ ...view, set, isTorn: true })).toEqual(['torn', 'update', 'how', 'unpromised', 'remove']);
  });
});
