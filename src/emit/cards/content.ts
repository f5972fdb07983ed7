// What stands on a card: a variant for one machine, in one language, as blocks. Says nothing of where they go.

import { negate, sign } from '../../calc/rational.js';
import type { Hazard } from '../../model/conditions.js';
import type { ReadingOutcome } from '../../model/procedure.js';
import type {
  ResolvedBook,
  ResolvedBranch,
  ResolvedProcedure,
  ResolvedStep,
  ResolvedWorksheet,
  Variant,
} from '../../model/resolved.js';
import type { Words } from '../../model/text.js';
import type { OrderResult } from '../../order/result.js';
import { wordsOf } from '../book-text.js';
import { printedUnits } from '../printed-units.js';
import { endProcedures, stepLabel } from '../step-label.js';
import { dateIn, numberIn } from '../words/interface.js';
import { type Run, runsOf } from './text.js';
import { type CardWord, cardWord } from './words.js';

export interface HazardPanel {
  readonly id: string;
  readonly severity: Hazard['severity']['value'];
  readonly word: string;
  readonly text: string;
}

export interface StepBlock {
  readonly kind: 'step';
  readonly label: string;
  readonly runs: readonly Run[];
  /** What is seen, and where to go: each a line of its own. */
  readonly notes: readonly (readonly Run[])[];
  readonly hazards: readonly string[];
}

export interface TableBlock {
  readonly kind: 'table';
  readonly title: string;
  readonly rows: readonly { readonly label: string; readonly limits: string }[];
}

export interface SheetBlock {
  readonly kind: 'sheet';
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: number;
  readonly results: readonly { readonly label: string; readonly limits: string }[];
}

export type Block =
  | StepBlock
  | TableBlock
  | SheetBlock
  | { readonly kind: 'conditions'; readonly items: readonly string[] }
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'note'; readonly runs: readonly Run[] };

/** What stands on the cards of a variant, whatever the machine. */
export interface CardBody {
  readonly language: string;
  readonly title: string;
  readonly mode: string;
  readonly blocks: readonly Block[];
  /** Every hazard that a step meets, gravest first. */
  readonly hazards: readonly HazardPanel[];
  /** Revision and dates. */
  readonly issue: string;
  /** `YYYY-MM-DD`: what the file says of its making. */
  readonly date: string;
}

/** All that stands on one card. */
export interface CardContent extends CardBody {
  readonly rig: string;
  readonly code: string;
  readonly url: string;
}

export interface BodyFor {
  readonly variant: Variant;
  readonly language: string;
  readonly proof?: OrderResult;
}

const gravest = ['will-kill', 'may-kill', 'may-injure', 'damage'];

/** Gathers what the cards of a variant say. */
export function bodyOf(resolved: ResolvedBook, wanted: BodyFor): CardBody {
  const voice = voiceOf(resolved, wanted);
  const { procedure } = wanted.variant;
  const steps = stepBlocks(procedure, voice, '');
  const safe = endProcedures(wanted.variant).map((end) =>
    voice.word('card', { title: voice.say(end.procedure.title) }),
  );
  const conditions = procedure.requires.map(({ words }) => voice.say(words));
  const blocks: Block[] = [
    ...(conditions.length > 0 ? [{ kind: 'conditions' as const, items: conditions }] : []),
    ...steps,
    ...readings(procedure, voice),
    {
      kind: 'note',
      runs: [
        ...runsOf(voice.word('trouble'), true),
        ...runsOf(` ${[...safe, voice.end('call-service')].map((words) => `${capital(words)}.`).join(' ')}`),
      ],
    },
  ];
  const met = new Set(steps.flatMap(({ hazards }) => hazards));
  return {
    language: wanted.language,
    title: voice.say(procedure.title),
    mode: voice.word('read-do'),
    blocks,
    hazards: panelsOf(resolved, met, voice),
    issue: issueOf(procedure, voice),
    date: procedure.source.reviewed?.on?.value ?? '2000-01-01',
  };
}

/** How a card speaks: texts of the book, its own words, ends, hazards of steps. */
interface Voice {
  readonly language: string;
  readonly say: (words: Words | undefined) => string;
  readonly word: (key: CardWord, parts?: Readonly<Record<string, string | number>>) => string;
  readonly end: (end: string) => string;
  readonly hazardsOf: (label: string, step: ResolvedStep) => readonly string[];
}

