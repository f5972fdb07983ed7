// The panel of an adjuster: how far to turn, which way, a picture of it, and what was turned in the end.

import { fromBase } from '../../../src/calc/conversion.js';
import { dimension, sameDimension } from '../../../src/calc/dimension.js';
import { holdsWithin } from '../../../src/calc/limits.js';
import { add, sign, toNumber, zero } from '../../../src/calc/rational.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import type { WalkAdjuster, WalkStep } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import type { Act } from '../job/journal.js';
import { type WorkedAdjustment, type WorkedTurn, workOut } from './adjustment.js';
import type { BarView } from './bar.js';
import { turnDigits, turnWords, unitSign, valueWords, writeNumber } from './number-words.js';
import { turnPicture } from './pictures.js';
import { drawing } from './screen.js';
import { performNow, type Session } from './session.js';
import { freshReadings } from './state.js';
import { directionWords, say } from './words.js';

/** What stands in the fields of turns: by adjuster. */
export type Turns = Map<string, string>;

/** The panels of all adjusters of a step; fills `turns` with what was worked out. */
export function turnPanels(
  session: Session,
  step: WalkStep,
  { turns, changed }: { readonly turns: Turns; readonly changed: () => void },
): readonly HTMLElement[] {
  const worked = workOut(session.file, session.state, step);
  const adjusters = (step.adjust ?? []).flatMap(
    (key) => session.file.adjusters.find((adjuster) => adjuster.key === key) ?? [],
  );
  const panels = adjusters.map((adjuster) => {
    const turn = worked.kind === 'found' ? worked.turns.find((one) => one.adjuster === adjuster) : undefined;
    const draft = session.state.drafts.get(adjuster.key)?.text;
    if (draft !== undefined) turns.set(adjuster.key, draft);
    if (!turns.has(adjuster.key))
      turns.set(adjuster.key, turn ? turnDigits(adjuster.unit, turn.by, adjuster.smallest) : '');
    return element('div', { class: 'walk-turn' }, [
      ...(turn ? foundTurn(session, worked, turn) : []),
      turnField(session, adjuster, { turns, changed }),
    ]);
  });
  return worked.kind === 'found' ? panels : [saidWhy(worked), ...panels];
}

/** What the bar says of the turns of a step: how far and which way, or that none can do it and how to go on. */
export function turnWanted(session: Session, step: WalkStep): BarView['verdict'] {
  if (!step.adjust) return undefined;
  const worked = workOut(session.file, session.state, step);
  if (worked.kind === 'found') {
    const words = worked.turns.map(
      (turn) => `${worked.turns.length > 1 ? `${turn.adjuster.label}: ` : ''}${turnSaid(turn)}`,
    );
    return { kind: 'turn', word: words.join('. '), why: '' };
  }
  if (worked.kind !== 'impossible') return undefined;
  return { kind: 'fail', word: say('turn-impossible'), why: say('turn-forgo', { phone: session.file.phone }) };
}

function turnSaid(turn: WorkedTurn): string {
  return sign(turn.by) === 0 ? say('turn-none') : amountWords(turn);
}

function saidWhy(worked: Exclude<WorkedAdjustment, { kind: 'found' }>): HTMLElement {
  if (worked.kind === 'unread') return element('p', { class: 'note' }, [say('turn-unread')]);
  if (worked.kind === 'not-proved') return element('p', { class: 'note' }, [say('turn-not-proved')]);
  const values = worked.conflict.map(({ label }) => label).join('; ');
  return element('div', { class: 'walk-verdict fail' }, [
    element('p', {}, [element('b', {}, [say('turn-impossible')]), ' ', say(`because-${worked.because}`, { values })]),
  ]);
}

function foundTurn(session: Session, worked: WorkedAdjustment, { adjuster, by }: WorkedTurn): readonly Node[] {
  if (worked.kind !== 'found') return [];
  const expected = session.file.values.flatMap((value) => {
    const reading = worked.expected.get(value.key);
    return reading ? [say('turn-expected', { label: value.label, value: valueWords(value, reading) })] : [];
  });
  const watched = session.file.values.find(({ key }) => key === adjuster.watch);
  const [before, after] = watched
    ? [freshReadings(session.file, session.state), worked.expected].map((of) => of.get(watched.key))
    : [];
  const drawn = watched && before && after && sign(by) !== 0 ? turnPicture(watched, before, after) : undefined;
  const words = turnSaid({ adjuster, by });
  return [
    element('div', { class: 'walk-turn-words' }, [
      ...(sign(by) === 0 ? [] : [picture(adjuster, by, say('turn-picture', { words }))]),
      element('div', {}, [
        element('p', { class: 'walk-turn-by' }, [words]),
        element('p', {}, [[...expected, say('turn-about')].join(' ')]),
      ]),
    ]),
    ...(drawn ? [drawn] : []),
  ];
}

// a setting or a length is changed, not turned
function amountWords({ adjuster, by }: WorkedTurn): string {
  const amount = turnWords(adjuster.unit, by, adjuster.smallest);
  const direction = directionWords(adjuster.positive, sign(by) > 0);
  const kind = isAngle(adjuster) ? 'turn' : 'change';
  if (direction !== undefined) return say(`${kind}-found`, { amount, direction });
  return say(`${kind}-signed`, {
    amount: `${sign(by) < 0 ? '\u2212' : '+'}${amount}`,
    positive: adjuster.positive ?? '',
  });
}

function isAngle({ unit }: WalkAdjuster): boolean {
  return sameDimension(unit.dimension, dimension({ angle: 1 }));
}

