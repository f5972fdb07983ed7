// A worked-out procedure as the file that a page's walk-through runs on: every way out of every step as a label on the
// page, every number as it decides. What is run is laid out flat, each with its own readings and counts.

import type { Limits } from '../../calc/limits.js';
import { formatLimits } from '../../calc/quantity-text.js';
import { add, divide, type Rational, rational, toNumber } from '../../calc/rational.js';
import { otherSystemUnit } from '../../calc/unit.js';
import type {
  End,
  ResolvedBranch,
  ResolvedProcedure,
  ResolvedStep,
  ResolvedValue,
  ResolvedWorksheet,
  Variant,
} from '../../model/resolved.js';
import { viewOf } from '../pages/gauge.js';
import type { HazardWords } from '../pages/hazards.js';
import { portableSheet } from '../portable-worksheet.js';
import { endProcedures, stepLabel } from '../step-label.js';
import type { Voice } from '../voice.js';
import type {
  Duration,
  Target,
  WalkAdjuster,
  WalkFile,
  WalkStep,
  WalkValue,
  WalkWorksheet,
  Way,
} from './walk-shape.js';

/** What the file needs beside the variant: how it speaks, whom to call, which hazards stand at which step. */
export interface WalkSources {
  readonly voice: Voice;
  readonly phone: string;
  readonly owner: string;
  /** All hazards of the page. */
  readonly hazards: readonly HazardWords[];
  /** Hazards at the step of a label. */
  hazardsAt(label: string): readonly string[];
}

/** One procedure on the page and how it is left. */
interface Level {
  readonly procedure: ResolvedProcedure;
  readonly prefix: string;
  readonly sources: WalkSources;
}

/** The walk of a variant in the voice's language. */
export function walkFile(variant: Variant, sources: WalkSources): WalkFile {
  const { procedure } = variant;
  const { voice } = sources;
  const ends = endProcedures(variant);
  const levels = [
    ...levelsOf({ procedure, prefix: '', sources }),
    ...ends.flatMap((end) => levelsOf({ procedure: end.procedure, prefix: end.prefix, sources })),
  ];
  const first = procedure.steps[0];
  if (!first) throw new Error(`${procedure.id} has no step`);
  return {
    format: 1,
    procedure: procedure.id,
    title: voice.plain(procedure.title),
    revision: procedure.revision,
    content: variant.hash.slice(0, 16),
    language: voice.language,
    ...(procedure.skill === 'technician' && { technician: true }),
    phone: sources.phone,
    owner: sources.owner,
    conditions: procedure.requires.map(({ words }) => voice.plain(words)),
    hazards: Object.fromEntries(sources.hazards.map((hazard) => [hazard.id, hazardWords(hazard, voice)])),
    first: stepLabel(first),
    steps: levels.flatMap((level) => level.procedure.steps.map((step) => walkStep(step, level))),
    values: levels.flatMap((level) => level.procedure.values.map((value) => walkValue(value, level))),
    adjusters: levels.flatMap(walkAdjusters),
    worksheets: levels.flatMap((level) => level.procedure.worksheets.map((sheet) => walkWorksheet(sheet, level))),
    ends: Object.fromEntries(
      ends.flatMap((end) => {
        const safe = end.procedure.steps[0];
        return safe ? end.ends.map((one) => [one, stepLabel(safe, end.prefix)]) : [];
      }),
    ),
  };
}

function hazardWords(hazard: HazardWords, voice: Voice): WalkFile['hazards'][string] {
  return { signal: voice.text(hazard.severity), kind: hazard.severity, words: voice.plain(hazard.what) };
}

/** A procedure and all that it runs, outermost first. */
function levelsOf(level: Level): readonly Level[] {
  const inner = level.procedure.steps.flatMap((step) =>
    step.run ? levelsOf({ ...level, procedure: step.run, prefix: stepLabel(step, level.prefix) }) : [],
  );
  return [level, ...inner];
}

function keyIn({ prefix }: Level, id: string): string {
  return prefix === '' ? id : `${prefix}:${id}`;
}

function walkStep(step: ResolvedStep, level: Level): WalkStep {
  const { voice, hazardsAt } = level.sources;
  const label = stepLabel(step, level.prefix);
  const inner = step.run?.steps[0];
  const keys = (ids: readonly string[]): readonly string[] => ids.map((id) => keyIn(level, id));
  const hazards = hazardsAt(label);
  const words = step.do ?? step.ask ?? step.run?.title;
  return {
    label,
    scope: level.prefix,
    words: voice.plain(words),
    ...(inner && { run: stepLabel(inner, label) }),
    ...(step.measure.length > 0 && { measure: keys(step.measure) }),
    ...(step.write && { write: keys(step.write) }),
    ...(step.adjust.length > 0 && { adjust: keys(step.adjust) }),
    ...(step.stale.length > 0 && { stale: keys(step.stale) }),
    ...(step.mark && { mark: step.mark }),
    ...(step.photo !== undefined && { photo: true }),
    ...(step.hold && { hold: durationOf(step.hold, voice) }),
    ...(step.wait && { wait: durationOf(step.wait, voice) }),
    ...(step.expect && { expect: true }),
    ...(step.skill === 'technician' && { technician: true }),
    ...(hazards.length > 0 && { hazards }),
    ...(step.when.size > 0 && {
      when: Object.fromEntries(
        [...step.when].map(([outcome, branch]) => [outcome, wayOf(branch, { level, id: `${label} ${outcome}` })]),
      ),
    }),
    ...(step.otherwise && { otherwise: wayOf(step.otherwise, { level, id: `${label} otherwise` }) }),
    ...(step.answers.length > 0 && {
      answers: step.answers.map((answer) => ({
        key: answer.key,
        label: voice.plain(answer.label),
        way: wayOf(answer.branch, { level, id: `${label} ${answer.key}` }),
      })),
    }),
    next: nextOf(step, level),
  };
}

