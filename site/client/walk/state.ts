// Where a walk stands, worked out from the journal: the same acts always lead to the same place. Pure.

import type { Rational } from '../../../src/calc/rational.js';
import { add, zero } from '../../../src/calc/rational.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import type { Unit } from '../../../src/calc/unit-type.js';
import type { WalkEnd, WalkFile, WalkStep, WalkValue, WalkWorksheet, Way } from '../../../src/emit/walk/walk-shape.js';
import type { Act } from '../job/journal.js';
import { derive, gravestOf, type Judgement, judge, wayFor } from './judge.js';

/** What is on the screen: the cautions, the conditions, a step by its label, or an end (`end:done`). */
export type Place = string;

export const cautionsPlace: Place = 'cautions';
export const beforePlace: Place = 'before';

/** The end that a place is; undefined for all others. */
export function endOf(place: Place): WalkEnd | undefined {
  return place.startsWith('end:') ? (place.slice(4) as WalkEnd) : undefined;
}

export interface Reading {
  readonly text: string;
  readonly unit: string;
  readonly base: Rational;
  /** False once something was turned that moves it. */
  readonly fresh: boolean;
}

/** What has to be put back to go back a step. */
interface Stand {
  readonly place: Place;
  readonly counts: ReadonlyMap<string, number>;
  readonly ending?: WalkEnd | undefined;
}

export interface WalkState extends Stand {
  /** Conditions that were confirmed, by their place in the list. */
  readonly ticks: ReadonlySet<number>;
  readonly readings: ReadonlyMap<string, Reading>;
  /** By adjuster: how far from where it stood at first, base units. */
  readonly turned: ReadonlyMap<string, Rational>;
  /** `loads 2 shown` to what was typed. */
  readonly cells: ReadonlyMap<string, string>;
  readonly marks: ReadonlyMap<string, string>;
  /** What stands in the fields of this place, by value, adjuster or cell, and is not kept yet. */
  readonly drafts: ReadonlyMap<string, Typing>;
  /** The place was come to by going back: what was read there may stand. */
  readonly isBack: boolean;
  readonly earlier: readonly Stand[];
}

/** What is being typed. */
export interface Typing {
  readonly text: string;
  readonly unit?: string;
}

/** How a step can be left. */
export type LeaveBy = 'next' | 'otherwise' | 'reading' | 'answer';

/** Results of a worksheet that was filled in, as judgements; the engine is handed in so that pages without one stay small. */
export type JudgeWorksheet = (sheet: WalkWorksheet, cells: ReadonlyMap<string, string>) => readonly Judgement[];

/** The state before anything was done. */
export function beginning(file: WalkFile): WalkState {
  return {
    place: file.steps.some(({ hazards }) => hazards) ? cautionsPlace : beforePlace,
    counts: new Map(),
    ticks: new Set(),
    readings: new Map(),
    turned: new Map(),
    cells: new Map(),
    marks: new Map(),
    drafts: new Map(),
    isBack: false,
    earlier: [],
  };
}

/** The state after all acts. What was done by another content of the procedure no longer counts. */
export function replay(file: WalkFile, acts: readonly Act[], judgeSheet: JudgeWorksheet): WalkState {
  const from = acts.findLastIndex(({ kind }) => kind === 'revised') + 1;
  return acts.slice(from).reduce((state, act) => advance(file, state, { act, judgeSheet }), beginning(file));
}

