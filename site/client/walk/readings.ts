// Entering readings at a step: a field for each value that is read, what is derived, the mark on the gauge.

import { fromBase } from '../../../src/calc/conversion.js';
import type { Rational } from '../../../src/calc/rational.js';
import { toNumber } from '../../../src/calc/rational.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import type { Unit } from '../../../src/calc/unit-type.js';
import type { WalkStep, WalkValue } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import type { Act } from '../job/journal.js';
import { judge } from './judge.js';
import { uncertaintyAt, unitSign, valueWords } from './number-words.js';
import { button, drawing } from './screen.js';
import { performNow, type Session } from './session.js';
import { freshReadings } from './state.js';
import { typedFault } from './typed-fault.js';
import { say } from './words.js';

/** What is typed into the fields of the step on the screen and not kept yet. */
export interface Typed {
  /** By value: what stands in its field, and in which unit. */
  readonly fields: Map<string, { text: string; unit: Unit }>;
}

/** The values of a step that a person reads, and those that are worked out from them. */
export function valuesOf({ file }: Session, step: WalkStep): readonly WalkValue[] {
  return (step.measure ?? []).flatMap((key) => file.values.find((value) => value.key === key) ?? []);
}

/** All readings as they would be with what is typed, derived ones worked out; base units. */
export function readingsWith(session: Session, typed: Typed): ReadonlyMap<string, Rational> {
  const readings = new Map(session.state.readings);
  for (const [key, { text, unit }] of typed.fields) {
    const base = readTyped(text, unit)?.base;
    if (base) readings.set(key, { text, unit: unit.symbol, base, fresh: true });
    else readings.delete(key);
  }
  return freshReadings(session.file, { ...session.state, readings });
}

/** The acts that keep what is typed at a step, derived values behind what they are made of. */
export function readingActs(session: Session, step: WalkStep, typed: Typed): readonly Act[] {
  const known = readingsWith(session, typed);
  return valuesOf(session, step).flatMap((value): readonly Act[] => {
    const base = known.get(value.key);
    if (!base) return [];
    const field = typed.fields.get(value.key);
    const { verdict, side } = judge(value, base);
    const text = field ? (readTyped(field.text, field.unit)?.text ?? '') : digitsOf(value, base);
    return [
      {
        kind: 'read',
        step: step.label,
        value: value.key,
        label: value.label,
        text,
        unit: (field?.unit ?? value.unit).symbol,
        verdict,
        ...(side && { side }),
        ...(value.shown.acceptance !== undefined && { limits: value.shown.acceptance }),
        ...endsIn(value, field?.unit ?? value.unit),
        ...(value.instrument !== undefined && { instrument: value.instrument }),
        ...(value.derived && { derived: true as const }),
      },
    ];
  });
}

/** The ends that decided, as digits in the unit that was read in. */
function endsIn({ acceptance }: WalkValue, unit: Unit): { readonly low?: string; readonly high?: string } {
  const digits = (end: Rational): string => String(toNumber(fromBase(end, unit)));
  return {
    ...(acceptance?.low && { low: digits(acceptance.low) }),
    ...(acceptance?.high && { high: digits(acceptance.high) }),
  };
}

function digitsOf(value: WalkValue, base: Rational): string {
  return valueWords(value, base)
    .replace(/\u00a0.*$/, '')
    .replace('\u2212', '-');
}

interface FieldView {
  readonly session: Session;
  readonly step: WalkStep;
  readonly typed: Typed;
  readonly changed: () => void;
}

/** Puts a field, or what is worked out, into the block of each value of the step. */
export function addFields(blocks: ReadonlyMap<string, HTMLElement>, view: FieldView): void {
  for (const value of valuesOf(view.session, view.step)) {
    const block = blocks.get(value.key);
    const label = block?.querySelector('.value-label');
    if (!block || !label) continue;
    label.after(value.derived ? derivedLine(value) : field(value, view));
    if (value.shown.acceptance !== undefined) block.querySelector('.limits')?.before(limitsWord());
  }
  redraw(blocks, view);
}

function limitsWord(): HTMLElement {
  return element('span', { class: 'walk-added limits-word' }, [
    say('why-limits', { limits: '' }).replace(/\s*\.?\s*$/, ''),
  ]);
}

function derivedLine(value: WalkValue): HTMLElement {
  return element('p', { class: 'walk-added walk-derived', id: `derived-${value.key}` }, [
    `${say('worked-out')}: `,
    element('b', {}, ['–']),
  ]);
}