function voiceOf(resolved: ResolvedBook, { language, proof, variant }: BodyFor): Voice {
  const { settings } = resolved.book;
  const first = settings.languages[0] ?? 'en';
  const word: Voice['word'] = (key, parts) => cardWord(language, key, parts);
  const ends: Record<string, string> = {
    done: word('done'),
    stop: word('stop'),
    'call-service': word('call', { phone: settings.phone.value.replaceAll(' ', '\u00a0') }),
  };
  const prefixes = new Map(
    endProcedures(variant).flatMap(({ ends: of, prefix }) => of.map((end) => [end, prefix] as const)),
  );
  const met = new Map(
    (proof?.facts ?? []).map(({ place, hazards }) => [
      (place.end ? (prefixes.get(place.end) ?? '') : '') + place.number,
      hazards,
    ]),
  );
  return {
    language,
    say: (words) => (words ? printedUnits(words[language] ?? words[first] ?? '') : ''),
    word,
    end: (end) => ends[end] ?? end,
    hazardsOf: (label, step) => [...new Set([...(met.get(label) ?? []), ...step.hazards])],
  };
}

function panelsOf({ book }: ResolvedBook, met: ReadonlySet<string>, voice: Voice): readonly HazardPanel[] {
  return [...book.hazards.values()]
    .filter(({ id }) => met.has(id))
    .sort((a, b) => gravest.indexOf(a.severity.value) - gravest.indexOf(b.severity.value))
    .map(({ id, severity, what, harm, avoid }) => ({
      id,
      severity: severity.value,
      word: voice.word(severity.value),
      text: [what, harm, avoid].map((text) => voice.say(wordsOf(text))).join(' '),
    }));
}

function stepBlocks(procedure: ResolvedProcedure, voice: Voice, prefix: string): readonly StepBlock[] {
  const labels = new Map(procedure.steps.map((step) => [step.id, stepLabel(step, prefix)]));
  const toWhere = (branch: ResolvedBranch): string => branchWords(branch, voice, labels);
  return procedure.steps.map((step) => {
    const label = stepLabel(step, prefix);
    const block: StepBlock = {
      kind: 'step',
      label,
      runs: runsOf(stepText(step, procedure, voice)),
      notes: stepNotes(step, procedure, voice, toWhere),
      hazards: hazardsAt(label, step, voice),
    };
    return block;
  });
}

/** A step that runs another procedure meets what its steps meet, so that the caution stands before the person turns to that card. */
function hazardsAt(label: string, step: ResolvedStep, voice: Voice): readonly string[] {
  const inside = step.run?.steps.flatMap((one) => hazardsAt(stepLabel(one, label), one, voice)) ?? [];
  return [...new Set([...voice.hazardsOf(label, step), ...inside])];
}

function stepText(step: ResolvedStep, procedure: ResolvedProcedure, voice: Voice): string {
  const own = step.card ?? step.do ?? step.ask;
  const who = step.by > 1 ? `${voice.word('person', { count: step.by })}: ` : '';
  const run = step.run ? voice.word('run', { title: voice.say(step.run.title) }) : '';
  if (own) return [who + voice.say(own), run].filter((part) => part !== '').join(' ');
  if (step.run) return who + run;
  const names = step.measure.map((id) => labelOf(id, procedure, voice));
  return who + voice.word('read', { values: names.join(', ') });
}

function labelOf(id: string, procedure: ResolvedProcedure, voice: Voice): string {
  const found =
    procedure.values.find((value) => value.id === id) ?? procedure.worksheets.find((sheet) => sheet.id === id);
  return found?.label ? voice.say(found.label) : id;
}

function stepNotes(
  step: ResolvedStep,
  procedure: ResolvedProcedure,
  voice: Voice,
  toWhere: (branch: ResolvedBranch) => string,
): readonly (readonly Run[])[] {
  const said = stepText(step, procedure, voice);
  const note = (lead: string, text: string): readonly Run[] => [...runsOf(`${lead}: `, true), ...runsOf(text)];
  const timed = (['hold', 'wait'] as const).flatMap((key) => {
    const time = numberIn(voice.language, step[key]?.text ?? '');
    const isSaid = [time, step[key]?.text ?? ''].some((shown) => said.includes(shown));
    return isSaid ? [] : [runsOf(voice.word(key, { time }))];
  });
  const technician = step.skill === 'technician' && procedure.skill !== 'technician';
  const failing = failingBranches(step, toWhere);
  const reason = (branch: ResolvedBranch): string => (branch.because ? `${voice.say(branch.because)} ` : '');
  return [
    ...(technician ? [runsOf(voice.word('technician'), true)] : []),
    ...timed,
    ...step.adjust.flatMap((id) => adjusterNotes(id, procedure, voice)),
    ...(step.expect && !step.card ? [note(voice.word('expect'), voice.say(step.expect))] : []),
    ...(step.otherwise
      ? [note(voice.word('failed'), `${reason(step.otherwise)}${capital(toWhere(step.otherwise))}.`)]
      : []),
    ...failing.map(([outcome, branch]) =>
      note(voice.word(outcome), `${reason(branch)}${branch.because ? capital(toWhere(branch)) : toWhere(branch)}.`),
    ),
    ...step.answers.map(({ label, branch }) => note(capital(voice.say(label)), `${toWhere(branch)}.`)),
    ...(step.then ? [note(voice.word('then'), `${toWhere(step.then)}.`)] : []),
  ];
}

