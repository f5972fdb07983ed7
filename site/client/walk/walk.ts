// The walk-through: one place of the page at a time, with what it asks for, and a bar that leads on. The page's own words
// are shown, never copied; what is added here asks, counts and decides.

import type { WalkStep } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import { changedSince } from '../job/jobs.js';
import type { Act } from '../job/journal.js';
import { type BarView, drawBar } from './bar.js';
import { callPanel, readingsList, reasonOf } from './end.js';
import { hazardLines } from './hazard-lines.js';
import { watchSight } from './in-sight.js';
import { markPanel, notesPanel } from './notes.js';
import { addFields, redraw } from './readings.js';
import { addPanel, button, partsOf, showPlace } from './screen.js';
import { followJournal, lastOf, perform, performNow, type Session } from './session.js';
import { beforePlace, cautionsPlace, endOf, type LeaveBy, leave, stepOf } from './state.js';
import { barOf, type Draft } from './step-bar.js';
import { rowsFilled, tablePanel, typedCells } from './table.js';
import { timerPanel } from './timer.js';
import { drawTop } from './top.js';
import { turnPanels } from './turning.js';
import { say } from './words.js';

/** What the walk has on the screen. */
interface Shown {
  readonly session: Session;
  readonly top: HTMLElement;
  readonly bar: HTMLElement;
  /** Leads from the end to the record. */
  readonly finish: (() => void) | undefined;
  /** A step is being left: nothing else leaves it meanwhile. */
  isLeaving: boolean;
  /** The place that was drawn last. */
  drawn?: string;
}

/** Shows the walk until it is closed. */
export function showWalk(
  session: Session,
  finish: (() => void) | undefined,
): {
  readonly close: () => void;
  /** Goes back a place; false where there is none. */
  readonly back: () => boolean;
} {
  const top = element('div', { class: 'walk-top' }, []);
  const bar = element('div', { class: 'walk-bar' }, []);
  const shown: Shown = { session, top, bar, finish, isLeaving: false };
  document.body.classList.add('walking');
  document.body.prepend(top);
  document.body.append(bar);
  const close = (): void => {
    document.body.classList.remove('walking');
    for (const added of document.querySelectorAll('.walk-added, .walk-top, .walk-bar')) added.remove();
    for (const part of document.querySelectorAll('.walk-here, .walk-way'))
      part.classList.remove('walk-here', 'walk-way');
    document.dispatchEvent(new CustomEvent('walk-closed'));
  };
  document.addEventListener('walk-close', close, { once: true });
  watchSight(bar);
  const unfollow = session.journal.onChange(() => void followOther(shown));
  document.addEventListener('walk-closed', unfollow, { once: true });
  draw(shown);
  return { close, back: () => goBack(shown) };
}

function draw(shown: Shown): void {
  const { session, top } = shown;
  const { place } = session.state;
  showPlace(place);
  drawTop(top, session);
  const draft: Draft = { typed: { fields: new Map() }, turns: new Map(), isOver: false };
  const step = stepOf(session.file, place);
  if (step) drawStep(shown, step, draft);
  else if (place === cautionsPlace) drawBar(shown.bar, { ...plainBar(shown), actions: [goOn(shown, 'next-read')] });
  else if (place === beforePlace) drawBefore(shown);
  else drawEnd(shown);
  const part = partsOf(place)[0];
  part?.setAttribute('tabindex', '-1');
  part?.focus({ preventScroll: true });
  // what was marked or kept at the same place is seen where the finger is
  if (shown.drawn !== place) window.scrollTo(0, 0);
  shown.drawn = place;
}

// another window goes on with the same job: this one stands where that one went, or ends where its page no longer fits
async function followOther(shown: Shown): Promise<void> {
  const { session } = shown;
  const { job } = session.journal;
  if (job.state === 'closed' || changedSince(job, session.page)) {
    document.dispatchEvent(new Event('walk-close'));
    return;
  }
  await followJournal(session);
  const { place } = session.state;
  if (place !== shown.drawn || place === beforePlace) draw(shown);
}

