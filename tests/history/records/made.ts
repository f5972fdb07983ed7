// Records as phones would have made them, by the phone's own code; and readings in numbers.

import type { Act, Entry, JobPage, ReadingAct } from '../../../site/client/job/journal.js';
import { recordOf } from '../../../site/client/job/record.js';
import type { JobRecord } from '../../../src/model/job-record.js';
import { leave, reading, turn } from '../../client/jobs.js';

/** The page that the base book's procedure has, and the demo's. */
export const learnPage: JobPage = {
  code: 'QF72KD',
  procedure: 'learn-height-range',
  title: 'Learn the header height range',
  revision: 3,
  content: 'aaaa',
  path: 'tarn-40/row-12x20/learn-height-range/',
  rig: 'Tarn 40 · 12-row header, 20 in rows',
  language: 'en',
};

export interface Made {
  /** Two digits or more: the record's id is made of them. */
  readonly id: number;
  readonly day: string;
  readonly page?: Partial<JobPage>;
  readonly acts: readonly Act[];
  /** Whether it was closed; yes unless said. */
  readonly open?: true;
  readonly later?: readonly Act[];
}

/** The record of a job in which these acts were done, a minute apart from eight o'clock on. */
export function made({ id, day, page, acts, open, later = [] }: Made): JobRecord {
  const amendment = { who: 'R. Quill', why: 'forgotten' };
  const all = [...acts, ...(open ? [] : [{ kind: 'close' } as const]), ...later];
  const entries = all.map((act, i): Entry => {
    const at = new Date(Date.parse(`${day}T08:00:00Z`) + i * 60_000).toISOString();
    return i > acts.length ? { ...act, at, amendment } : { ...act, at };
  });
  return recordOf({
    id: id.toString(16).padStart(32, '0'),
    page: { ...learnPage, ...page },
    begun: `${day}T08:00:00.000Z`,
    state: open ? 'open' : 'closed',
    entries,
  });
}

/** A reading of the sensor with the header on the ground, judged by 3.63 to 4.17 V. */
export function ground(volts: string, changes: Partial<ReadingAct> = {}): ReadingAct {
  const number = Number(volts);
  const judged: Pick<ReadingAct, 'verdict'> & Partial<Pick<ReadingAct, 'side'>> =
    number < 3.63
      ? { verdict: 'fail', side: 'low' }
      : number > 4.17
        ? { verdict: 'fail', side: 'high' }
        : { verdict: 'pass' };
  const label = 'Height sensor, header on the ground';
  return reading('on_ground', volts, { label, low: '3.63', high: '4.17', ...judged, ...changes });
}

/** As found, turned, as left. */
export function set(found: string, left: string): readonly Act[] {
  return [ground(found), leave('2', '3'), turn(['on_ground']), leave('3', '2'), ground(left), leave('2', 'done')];
}
