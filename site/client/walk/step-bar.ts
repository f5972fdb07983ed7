// The bar of a step: what is still missing, how a reading came out, and every way on.

import type { WalkStep, Way } from '../../../src/emit/walk/walk-shape.js';
import type { Act } from '../job/journal.js';
import type { BarView } from './bar.js';
import { gravestOf, type Judgement, judge, wayFor } from './judge.js';
import { readingActs, readingsWith, type Typed, valuesOf } from './readings.js';
import type { Session } from './session.js';
import { endOf, type LeaveBy, leave } from './state.js';
import { judgeTableNow, lackOf, resultActs } from './table.js';
import { faultOfTurns, type Turns, turnActs, turnWanted } from './turning.js';
import { verdictWords } from './verdict.js';
import { say } from './words.js';

/** What is typed at the place shown and not kept yet. */
export interface Draft {
  readonly typed: Typed;
  readonly turns: Turns;
  /** The time to wait is over. */
  isOver: boolean;
}

/** Leaves the step once its acts are kept. */
export type LeaveStep = (
  by: LeaveBy,
  what: { readonly acts: readonly Act[]; readonly answer?: string },
) => Promise<void>;

interface BarSources {
  readonly draft: Draft;
  readonly leaveBy: LeaveStep;
}

/** The bar, but for what every bar has. */
export function barOf(
  session: Session,
  step: WalkStep,
  { draft, leaveBy }: BarSources,
): Omit<BarView, 'back' | 'warning'> {
  if (step.answers) {
    const actions = step.answers.map(({ key, label }) => ({
      words: label,
      act: () => void leaveBy('answer', { acts: [], answer: key }),
    }));
    return { actions };
  }
  const judged = judgedNow(session, step, draft);
  const gravest = gravestOf(judged.map(({ judgement }) => judgement));
  const decides = judged.find(({ judgement }) => judgement === gravest) ?? judged[0];
  const way = gravest && wayFor(step, gravest);
  const verdict = decides ? verdictOf(decides, way) : turnWanted(session, step);
  const missing = missingAt(session, step, draft);
  const acts = (): readonly Act[] => [
    ...readingActs(session, step, draft.typed),
    ...session.file.worksheets
      .filter(({ key }) => step.measure?.includes(key))
      .flatMap((sheet) => resultActs(session, step, sheet)),
    ...turnActs(session, step, draft.turns),
  ];
  const by: LeaveBy = step.measure ? 'reading' : 'next';
  const onward = {
    words: step.expect && step.otherwise ? say('seen-so') : wayWords(session, step, way),
    main: true,
    act: () => void leaveBy(by, { acts: acts() }),
  };
  const not = step.otherwise && { words: say('not-so'), act: () => void leaveBy('otherwise', { acts: [] }) };
  return {
    ...(missing !== undefined && { missing }),
    ...(verdict && { verdict }),
    actions: not ? [not, onward] : [onward],
  };
}

interface JudgedNow {
  readonly judgement: Judgement;
  readonly words: { readonly word: string; readonly why: string };
}

function judgedNow(session: Session, step: WalkStep, draft: Draft): readonly JudgedNow[] {
  const known = readingsWith(session, draft.typed);
  const values = valuesOf(session, step).flatMap((value) => {
    const base = known.get(value.key);
    if (!base) return [];
    const judgement = judge(value, base);
    return [{ judgement, words: verdictWords(value, base, judgement) }];
  });
  const sheets = session.file.worksheets
    .filter(({ key }) => step.measure?.includes(key))
    .flatMap((sheet) =>
      judgeTableNow(sheet, session.state).map((judgement) => ({
        judgement,
        words: { word: say(judgement.verdict), why: '' },
      })),
    );
  return [...values, ...sheets];
}

function verdictOf({ judgement, words }: JudgedNow, way: Way | undefined): NonNullable<BarView['verdict']> {
  return { kind: judgement.verdict, ...words, ...(way?.because !== undefined && { then: way.because }) };
}

/** What has to be done before the step can be left; undefined where nothing has. */
function missingAt(session: Session, step: WalkStep, draft: Draft): string | undefined {
  const known = readingsWith(session, draft.typed);
  const unread = valuesOf(session, step).filter((value) => !value.derived && !known.has(value.key));
  if (unread.length > 0) return say('still-to-read', { what: unread.map(({ label }) => label).join('; ') });
  for (const sheet of session.file.worksheets) {
    const lack = step.measure?.includes(sheet.key) ? lackOf(sheet, session.state) : '';
    if (lack !== '') return say('still-to-fill', { what: lack });
  }
  if (step.wait && !draft.isOver) return say('still-to-wait');
  if (step.mark && !session.state.marks.has(step.label)) return say('still-to-mark');
  return faultOfTurns(session, step, draft.turns);
}

/** What the button says that leads on: where to, if that is not simply the next step. */
function wayWords(session: Session, step: WalkStep, way: Way | undefined): string {
  const by: LeaveBy = step.measure ? 'reading' : 'next';
  if (way) {
    const spent = way.atMost !== undefined && (session.state.counts.get(way.id) ?? 0) >= way.atMost;
    return targetWords(session, spent && way.otherwise ? way.otherwise : way);
  }
  const { place } = leave(session.file, session.state, {
    by: by === 'reading' ? 'next' : by,
    judgeSheet: session.judgeSheet,
  });
  return endOf(place) === 'done' ? say('go-done') : say(step.measure ? 'next' : 'done');
}

function targetWords({ file, state }: Session, { to }: Way): string {
  if ('step' in to) return say('go-step', { label: to.step });
  if ('returnTo' in to) return say('next');
  if (to.end === 'done') return say('go-done');
  if (file.ends[to.end] !== undefined && state.ending === undefined) return say('go-safe');
  return say(to.end === 'stop' ? 'go-stop' : 'go-call');
}
