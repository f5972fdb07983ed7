// The record of a job as it is sent and kept by others: the shape that schema/job-record.schema.json describes. A key more is
// no new version; a key less or another meaning is.

/** How a reading was judged; `recorded` where there are no limits. */
export type ReadingVerdict = 'pass' | 'fail' | 'unsure' | 'fault' | 'recorded';

/** What a person may say of the job itself; asked for before or after work, and changed at any time until it is closed. */
export type FactName =
  | 'who'
  /** `operator` or `technician`: who does the steps that ask for one. */
  | 'skill'
  | 'work-order'
  | 'engine-hours'
  | 'machine-serial'
  | 'header-serial'
  | 'software-before'
  | 'software-after'
  | 'instrument'
  | 'instrument-calibrated'
  | 'signature';

export type JobState = 'open' | 'closed';

/** The number of this shape. */
export const recordVersion = 1;

/** What every item has: its place in the list of all that was done, from 1, and when, by the phone's clock. */
export interface Item {
  readonly order: number;
  readonly at: string;
}

/** By which page work was done. */
export interface RecordPage {
  readonly procedure: string;
  readonly title: string;
  readonly revision: number;
  readonly content: string;
  readonly code: string;
  readonly path: string;
  readonly language: string;
  readonly unit?: string;
  readonly serial?: string;
}

export interface RecordReading extends Item {
  readonly step: string;
  readonly value: string;
  readonly label: string;
  readonly text: string;
  readonly unit: string;
  readonly verdict: ReadingVerdict;
  readonly side?: 'low' | 'high';
  readonly limits?: string;
  readonly low?: string;
  readonly high?: string;
  readonly instrument?: string;
  readonly derived?: true;
  /** Of the procedure, when it was read. */
  readonly revision: number;
  /** Entered anew before anything else was done: a slip of the finger. */
  readonly corrected?: true;
}

/** What was found of a value and what was left, each by the place of its reading. */
export interface RecordValue {
  readonly value: string;
  readonly label: string;
  /** An adjustment moved it. */
  readonly adjusted: boolean;
  /** Read before the first adjustment that moves it; missing where nothing was. */
  readonly asFound?: number;
  /** Read after the last one; missing where nothing was. */
  readonly asLeft?: number;
}

export interface RecordAdjustment extends Item {
  readonly step: string;
  readonly adjuster: string;
  readonly label: string;
  readonly text: string;
  readonly total: string;
  readonly unit: string;
  readonly moves: readonly string[];
}

export interface RecordFact extends Item {
  readonly name: FactName;
  readonly text: string;
  readonly corrected?: true;
}

export interface RecordTick extends Item {
  readonly condition: number;
  readonly words: string;
  readonly met: boolean;
  readonly corrected?: true;
}

export interface RecordCell extends Item {
  readonly step: string;
  readonly worksheet: string;
  readonly row: number;
  readonly column: string;
  readonly label?: string;
  readonly text: string;
  readonly word?: string;
  readonly unit?: string;
  readonly corrected?: true;
}

export interface RecordMark extends Item {
  readonly step: string;
  readonly mark: string;
}

/** A note, or what was found wrong on the page. */
export interface RecordNote extends Item {
  readonly step?: string;
  readonly text: string;
}

export interface RecordPhoto extends Item {
  readonly step: string;
  readonly photo: string;
  readonly type: string;
  /** The picture itself as a data URL; in files alone. */
  readonly picture?: string;
}

/** A step that was left: which way, and for where. `back` is to do the step before again. */
export interface RecordWay extends Item {
  readonly step: string;
  readonly by: 'next' | 'otherwise' | 'reading' | 'answer' | 'back';
  readonly to: string;
  readonly words?: string;
  readonly answer?: string;
}

export interface RecordRevision extends Item {
  readonly page: RecordPage;
  readonly from: string;
}

/** What was added after the job was closed. */
export interface RecordAmendment extends Item {
  readonly who: string;
  readonly why: string;
  readonly kind: 'note' | 'fact' | 'wrong';
  readonly text: string;
  readonly step?: string;
  readonly name?: FactName;
}

export interface JobRecord {
  readonly format: 'stepgauge-record';
  readonly version: typeof recordVersion;
  readonly id: string;
  readonly state: JobState;
  readonly begun: string;
  readonly closed?: string;
  /** The end that was reached; missing where none was. */
  readonly end?: 'done' | 'stop' | 'call-service';
  readonly rig: string;
  /** By which page it was begun, and by which it was worked last. */
  readonly begunBy: RecordPage;
  readonly page: RecordPage;
  readonly facts: readonly RecordFact[];
  readonly values: readonly RecordValue[];
  readonly readings: readonly RecordReading[];
  readonly adjustments: readonly RecordAdjustment[];
  readonly cells: readonly RecordCell[];
  readonly ticks: readonly RecordTick[];
  readonly marks: readonly RecordMark[];
  readonly notes: readonly RecordNote[];
  readonly photos: readonly RecordPhoto[];
  readonly wrong: readonly RecordNote[];
  readonly ways: readonly RecordWay[];
  readonly revisions: readonly RecordRevision[];
  readonly amendments: readonly RecordAmendment[];
}