/** Angles as a dial, all else as a way along its range. */
function picture(adjuster: WalkAdjuster, by: WorkedTurn['by'], label: string): SVGElement {
  const svg = drawing('svg', { class: 'walk-dial', viewBox: '0 0 76 76', role: 'img', 'aria-label': label });
  const number = toNumber(fromBase(by, adjuster.unit)) / Math.PI ** adjuster.unit.pi;
  if (isAngle(adjuster)) {
    const degrees = toNumber(by) * 360;
    // clockwise on the page where plus is clockwise; small turns are drawn larger, so that their direction shows
    const isClockwise = /counter|anti/i.test(adjuster.positive ?? '') ? degrees < 0 : degrees > 0;
    const shown = Math.min(Math.max(Math.abs(degrees), 20), 300) * (isClockwise ? 1 : -1);
    const end = (angle: number, radius: number): readonly [number, number] => [
      38 + radius * Math.sin((angle * Math.PI) / 180),
      38 - radius * Math.cos((angle * Math.PI) / 180),
    ];
    const [x, y] = end(shown, 26);
    const [ax, ay] = end(shown, 33);
    const large = Math.abs(shown) > 180 ? 1 : 0;
    svg.append(
      drawing('circle', { cx: '38', cy: '38', r: '26', class: 'before' }),
      drawing('path', { d: 'M38 38V12', class: 'before' }),
      drawing('path', { d: `M38 38L${x} ${y}`, class: 'turned' }),
      drawing('path', { d: `M38 5A33 33 0 ${large} ${shown > 0 ? 1 : 0} ${ax} ${ay}`, class: 'turned' }),
      drawing('path', {
        d: 'M-6 -5L5 0L-6 5z',
        class: 'tip',
        transform: `translate(${ax} ${ay}) rotate(${shown > 0 ? shown : shown + 180})`,
      }),
    );
  } else {
    const x = number > 0 ? 62 : 14;
    svg.append(
      drawing('path', { d: 'M8 46H68M38 34v24', class: 'before' }),
      drawing('path', { d: `M38 26H${x}`, class: 'turned' }),
      drawing('path', {
        d: 'M-6 -6L6 0L-6 6z',
        class: 'tip',
        transform: `translate(${x} 26) rotate(${number > 0 ? 0 : 180})`,
      }),
    );
  }
  return svg;
}

function turnField(
  session: Session,
  adjuster: WalkAdjuster,
  { turns, changed }: { readonly turns: Turns; readonly changed: () => void },
): HTMLElement {
  const id = `turn-${adjuster.key.replaceAll(/[^\w-]/g, '-')}`;
  const input = element(
    'input',
    { id, type: 'text', inputmode: 'text', autocomplete: 'off', 'aria-describedby': `${id}-why` },
    [],
  ) as HTMLInputElement;
  input.value = turns.get(adjuster.key) ?? '';
  const why = element('p', { class: 'walk-why', id: `${id}-why`, role: 'status' }, []);
  input.addEventListener('input', () => {
    turns.set(adjuster.key, input.value);
    const act = { kind: 'draft', step: session.state.place, field: adjuster.key, text: input.value } as const;
    if (session.mode === 'job') performNow({ session, act, changed });
    why.textContent = turnFault(session, adjuster, input.value);
    changed();
  });
  return element('div', {}, [
    element('label', { for: id }, [say('turned-by', { positive: adjuster.positive ?? '+' })]),
    element('div', { class: 'walk-field small' }, [
      input,
      element('span', { class: 'walk-unit' }, [unitSign(adjuster.unit)]),
    ]),
    why,
  ]);
}

/** Why a turn cannot be kept as it was typed; empty where it can. */
function turnFault(session: Session, adjuster: WalkAdjuster, text: string): string {
  if (text.trim() === '') return '';
  const typed = readTyped(text, adjuster.unit);
  if (!typed) return say('not-a-number', { example: '-4.5' });
  const total = add(session.state.turned.get(adjuster.key) ?? zero, typed.base);
  if (holdsWithin(adjuster.range, total)) return '';
  return say('turned-beyond', { range: rangeWords(adjuster) });
}

function rangeWords({ range, unit }: WalkAdjuster): string {
  const write = (end: typeof range.low): string => (end ? writeNumber(end, unit, { decimals: 1 }) : '');
  return say('range', { low: write(range.low), high: write(range.high) });
}

/** The acts that keep what was turned. */
export function turnActs(session: Session, step: WalkStep, turns: Turns): readonly Act[] {
  return (step.adjust ?? []).flatMap((key): readonly Act[] => {
    const adjuster = session.file.adjusters.find((one) => one.key === key);
    const text = turns.get(key) ?? '';
    if (!adjuster) return [];
    // an empty field: turned while watching the reading, and nobody knows how far
    const typed = readTyped(text, adjuster.unit);
    const total = typed && add(session.state.turned.get(key) ?? zero, typed.base);
    return [
      {
        kind: 'turn',
        step: step.label,
        adjuster: key,
        label: adjuster.label,
        text: typed?.text ?? '',
        total: total ? turnDigits(adjuster.unit, total, adjuster.smallest) : '',
        unit: adjuster.unit.symbol,
        moves: Object.keys(adjuster.moves),
      },
    ];
  });
}

/** Why the turns of a step cannot be kept as they were typed; undefined where they can. */
export function faultOfTurns(session: Session, step: WalkStep, turns: Turns): string | undefined {
  for (const key of step.adjust ?? []) {
    const adjuster = session.file.adjusters.find((one) => one.key === key);
    const fault = adjuster && turnFault(session, adjuster, turns.get(key) ?? '');
    if (fault) return fault;
  }
  return undefined;
}
