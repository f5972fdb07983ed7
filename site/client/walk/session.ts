// One walk by one page: its file, its journal, and where it stands. Acts are kept before they count.

import type { WalkFile } from '../../../src/emit/walk/walk-shape.js';
import type { Act, Entry, JobPage, Journal } from '../job/journal.js';
import { advance, beginning, type JudgeWorksheet, replay, type WalkState } from './state.js';

/** `job`: kept on the phone. `practice` and `desk`: kept nowhere. */
export type WalkMode = 'job' | 'practice' | 'desk';

export interface Session {
  readonly file: WalkFile;
  readonly page: JobPage;
  readonly mode: WalkMode;
  readonly journal: Journal;
  readonly judgeSheet: JudgeWorksheet;
  state: WalkState;
  /** Resolves once all acts so far are kept, or were found not to be. */
  kept: Promise<void>;
  /** The last act could not be kept; it still counts on the screen. */
  lost: boolean;
}

/** What a session is made of. */
export interface SessionStart extends Pick<Session, 'file' | 'page' | 'mode' | 'journal' | 'judgeSheet'> {
  /** The step to begin at instead of the first; for the desk. */
  readonly at?: string;
}

/** A session that stands where its journal leads. */
export function openSession({ at, ...start }: SessionStart): Session {
  const state = at === undefined ? replay(start.file, start.journal.job.entries, start.judgeSheet) : undefined;
  return {
    ...start,
    state: state ?? { ...beginning(start.file), place: at ?? start.file.first },
    lost: false,
    kept: Promise.resolve(),
  };
}

interface Performed {
  readonly session: Session;
  readonly act: Act;
}

/** Keeps an act and takes it into account. Where it cannot be kept the walk goes on, and says so. */
export async function perform({ session, act }: Performed): Promise<void> {
  session.state = advance(session.file, session.state, { act, judgeSheet: session.judgeSheet });
  const keeping = session.journal.append(act).then(
    () => {
      session.lost = false;
    },
    (fault: unknown) => {
      session.lost = true;
      console.warn(fault);
    },
  );
  session.kept = Promise.all([session.kept, keeping]).then(() => undefined);
  await keeping;
}

/** Stands where the journal leads once another window has added to it. */
export async function followJournal(session: Session): Promise<void> {
  await session.kept;
  const { file, journal, judgeSheet } = session;
  session.state = replay(file, journal.job.entries, judgeSheet);
}

/**
 * Takes an act into account at once and keeps it meanwhile; `changed` is told only where that shows: that it could not be
 * kept, or can be again. So a bar is not drawn anew under a finger.
 */
export function performNow({ session, act, changed }: Performed & { readonly changed: () => void }): void {
  const was = session.lost;
  void perform({ session, act }).then(() => {
    if (session.lost !== was) changed();
  });
}

/** A journal that nothing is kept of. */
export function forgetfulJournal(page: JobPage): Journal {
  const entries: Entry[] = [];
  const begun = new Date().toISOString();
  return {
    get job() {
      return { id: '', page, begun, state: 'open' as const, entries: [...entries] };
    },
    append: async (act) => void entries.push({ ...act, at: new Date().toISOString() }),
    keepPhoto: async () => '',
    onChange: () => () => undefined,
  };
}

/** What the journal says last of a kind. */
export function lastOf<K extends Act['kind']>(
  { journal }: Session,
  kind: K,
  fits: (entry: Extract<Entry, { kind: K }>) => boolean = () => true,
): Extract<Entry, { kind: K }> | undefined {
  const entries = journal.job.entries as readonly (Entry & { readonly kind: Act['kind'] })[];
  return entries.findLast(
    (entry): entry is Extract<Entry, { kind: K }> => entry.kind === kind && fits(entry as Extract<Entry, { kind: K }>),
  );
}
