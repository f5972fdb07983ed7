// Two states of one record: the same, grown, earlier, or something else; nothing that was kept is ever lost.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recordOf } from '../../../site/client/job/record.js';
import { actsOf, compareStates } from '../../../src/history/records/record-acts.js';
import { filesOfRecord, pictureNames, recordStem, withPictures } from '../../../src/history/records/record-files.js';
import type { JobRecord } from '../../../src/model/job-record.js';
import { anyEntries, jobOf } from '../../client/jobs.js';
import { ground, made, set } from './made.js';

const closed = made({ id: 1, day: '2026-03-02', acts: set('3.41', '3.92') });
const photo = { kind: 'photo', step: '3', photo: 'f'.repeat(32), type: 'image/jpeg' } as const;

function withPicture(record: JobRecord, picture: string | undefined, type = 'image/jpeg'): JobRecord {
  return {
    ...record,
    photos: record.photos.map((one) => ({ ...one, type, ...(picture !== undefined && { picture }) })),
  };
}

describe('two states of a record', () => {
  it('are the same, or one has more', () => {
    const later = made({
      id: 1,
      day: '2026-03-02',
      acts: set('3.41', '3.92'),
      later: [{ kind: 'fact', name: 'engine-hours', text: '1420' }],
    });
    expect(compareStates(closed, structuredClone(closed))).toEqual({ kind: 'same' });
    expect(compareStates(closed, later)).toEqual({ kind: 'more', record: later });
    expect(compareStates(later, closed)).toEqual({ kind: 'earlier' });
  });

  it('have more once the job is closed, though nothing else was done', () => {
    const acts = set('3.41', '3.92');
    const open = made({ id: 1, day: '2026-03-02', acts, open: true });
    expect(compareStates(open, closed).kind).toBe('more');
    expect(compareStates(closed, open).kind).toBe('earlier');
  });

  it('are other where a reading, a day or the page that it began with is another', () => {
    const retyped = made({ id: 1, day: '2026-03-02', acts: set('3.41', '3.95') });
    expect(compareStates(closed, retyped)).toEqual({
      kind: 'other',
      missing: 'act 5 (readings, 2026-03-02T08:04:00.000Z)',
    });
    expect(compareStates(closed, made({ id: 1, day: '2026-03-03', acts: set('3.41', '3.92') })).kind).toBe('other');
    const page = { revision: 2 };
    expect(compareStates(closed, made({ id: 1, day: '2026-03-02', page, acts: set('3.41', '3.92') })).kind).toBe(
      'other',
    );
  });

  it('keep the picture that the phone has no longer, and take one that it has again', () => {
    const bare = made({ id: 1, day: '2026-03-02', acts: [photo] });
    const whole = withPicture(bare, 'data:image/jpeg;base64,/9j/4AAQ');
    expect(compareStates(whole, bare)).toEqual({ kind: 'same' });
    expect(compareStates(bare, whole)).toEqual({ kind: 'more', record: whole });
    const other = withPicture(bare, 'data:image/jpeg;base64,AAAA');
    expect(compareStates(whole, other)).toEqual({ kind: 'other', missing: 'the picture of act 1' });
    const grown = made({ id: 1, day: '2026-03-02', acts: [photo], later: [{ kind: 'note', text: 'Seen.' }] });
    expect(compareStates(whole, grown)).toMatchObject({
      kind: 'more',
      record: { photos: [{ picture: whole.photos[0]?.picture }] },
    });
  });

  it('of any job: what was done first is an earlier state of all of it', () => {
    fc.assert(
      fc.property(anyEntries, fc.nat(), (entries, any) => {
        const job = {
          ...jobOf([]),
          entries,
          state: entries.some(({ kind }) => kind === 'close') ? 'closed' : 'open',
        } as const;
        const some = entries.slice(0, any % (entries.length + 1));
        const before = recordOf({
          ...job,
          entries: some,
          state: some.some(({ kind }) => kind === 'close') ? 'closed' : 'open',
        });
        const now = recordOf(job);
        const isMore = actsOf(now).length > actsOf(before).length || now.state !== before.state;
        expect(compareStates(before, now).kind).toBe(isMore ? 'more' : 'same');
        expect(compareStates(now, before).kind).toBe(isMore ? 'earlier' : 'same');
      }),
      { numRuns: 300 },
    );
  });
});

describe('a record as files', () => {
  it('has its pictures beside it, and with them is what was sent', () => {
    const sent = withPicture(
      made({ id: 1, day: '2026-03-02', acts: [ground('3.9'), photo] }),
      'data:image/jpeg;base64,/9j/4AAQ',
    );
    const { name, text, pictures } = filesOfRecord(sent);
    const stem = '2026-03-02-learn-height-range-00000000000000000000000000000001';
    expect(name).toBe(`${stem}.json`);
    expect([...pictures].map(([path, bytes]) => [path, [...bytes]])).toEqual([
      [`${stem}-photo-2.jpg`, [255, 216, 255, 224, 0, 16]],
    ]);
    expect(text).not.toContain('base64');
    const kept = JSON.parse(text) as JobRecord;
    const again = new Map(
      [...pictureNames(kept)].map(([order, path]) => [order, pictures.get(path) ?? new Uint8Array()]),
    );
    expect(withPictures(kept, again)).toEqual(sent);
  });

  it('keeps inside what is no picture that it could write back to the letter', () => {
    for (const [picture, type] of [
      ['data:image/jpeg;base64,not base64!', 'image/jpeg'],
      ['data:image/svg+xml;base64,AAAA', 'image/svg+xml'],
      ['data:image/png;base64,AAAA', 'image/jpeg'],
    ] as const) {
      const sent = withPicture(made({ id: 1, day: '2026-03-02', acts: [photo] }), picture, type);
      const { text, pictures } = filesOfRecord(sent);
      expect([type, pictures.size]).toEqual([type, 0]);
      expect(JSON.parse(text)).toEqual(sent);
    }
  });

  it('has one name, however often it is sent', () => {
    const later = made({ id: 1, day: '2026-03-02', page: { path: 'es/x' }, acts: [], open: true });
    expect(recordStem(later)).toBe(recordStem(closed));
  });
});