/** Where failing readings lead. What only calls the desk stands at the foot of the card; `fault` is as `outside` unless it leads elsewhere. */
function failingBranches(
  { when }: ResolvedStep,
  toWhere: (branch: ResolvedBranch) => string,
): readonly (readonly [ReadingOutcome, ResolvedBranch])[] {
  const outside = when.get('outside');
  const asOutside = (branch: ResolvedBranch): boolean => outside !== undefined && toWhere(branch) === toWhere(outside);
  const onlyCalls = (branch: ResolvedBranch): boolean => branch.go === 'call-service' && branch.because === undefined;
  if ([...when.values()].every(onlyCalls)) return [];
  return [...when].filter(([outcome, branch]) => outcome === 'outside' || !asOutside(branch));
}

function adjusterNotes(id: string, procedure: ResolvedProcedure, voice: Voice): readonly (readonly Run[])[] {
  const adjuster = procedure.adjusters.find((one) => one.id === id);
  if (!adjuster) return [];
  const moved = [...adjuster.moves].flatMap(([value, { low, high }]) => {
    const up = sign(low) > 0;
    const down = sign(negate(high)) > 0;
    return up || down ? [voice.word(up ? 'rises' : 'falls', { value: labelOf(value, procedure, voice) })] : [];
  });
  const way = adjuster.positive ? voice.say(adjuster.positive) : '+';
  return [
    [
      ...runsOf(`${capital(way)}: `, true),
      ...runsOf(`${moved.join('; ')}. ${numberIn(voice.language, adjuster.shown.range)}.`),
    ],
  ];
}

function branchWords(branch: ResolvedBranch, voice: Voice, labels: ReadonlyMap<string, string>): string {
  const label = labels.get(branch.go);
  if (label === undefined) return voice.end(branch.go);
  if (branch.atMost === undefined) return voice.word('step', { step: label });
  const count = branch.atMost;
  const again = voice.word(count === 1 ? 'once' : 'again', count === 1 ? { step: label } : { step: label, count });
  if (!branch.otherwise) return again;
  return `${again}, ${voice.word('else', { where: branchWords(branch.otherwise, voice, labels) })}`;
}

/** Tables of what is read: by instrument, then worksheets. What is run here has its own on its own card. */
function readings(procedure: ResolvedProcedure, voice: Voice): readonly Block[] {
  const tables = new Map<string, { label: string; limits: string }[]>();
  for (const value of procedure.values) {
    const title = value.instrument ? voice.say(value.instrument.label) : value.derived ? voice.word('worked-out') : '';
    const limits = numberIn(voice.language, value.shown.acceptance ?? '');
    tables.set(title, [...(tables.get(title) ?? []), { label: voice.say(value.label), limits }]);
  }
  return [
    ...[...tables].map(([title, rows]) => ({ kind: 'table' as const, title, rows })),
    ...procedure.worksheets.map((sheet) => sheetBlock(sheet, voice)),
  ];
}

/** Rows that a worksheet is printed with where its own count is open or high. */
const mostRows = 8;

function sheetBlock(sheet: ResolvedWorksheet, voice: Voice): SheetBlock {
  return {
    kind: 'sheet',
    title: sheet.label ? voice.say(sheet.label) : '',
    columns: sheet.columns.map(({ label, unit, choices }) => {
      const after = unit?.symbol
        ? `, ${unit.symbol}`
        : choices
          ? ` (${choices.map((one) => voice.say(one.label)).join(', ')})`
          : '';
      return voice.say(label) + after;
    }),
    rows: Math.max(sheet.rows.min, Math.min(sheet.rows.max ?? sheet.rows.min, mostRows)),
    results: sheet.results.map(({ label, shown }) => ({
      label: voice.say(label),
      limits: numberIn(voice.language, shown ?? ''),
    })),
  };
}

function issueOf({ revision, status, source }: ResolvedProcedure, voice: Voice): string {
  const { on, next } = source.reviewed ?? {};
  return [
    status === 'draft' ? voice.word('draft') : '',
    voice.word('revision', { revision }),
    on ? dateIn(voice.language, on.value) : '',
    next ? voice.word('by', { date: monthOf(dateIn(voice.language, next.value)) }) : '',
  ]
    .filter((part) => part !== '')
    .join(' · ');
}

/** `1 Aug 2027` without its day: the foot has little room. */
function monthOf(date: string): string {
  return date.replace(/^\d+\u00a0/, '');
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