function plainBar(shown: Shown): Pick<BarView, 'back' | 'warning'> {
  const { session } = shown;
  return {
    ...(session.lost && { warning: say('lost-act') }),
    ...(session.state.earlier.length > 0 && { back: () => void goBack(shown) }),
  };
}

/** Back to the place before; readings stay. */
function goBack(shown: Shown): boolean {
  const { session } = shown;
  const { place, earlier } = session.state;
  const to = earlier.at(-1)?.place;
  if (to === undefined) return false;
  for (const act of typedCells(session)) void perform({ session, act });
  void perform({ session, act: { kind: 'back', step: place, to } }).then(() => draw(shown));
  return true;
}

function goOn(shown: Shown, words: 'next-read' | 'next-all'): BarView['actions'][number] {
  return { words: say(words), main: true, act: () => void leaveBy(shown, 'next', { acts: [] }) };
}

async function leaveBy(
  shown: Shown,
  by: LeaveBy,
  { acts, answer }: { readonly acts: readonly Act[]; readonly answer?: string },
): Promise<void> {
  const { session } = shown;
  if (shown.isLeaving) return;
  shown.isLeaving = true;
  for (const act of [...typedCells(session), ...acts]) await perform({ session, act });
  const { place } = session.state;
  const step = stepOf(session.file, place);
  const to = leave(session.file, session.state, { by, answer, judgeSheet: session.judgeSheet }).place;
  await perform({
    session,
    act: { kind: 'leave', step: place, words: step?.words ?? '', by, to, ...(answer !== undefined && { answer }) },
  });
  shown.isLeaving = false;
  draw(shown);
}

function drawBefore(shown: Shown): void {
  const { session } = shown;
  const boxes = [...document.querySelectorAll<HTMLInputElement>('#before .ticks input')];
  boxes.forEach((box, i) => {
    box.checked = session.state.ticks.has(i);
    box.onchange = () => {
      const act: Act = { kind: 'tick', condition: i, words: session.file.conditions[i] ?? '', met: box.checked };
      performNow({ session, act, changed: update });
      update();
    };
  });
  const update = (): void => {
    const left = boxes.length - session.state.ticks.size;
    const isBarred = session.file.technician === true && !isTechnician(session);
    const missing = isBarred ? say('technician-all') : left > 0 ? say('still-to-tick', { count: left }) : undefined;
    drawBar(shown.bar, {
      ...plainBar(shown),
      ...(missing !== undefined && { missing }),
      actions: [goOn(shown, 'next-all')],
    });
  };
  if (session.file.technician && !isTechnician(session)) {
    const panel = skillPanel(shown, undefined, say('technician-all'));
    addPanel(beforePlace, [panel]);
  }
  update();
}

function isTechnician(session: Session): boolean {
  if (session.mode === 'desk') return true;
  return lastOf(session, 'fact', ({ name }) => name === 'skill')?.text === 'technician';
}

// a step beyond the person's skill ends in a call, with the readings ready to send
function skillPanel(shown: Shown, step: WalkStep | undefined, words: string): HTMLElement {
  const { session } = shown;
  const claim = button(say('i-am-technician'), () => {
    void perform({ session, act: { kind: 'fact', name: 'skill', text: 'technician' } }).then(() => draw(shown));
  });
  return element('div', { class: 'walk-skill' }, [
    element('p', {}, [element('b', {}, [words])]),
    callPanel(session, step),
    claim,
  ]);
}

function drawEnd(shown: Shown): void {
  const { session, finish } = shown;
  const end = endOf(session.state.place) ?? 'done';
  const why = end === 'call-service' ? 'end-call-why' : end === 'stop' ? 'end-stop-why' : 'end-done-why';
  const reason = reasonOf(session);
  const hasLeaves = document.querySelector(`.leaves [data-end="${end}"] .states`) !== null;
  const heading = element('div', { class: 'walk-added walk-end' }, [
    element('h2', {}, [say(`end-${end}`)]),
    ...(end !== 'done' && reason !== undefined ? [element('p', {}, [element('b', {}, [reason])])] : []),
    ...(hasLeaves ? [element('p', {}, [say(why)])] : []),
  ]);
  const part = partsOf(session.state.place)[0];
  // what holds after another end is not shown as if it held after this one
  for (const list of document.querySelectorAll<HTMLElement>('.leaves [data-end]'))
    list.classList.toggle('other-end', list.dataset.end !== end);
  part?.prepend(heading);
  addPanel(session.state.place, [
    ...(end === 'done' ? [] : [callPanel(session, undefined)]),
    readingsList(session),
    ...notesPanel({ session, step: undefined, redraw: () => draw(shown) }),
  ]);
  const close = { words: say('close'), act: () => void document.dispatchEvent(new Event('walk-close')) };
  const record = finish && { words: say('record'), main: true, act: finish };
  drawBar(shown.bar, { ...plainBar(shown), actions: record ? [record] : [{ ...close, main: true }] });
}