/** The state after one more act. */
export function advance(
  file: WalkFile,
  state: WalkState,
  { act, judgeSheet }: { readonly act: Act; readonly judgeSheet: JudgeWorksheet },
): WalkState {
  switch (act.kind) {
    case 'tick': {
      const ticks = new Set(state.ticks);
      if (act.met) ticks.add(act.condition);
      else ticks.delete(act.condition);
      return { ...state, ticks };
    }
    case 'read':
      return withReading(file, state, act);
    case 'cell':
      return withCell(state, `${act.worksheet} ${act.row} ${act.column}`, act.text);
    case 'draft':
      return { ...state, drafts: withEntry(state.drafts, act.field, act) };
    case 'mark':
      return { ...state, marks: withEntry(state.marks, act.step, act.mark) };
    case 'turn':
      return withTurn(file, state, act);
    // a window that still stood at a place which another had left does not lead on from where that one went
    case 'leave':
      return act.step === state.place ? leave(file, state, { by: act.by, answer: act.answer, judgeSheet }) : state;
    case 'back':
      return act.step === state.place ? back(state) : state;
    default:
      return state;
  }
}

// what was typed there is kept now, and no draft any more
function withCell(state: WalkState, key: string, text: string): WalkState {
  const drafts = new Map(state.drafts);
  drafts.delete(key);
  return { ...state, cells: withEntry(state.cells, key, text), drafts };
}

function withEntry<T>(map: ReadonlyMap<string, T>, key: string, value: T): ReadonlyMap<string, T> {
  return new Map(map).set(key, value);
}

function withReading(file: WalkFile, state: WalkState, act: Extract<Act, { kind: 'read' }>): WalkState {
  const value = file.values.find(({ key }) => key === act.value);
  // a derived value is worked out anew each time, never taken from what was written down
  const unit = value && !value.derived ? unitOf(value, act.unit) : undefined;
  const typed = unit && readTyped(act.text, unit);
  if (!typed) return state;
  const reading: Reading = { text: act.text, unit: act.unit, base: typed.base, fresh: true };
  return { ...state, readings: withEntry(state.readings, act.value, reading) };
}

/** The unit of a symbol that a value is read in. */
export function unitOf({ unit, otherUnit }: WalkValue, symbol: string): Unit | undefined {
  return [unit, otherUnit].find((one) => one?.symbol === symbol);
}

function withTurn(file: WalkFile, state: WalkState, act: Extract<Act, { kind: 'turn' }>): WalkState {
  const adjuster = file.adjusters.find(({ key }) => key === act.adjuster);
  if (!adjuster) return state;
  // how far is not always known: whoever turns watches the reading
  const by = readTyped(act.text, adjuster.unit)?.base ?? zero;
  const turned = withEntry(state.turned, act.adjuster, add(state.turned.get(act.adjuster) ?? zero, by));
  return { ...state, turned, readings: stale(file, state.readings, Object.keys(adjuster.moves)) };
}

/** Readings with these, and what is derived from them, worth nothing any more. */
function stale(
  file: WalkFile,
  readings: ReadonlyMap<string, Reading>,
  keys: readonly string[],
): ReadonlyMap<string, Reading> {
  const gone = new Set(keys);
  for (let size = -1; size < gone.size; ) {
    size = gone.size;
    for (const { key, derived } of file.values) {
      if (derived && Object.values(derived.inputs).some((input) => gone.has(input))) gone.add(key);
    }
  }
  return new Map([...readings].map(([key, reading]) => [key, gone.has(key) ? { ...reading, fresh: false } : reading]));
}

function back(state: WalkState): WalkState {
  const stand = state.earlier.at(-1);
  if (!stand) return state;
  const earlier = state.earlier.slice(0, -1);
  return { ...state, ending: undefined, ...stand, drafts: new Map(), isBack: true, earlier };
}

/** The step of a label. */
export function stepOf(file: WalkFile, label: string): WalkStep | undefined {
  return file.steps.find((step) => step.label === label);
}

interface Leaving {
  readonly by: LeaveBy;
  readonly answer?: string | undefined;
  readonly judgeSheet: JudgeWorksheet;
}