function field(value: WalkValue, { session, step, typed, changed }: FieldView): HTMLElement {
  const id = `read-${value.key.replaceAll(/[^\w-]/g, '-')}`;
  const { readings, drafts, isBack } = session.state;
  const known = readings.get(value.key);
  // what was being typed stands there again; what was read, only for who comes back to it: a step that reads is read anew
  const kept = drafts.get(value.key) ?? (isBack && known?.fresh ? known : undefined);
  const unit = [value.unit, value.otherUnit].find((one) => one?.symbol === kept?.unit) ?? value.unit;
  const now = typed.fields.get(value.key) ?? { text: kept?.text ?? '', unit };
  typed.fields.set(value.key, now);
  const input = element(
    'input',
    {
      id,
      type: 'text',
      // a keypad without a minus sign would lock negative readings out
      inputmode: mayBeNegative(value) || value.unit.over ? 'text' : 'decimal',
      autocomplete: 'off',
      autocapitalize: 'off',
      spellcheck: 'false',
      enterkeyhint: 'done',
      'aria-label': `${say('reading')}: ${value.label}`,
      'aria-describedby': `${id}-why`,
    },
    [],
  ) as HTMLInputElement;
  input.value = now.text;
  const why = element('p', { class: 'walk-why', id: `${id}-why`, role: 'status' }, []);
  const check = (): void => {
    now.text = input.value;
    why.textContent = typedFault(input.value, now.unit);
    input.setAttribute('aria-invalid', String(why.textContent !== ''));
    changed();
  };
  const keep = (): void => {
    const act = {
      kind: 'draft',
      step: step.label,
      field: value.key,
      text: input.value,
      unit: now.unit.symbol,
    } as const;
    if (session.mode === 'job') performNow({ session, act, changed });
  };
  input.addEventListener('input', check);
  input.addEventListener('input', keep);
  // the keypad goes away and the way on is at hand
  input.addEventListener('keydown', ({ key }) => {
    if (key === 'Enter') document.querySelector<HTMLElement>('.walk-bar .main')?.focus();
  });
  return element('div', { class: 'walk-added' }, [
    element('div', { class: 'walk-field' }, [input, unitOf(value, { now, check })]),
    ...(session.mode === 'practice' ? [practiceButton(value, { input, check })] : []),
    why,
  ]);
}

function mayBeNegative({ acceptance, inside, tolerance }: WalkValue): boolean {
  const low = (inside ?? tolerance ?? acceptance)?.low;
  return low === undefined || low.num < 0n;
}

function unitOf(
  { unit, otherUnit }: WalkValue,
  { now, check }: { readonly now: { unit: Unit }; readonly check: () => void },
): HTMLElement {
  if (!otherUnit) return element('span', { class: 'walk-unit' }, [unitSign(unit)]);
  const units = [unit, otherUnit];
  const select = element(
    'select',
    { 'aria-label': say('unit') },
    units.map((one) => element('option', { value: one.symbol }, [unitSign(one)])),
  ) as HTMLSelectElement;
  select.value = now.unit.symbol;
  select.addEventListener('change', () => {
    now.unit = units.find(({ symbol }) => symbol === select.value) ?? unit;
    check();
  });
  return element('span', { class: 'walk-unit' }, [select]);
}

// practice: readings as a machine might give them, inside more often than not
function practiceButton(
  value: WalkValue,
  { input, check }: { readonly input: HTMLInputElement; readonly check: () => void },
): HTMLElement {
  return button(say('practice-reading'), () => {
    const { from, to } = value.gauge ?? { from: 0, to: 100 };
    const low = numberIn(value.acceptance?.low, value.unit) ?? from;
    const high = numberIn(value.acceptance?.high, value.unit) ?? to;
    const inside = Math.random() < 0.6;
    const [least, most] = inside ? [low, high] : [from, to];
    input.value = (least + Math.random() * (most - least)).toFixed(2);
    check();
  });
}

function numberIn(base: Rational | undefined, unit: Unit): number | undefined {
  return base && toNumber(fromBase(base, unit)) / Math.PI ** unit.pi;
}

/** Marks the readings on the gauges, and writes down what is derived. */
export function redraw(
  blocks: ReadonlyMap<string, HTMLElement>,
  { session, step, typed }: { readonly session: Session; readonly step: WalkStep; readonly typed: Typed },
): void {
  const known = readingsWith(session, typed);
  for (const value of valuesOf(session, step)) {
    const block = blocks.get(value.key);
    const base = known.get(value.key);
    if (!block) continue;
    const shown = block.querySelector('.walk-derived b');
    if (shown) shown.textContent = base ? valueWords(value, base) : '–';
    markGauge(block, value, base);
  }
}

const left = 10;
const right = 270;
const line = 24;

// the reading as a mark above the line, what the instrument can be wrong by as a whisker on it
function markGauge(block: HTMLElement, value: WalkValue, base: Rational | undefined): void {
  const gauge = block.querySelector('svg.gauge');
  gauge?.querySelector('.reading')?.remove();
  if (!gauge || !base || !value.gauge) return;
  const { from, to } = value.gauge;
  const place = (number: number): number =>
    left + ((Math.min(Math.max(number, from), to) - from) / (to - from)) * (right - left);
  const number = numberIn(base, value.unit) ?? 0;
  const x = place(number);
  const group = drawing('g', { class: 'reading' });
  const wrong = uncertaintyAt(value, base);
  const half = wrong ? toNumber(wrong) / toNumber(value.unit.factor) : 0;
  if (half > 0) {
    const [a, b] = [place(number - half), place(number + half)];
    group.append(
      drawing('path', { class: 'whisker', d: `M${a} ${line}H${b}M${a} ${line - 5}v10M${b} ${line - 5}v10` }),
    );
  }
  group.append(drawing('path', { d: `M${x} ${line - 3}l-6 -12h12z` }));
  gauge.append(group);
}