function drawStep(shown: Shown, step: WalkStep, draft: Draft): void {
  const { session } = shown;
  hazardLines(session, step);
  if (step.technician && !isTechnician(session)) {
    addPanel(step.label, [skillPanel(shown, step, say('technician-only'))]);
    drawBar(shown.bar, {
      ...plainBar(shown),
      missing: say('technician-only'),
      actions: [{ words: say('next'), main: true, act: () => undefined }],
    });
    return;
  }
  const blocks = new Map(
    (step.measure ?? []).flatMap((key) => {
      const id = key.slice(key.indexOf(':') + 1);
      const block = partsOf(step.label)[0]?.querySelector<HTMLElement>(
        `:scope > .step-body > [data-value="${CSS.escape(id)}"]`,
      );
      return block ? [[key, block] as const] : [];
    }),
  );
  const update = (): void => {
    redraw(blocks, { session, step, typed: draft.typed });
    drawBar(shown.bar, {
      ...plainBar(shown),
      ...barOf(session, step, { draft, leaveBy: (by, what) => leaveBy(shown, by, what) }),
    });
  };
  addFields(blocks, { session, step, typed: draft.typed, changed: update });
  addPanel(step.label, panelsOf(shown, step, { draft, update }));
  update();
}

function panelsOf(
  shown: Shown,
  step: WalkStep,
  { draft, update }: { readonly draft: Draft; readonly update: () => void },
): readonly HTMLElement[] {
  const { session } = shown;
  const again = (): void => draw(shown);
  const sheets = session.file.worksheets.filter(({ key }) => isNear(step, key));
  const marks = markPanel({ session, step, redraw: again });
  return [
    ...(step.adjust ? turnPanels(session, step, { turns: draft.turns, changed: update }) : []),
    ...timers(shown, step, { draft, update }),
    ...(marks ? [marks] : []),
    ...sheets.map((sheet) => {
      const panel = tablePanel(session, sheet, { step, changed: update });
      if ([...(step.measure ?? []), ...(step.write ?? [])].includes(sheet.key)) return panel;
      return element('details', { class: 'walk-more walk-sheet' }, [
        element('summary', {}, [say('table', { label: sheet.label, rows: rowsFilled(sheet, session.state) })]),
        panel,
      ]);
    }),
    ...notesPanel({ session, step, redraw: again }),
  ];
}

// a table is filled in over many steps of its own procedure
function isNear({ scope }: WalkStep, key: string): boolean {
  return scope === '' ? !key.includes(':') : key.startsWith(`${scope}:`);
}

function timers(
  shown: Shown,
  step: WalkStep,
  { draft, update }: { readonly draft: Draft; readonly update: () => void },
): readonly HTMLElement[] {
  const { session } = shown;
  const duration = step.wait ?? step.hold;
  if (!duration) return [];
  const entries = session.journal.job.entries;
  const started = lastOf(session, 'timer', (entry) => entry.step === step.label);
  // started before the step was last come to is another time round
  const came = entries.findLastIndex((entry) => 'to' in entry && entry.to === step.label);
  const isNow = started && entries.lastIndexOf(started) > came;
  return [
    timerPanel({
      kind: step.wait ? 'wait' : 'hold',
      duration,
      started: isNow ? Date.parse(started.at) : undefined,
      start: () => void perform({ session, act: { kind: 'timer', step: step.label } }).then(() => draw(shown)),
      over: () => {
        draft.isOver = true;
        update();
      },
    }),
  ];
}