function durationOf({ limits, text }: NonNullable<ResolvedStep['hold']>, voice: Voice): Duration {
  return {
    ...(limits.low && { low: toNumber(limits.low) }),
    ...(limits.high && { high: toNumber(limits.high) }),
    text: voice.number(text),
  };
}

function nextOf(step: ResolvedStep, level: Level): Way {
  const id = `${stepLabel(step, level.prefix)} then`;
  if (step.then) return wayOf(step.then, { level, id });
  const following = level.procedure.steps[level.procedure.steps.indexOf(step) + 1];
  return { id, to: following ? { step: stepLabel(following, level.prefix) } : targetOf('done', level) };
}

function wayOf(branch: ResolvedBranch, { level, id }: { readonly level: Level; readonly id: string }): Way {
  return {
    id,
    to: targetOf(branch.go, level),
    ...(branch.because && { because: level.sources.voice.plain(branch.because) }),
    ...(branch.atMost !== undefined && { atMost: branch.atMost }),
    ...(branch.otherwise && { otherwise: wayOf(branch.otherwise, { level, id: `${id} else` }) }),
  };
}

// `done` of a procedure that a step runs leads back to that step; of one that an end runs, to the end itself
function targetOf(go: string, { procedure, prefix }: Level): Target {
  const step = procedure.steps.find(({ id }) => id === go);
  if (step) return { step: stepLabel(step, prefix) };
  if (go === 'done' && /\d$/.test(prefix)) return { returnTo: prefix };
  return { end: go as End };
}

function walkValue(value: ResolvedValue, level: Level): WalkValue {
  const { voice } = level.sources;
  const { unit, shown, derived } = value;
  const used = value.acceptance ?? value.tolerance;
  const view = used && (used.low || used.high) ? viewOf(value, used) : undefined;
  const other = otherSystemUnit(unit);
  const nominal = value.nominal && middleOf(value.nominal);
  const range = value.instrument?.range;
  const said = (text: string | undefined): string | undefined => (text === undefined ? undefined : voice.number(text));
  return {
    key: keyIn(level, value.id),
    label: voice.plain(value.label),
    unit,
    ...(other && { otherUnit: other }),
    ...(value.tolerance && { tolerance: value.tolerance }),
    ...(value.acceptance && { acceptance: value.acceptance }),
    ...(value.failing && { failing: value.failing }),
    ...(value.inside && { inside: value.inside }),
    ...(nominal && { nominal }),
    ...(value.resolution && { resolution: value.resolution }),
    ...(value.uncertainty && { uncertainty: value.uncertainty }),
    ...(derived && {
      derived: {
        expr: derived.expr,
        inputs: Object.fromEntries(derived.inputs.map((id) => [id, keyIn(level, id)])),
        parameters: middlesOf(level.procedure),
      },
    }),
    ...(value.instrument && { instrument: voice.plain(value.instrument.label) }),
    ...(range && { range }),
    shown: {
      ...(shown.acceptance !== undefined && { acceptance: said(shown.acceptance) ?? '' }),
      ...(shown.tolerance !== undefined && { tolerance: said(shown.tolerance) ?? '' }),
      ...(shown.inside !== undefined && { inside: said(shown.inside) ?? '' }),
      ...(range && { range: voice.number(formatLimits(range)) }),
    },
    ...(view && { gauge: { from: view.from, to: view.to } }),
  };
}

function middlesOf({ parameters }: ResolvedProcedure): Readonly<Record<string, Rational>> {
  return Object.fromEntries(
    [...parameters].flatMap(([name, limits]) => {
      const middle = middleOf(limits);
      return middle ? [[name, middle]] : [];
    }),
  );
}

/** The nominal, or halfway between the ends; undefined where an end is missing. */
function middleOf({ low, high, nominal }: Limits): Rational | undefined {
  if (nominal) return nominal;
  return low && high ? divide(add(low, high), rational(2)) : undefined;
}

function walkAdjusters(level: Level): readonly WalkAdjuster[] {
  const { voice } = level.sources;
  return level.procedure.adjusters.map((adjuster) => ({
    key: keyIn(level, adjuster.id),
    label: voice.plain(adjuster.label),
    unit: adjuster.unit,
    range: adjuster.range,
    ...(adjuster.smallest && { smallest: adjuster.smallest }),
    ...(adjuster.positive && { positive: voice.plain(adjuster.positive) }),
    moves: Object.fromEntries([...adjuster.moves].map(([id, effect]) => [keyIn(level, id), effect])),
    ...(adjuster.watch !== undefined && { watch: keyIn(level, adjuster.watch) }),
  }));
}

function walkWorksheet(worksheet: ResolvedWorksheet, level: Level): WalkWorksheet {
  const { voice } = level.sources;
  const { id, label, columns, results } = worksheet;
  const chosen = columns.flatMap((column) =>
    column.choices ? [[column.id, column.choices.map((choice) => voice.plain(choice.label))] as const] : [],
  );
  return {
    key: keyIn(level, id),
    label: label ? voice.plain(label) : voice.text('worksheet'),
    sheet: portableSheet(worksheet),
    labels: Object.fromEntries([...columns, ...results].map((part) => [part.id, voice.plain(part.label)])),
    ...(chosen.length > 0 && { choices: Object.fromEntries(chosen) }),
    shown: Object.fromEntries(
      results.flatMap((result) => (result.shown === undefined ? [] : [[result.id, voice.number(result.shown)]])),
    ),
  };
}
