// What happens in a job, as a list that only grows: each act is kept the moment it is done, and all that is shown or
// recorded (where the walk stands, as found, as left) is worked out from the list. Types alone; nothing is stored here.
//
//   open-journal.ts  openJournal(page, wanted?): Promise<Journal>      resumes or makes the job of a page
//                    newJournal(page, onKept?): Journal                another beside those that are open
//   jobs.ts          beginJob(page)  listJobs()  readJob(id)  addToJob(id, act)  closeJob(id)  amendJob(id, act, {who, why})
//                    noteSent(id)  deleteJob(id)  changedSince(job, page)  pageNow(job)
//   offline/open-job.ts   hasOpenJob(folder): Promise<boolean>
//   reports.ts       reportWrong(page, {step?, text})  listReports()  deleteReport(key)
//   record.ts        recordOf(job): JobRecord
//   storage.ts       checkStorage(): Promise<'kept' | 'may-be-cleared' | 'refused' | 'full'>
//   photos.ts        readPhoto(name): Promise<Blob | undefined>
//   this-page.ts     thisPage(): JobPage | undefined   wantedJob(): string | undefined   resumeLink(job): string
//                    jobsLink(page): string   recordLink(job): string
//   store.ts         StoreFault { kind: 'refused' | 'full' | 'lost' | 'closed' | 'broken' }, which all of these reject with

import type { PageSerials } from '../../../src/emit/page-serials.js';
import type { FactName, JobState, ReadingVerdict } from '../../../src/model/job-record.js';

export type { FactName, JobState, ReadingVerdict } from '../../../src/model/job-record.js';

/** Which page of which book a job is done by; kept with the job, so that a record reads without the page. */
export interface JobPage {
  /** `ABC123`, as read out on the telephone. */
  readonly code: string;
  readonly procedure: string;
  readonly title: string;
  readonly revision: number;
  /** Of the content that the steps were taken from, the same in every language; another one means that the procedure changed
   * meanwhile. */
  readonly content: string;
  /** The page's path below the site's root, `es/` included. */
  readonly path: string;
  /** `Tarn 40 · 12-row header, 20 in rows`, with what the page is only for. */
  readonly rig: string;
  readonly language: string;
  /** The unit of the fleet that the phone was told it stands by, and the serial that it was told. */
  readonly unit?: string;
  readonly serial?: string;
  /** Which serials the page is for, where the book says it; no record has it. */
  readonly serials?: PageSerials;
}

/** One reading, as typed and as judged. Derived values and results of worksheets are entered by the page itself. */
export interface ReadingAct {
  readonly kind: 'read';
  readonly step: string;
  /** With the label of the run step before it where it belongs to a procedure that is run: `4:on_ground`. */
  readonly value: string;
  readonly label: string;
  /** The digits as typed, with a point; in `unit`. */
  readonly text: string;
  readonly unit: string;
  readonly verdict: ReadingVerdict;
  /** Why it does not pass: on which side. */
  readonly side?: 'low' | 'high';
  /** The limits that decided, as shown. */
  readonly limits?: string;
  /** The same as digits, in `unit`: the ends that there are. */
  readonly low?: string;
  readonly high?: string;
  /** What the page says it is read with. */
  readonly instrument?: string;
  /** Worked out from other readings. */
  readonly derived?: true;
}

/** Something that was done. Steps are labels as the page shows them: `7`, `4.2`, `E1`. */
export type Act =
  /** A condition of *before you start*, by its place in the list, confirmed or taken back. */
  | { readonly kind: 'tick'; readonly condition: number; readonly words: string; readonly met: boolean }
  | ReadingAct
  /** A cell of a worksheet, as typed; rows count from 1. */
  | {
      readonly kind: 'cell';
      readonly step: string;
      readonly worksheet: string;
      readonly row: number;
      readonly column: string;
      /** What the column is called. */
      readonly label?: string;
      readonly text: string;
      /** What the page calls what was chosen; missing where a number is written. */
      readonly word?: string;
      /** That of the column; missing where words are chosen. */
      readonly unit?: string;
    }
  /** An adjuster was turned by this much, in its unit; `total` from where it stood at first. */
  | {
      readonly kind: 'turn';
      readonly step: string;
      readonly adjuster: string;
      readonly label: string;
      readonly text: string;
      readonly total: string;
      readonly unit: string;
      /** The values that it moves and those derived from them, named as in readings: what was read before is now *as found*. */
      readonly moves: readonly string[];
    }
  /** What stands in a field while it is being typed: of a value, or of an adjuster. It counts for nothing until it is kept. */
  | {
      readonly kind: 'draft';
      readonly step: string;
      readonly field: string;
      readonly text: string;
      readonly unit?: string;
    }
  /** The time that a step asks to wait or hold was started; it runs on while the page is closed. */
  | { readonly kind: 'timer'; readonly step: string }
  | { readonly kind: 'mark'; readonly step: string; readonly mark: string }
  | { readonly kind: 'note'; readonly step?: string; readonly text: string }
  /** A picture that was taken; kept beside the journal under `photo`. */
  | { readonly kind: 'photo'; readonly step: string; readonly photo: string; readonly type: string }
  /** A step was left, by which way and where to: a step or an end. `words` is what the step said to do. */
  | {
      readonly kind: 'leave';
      readonly step: string;
      readonly words: string;
      readonly by: 'next' | 'otherwise' | 'reading' | 'answer';
      readonly answer?: string;
      readonly to: string;
    }
  /** Back to the step before, to do it again. */
  | { readonly kind: 'back'; readonly step: string; readonly to: string }
  /** The page was found wrong. */
  | { readonly kind: 'wrong'; readonly step?: string; readonly text: string }
  | { readonly kind: 'fact'; readonly name: FactName; readonly text: string }
  /** The procedure has another content than when the job began; work goes on by the new one, from this step. */
  | { readonly kind: 'revised'; readonly page: JobPage; readonly from: string }
  /** The work is over, whether or not an end was reached. What comes after it amends. */
  | { readonly kind: 'close' };

/** What may be added to a closed job: a note, a fact that was forgotten or wrong, a page found wrong. */
export type AmendingAct = Extract<Act, { readonly kind: 'note' | 'fact' | 'wrong' }>;

/** Who amends a closed job, and why. */
export interface Amendment {
  readonly who: string;
  readonly why: string;
}

/** An act with when it was done, by the phone's clock (ISO 8601, UTC). Order is the order of the list, never the clock. */
export type Entry = Act & { readonly at: string; readonly amendment?: Amendment };

/** A job: by which page, and all that was done. */
export interface Job {
  /** Random, given when it begins. */
  readonly id: string;
  readonly page: JobPage;
  readonly begun: string;
  readonly state: JobState;
  /** When its record was last sent or saved as a file. */
  readonly sent?: string;
  readonly entries: readonly Entry[];
}

/** An open job that is being worked on. */
export interface Journal {
  /** As it stands now: another object after each act, its own or one from another tab. */
  readonly job: Job;
  /** Resolves when the act is safely kept; rejects where the phone cannot keep it (full, refused), which must be said. */
  append(act: Act): Promise<void>;
  /** Keeps a picture and gives back the name to put into the act. */
  keepPhoto(photo: Blob): Promise<string>;
  /** Calls back when another tab has changed the job; gives back how to stop that. */
  onChange(changed: () => void): () => void;
}