/** The state after the place was left. */
export function leave(file: WalkFile, state: WalkState, leaving: Leaving): WalkState {
  const { place, counts, ending } = state;
  const earlier = [...state.earlier, { place, counts, ending }];
  const next: WalkState = { ...state, drafts: new Map(), isBack: false, earlier };
  if (place === cautionsPlace) return { ...next, place: beforePlace };
  if (place === beforePlace) return { ...next, place: file.first };
  const step = stepOf(file, place);
  if (!step) return state;
  const spent: WalkState = step.stale ? { ...next, readings: stale(file, next.readings, step.stale) } : next;
  if (step.run) return enter(spent, step, step.run);
  return follow(file, spent, wayOut(file, state, { step, ...leaving }) ?? step.next);
}

// what is run begins anew: its readings and counts are its own each time
function enter(state: WalkState, { label }: WalkStep, first: string): WalkState {
  const isOwn = (key: string): boolean => key.startsWith(`${label}:`) || key.startsWith(`${label}.`);
  return {
    ...state,
    place: first,
    counts: new Map([...state.counts].filter(([id]) => !isOwn(id))),
    readings: new Map([...state.readings].filter(([key]) => !isOwn(key))),
  };
}

/** The way that the step is left by; undefined for the next step. */
function wayOut(file: WalkFile, state: WalkState, out: Leaving & { readonly step: WalkStep }): Way | undefined {
  const { step, by, answer, judgeSheet } = out;
  if (by === 'otherwise') return step.otherwise;
  if (by === 'answer') return step.answers?.find(({ key }) => key === answer)?.way;
  if (by !== 'reading') return undefined;
  const decides = gravestOf(judgeStep(file, state, { step, judgeSheet }));
  return decides && wayFor(step, decides);
}

/** How what a step measures came out, as far as it is read. */
export function judgeStep(
  file: WalkFile,
  state: WalkState,
  { step, judgeSheet }: { readonly step: WalkStep; readonly judgeSheet: JudgeWorksheet },
): readonly Judgement[] {
  const readings = freshReadings(file, state);
  return (step.measure ?? []).flatMap((key) => {
    const sheet = file.worksheets.find((one) => one.key === key);
    if (sheet) return judgeSheet(sheet, state.cells);
    const value = file.values.find((one) => one.key === key);
    const base = readings.get(key);
    return value && base ? [judge(value, base)] : [];
  });
}

/** What is known of every value that was read and is not stale, derived ones worked out; base units. */
export function freshReadings(file: WalkFile, { readings }: WalkState): ReadonlyMap<string, Rational> {
  const known = new Map([...readings].flatMap(([key, { base, fresh }]) => (fresh ? [[key, base] as const] : [])));
  for (let size = -1; size < known.size; ) {
    size = known.size;
    for (const value of file.values) {
      const base = known.has(value.key) ? undefined : derive(value, known);
      if (base) known.set(value.key, base);
    }
  }
  return known;
}

function follow(file: WalkFile, state: WalkState, way: Way): WalkState {
  const taken = state.counts.get(way.id) ?? 0;
  if (way.atMost !== undefined) {
    if (taken >= way.atMost && way.otherwise) return follow(file, state, way.otherwise);
    return reach(file, { ...state, counts: new Map(state.counts).set(way.id, taken + 1) }, way);
  }
  return reach(file, state, way);
}

function reach(file: WalkFile, state: WalkState, { to }: Way): WalkState {
  if ('step' in to) return { ...state, place: to.step };
  if ('returnTo' in to) {
    const caller = stepOf(file, to.returnTo);
    return caller ? follow(file, state, caller.next) : state;
  }
  // the steps that make it safe end where the end they were done for leads
  if (state.ending) return { ...state, place: `end:${state.ending}` };
  const safe = file.ends[to.end];
  return safe === undefined ? { ...state, place: `end:${to.end}` } : { ...state, place: safe, ending: to.end };
}

/** How often a counted way may still be taken; undefined for one without a count. */
export function leftOf({ counts }: WalkState, { id, atMost }: Way): number | undefined {
  return atMost === undefined ? undefined : Math.max(atMost - (counts.get(id) ?? 0), 0);
}
