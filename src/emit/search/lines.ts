// What can be found on a home: titles, symptoms, check values with their limits, conditions, steps. One line is one hit.

import type { ResolvedProcedure, ResolvedStep } from '../../model/resolved.js';
import { describeRig } from '../pages/rig-words.js';
import type { Entry, Home, Version } from '../pages/site-map.js';
import { type Symptom, symptomsOf } from '../pages/symptoms.js';
import { stepAnchor } from '../pages/ways.js';
import { stepLabel } from '../step-label.js';
import type { Voice } from '../voice.js';
import { quantityWords } from '../words/quantities.js';
import type { Line, LineKind } from './index-shape.js';

/** A line, and words that find it without being shown. */
export interface SearchLine {
  readonly line: Line;
  readonly also: string;
}

/** All lines of a home but its steps: what a phone fetches first. */
export function mainLines(home: Home, voice: Voice): readonly SearchLine[] {
  const symptoms = symptomsOf(home);
  return home.entries.flatMap((entry, i) => [
    { line: ['t', i, voice.plain(entry.procedure.title), '', ''] as const, also: voice.plain(entry.procedure.summary) },
    ...symptoms
      .filter((symptom) => symptom.entry === entry && symptom.kind === 'seen')
      .map((symptom) => symptomLine(symptom, i, voice)),
    ...byVersion(home, entry, voice, (version) => valueLines(version, i, voice)),
    ...byVersion(home, entry, voice, (version) => needLines(version, i, voice)),
  ]);
}

/** The steps of a home: fetched once the page is there. */
export function stepLines(home: Home, voice: Voice): readonly SearchLine[] {
  return home.entries.flatMap((entry, i) =>
    byVersion(home, entry, voice, (version) => stepsOf(version.variant.procedure, i, voice)),
  );
}

function symptomLine(symptom: Symptom, procedure: number, voice: Voice): SearchLine {
  const sign = voice.plain(symptom.sign);
  const text = symptom.not ? voice.text('symptom-not-seen', { expect: sign }) : sign;
  const cause =
    symptom.cause && symptom.not !== true
      ? `${voice.text('symptom-first')} ${voice.plain(symptom.cause)}`
      : voice.plain(symptom.cause);
  const anchor = symptom.entry.versions.length > 1 ? '' : `#${symptom.anchor}`;
  return { line: ['s', procedure, text, anchor, cause], also: voice.plain(symptom.look) };
}

function valueLines({ variant }: Version, procedure: number, voice: Voice): readonly SearchLine[] {
  const { steps, values } = variant.procedure;
  return values.map((value) => {
    const step = steps.find(({ measure }) => measure.includes(value.id));
    const limits = value.shown.acceptance ?? value.shown.tolerance;
    const anchor = step ? `#${stepAnchor(stepLabel(step))}` : '';
    const quantity = value.quantity === undefined ? '' : quantityWords(value.quantity);
    const also = `${quantity} ${voice.plain(value.instrument?.label)}`;
    const shown = limits === undefined ? '' : voice.number(limits);
    return { line: ['v', procedure, voice.plain(value.label), anchor, shown] as const, also };
  });
}

function needLines({ variant }: Version, procedure: number, voice: Voice): readonly SearchLine[] {
  return variant.procedure.requires.map(({ words, shownBy }, i) => ({
    line: ['n', procedure, voice.plain(words), `#first-${i + 1}`, voice.plain(shownBy)] as const,
    also: '',
  }));
}

function stepsOf(procedure: ResolvedProcedure, place: number, voice: Voice): readonly SearchLine[] {
  return procedure.steps.flatMap((step) => {
    const text = voice.plain(step.do ?? step.ask ?? step.run?.title);
    return text === '' ? [] : [{ line: lineOfStep(step, place, text), also: voice.plain(step.expect) }];
  });
}

function lineOfStep(step: ResolvedStep, procedure: number, text: string): Line {
  const label = stepLabel(step);
  return ['p', procedure, text, `#${stepAnchor(label)}`, label];
}

/**
 * The lines of every version of an entry. Where there are several, a line that all of them have stands once and leads to
 * the choice; any other leads to its version and says which that is.
 */
function byVersion(
  home: Home,
  entry: Entry,
  voice: Voice,
  linesOf: (version: Version) => readonly SearchLine[],
): readonly SearchLine[] {
  const { versions } = entry;
  if (versions.length === 1) return linesOf(versions[0]);
  const all = versions.map((version) => ({ version, lines: linesOf(version) }));
  const key = ({ line: [kind, , text, , extra] }: SearchLine): string => JSON.stringify([kind, text, extra]);
  const counts = new Map<string, number>();
  for (const { lines } of all) for (const one of new Set(lines.map(key))) counts.set(one, (counts.get(one) ?? 0) + 1);
  const done = new Set<string>();
  return all.flatMap(({ version, lines }) =>
    lines.flatMap((one): readonly SearchLine[] => {
      const [kind, procedure, text, anchor, extra] = one.line;
      const shared = counts.get(key(one)) === versions.length;
      if (shared && done.has(key(one))) return [];
      done.add(key(one));
      if (shared) return [{ ...one, line: [kind, procedure, text, '', extra] }];
      const which = version.rigs.map((rig) => describeRig(rig, home.machine, voice)).join(`; ${voice.text('or')} `);
      const folder = version.folder.slice(entry.folder.length);
      return [{ ...one, line: [kind, procedure, `${text} (${which})`, folder + anchor, extra] }];
    }),
  );
}

/** The word above a hit, by kind. */
export function kindWords(voice: Voice): Readonly<Record<LineKind, string>> {
  return {
    t: voice.text('kind-title'),
    s: voice.text('kind-symptom'),
    v: voice.text('kind-value'),
    n: voice.text('kind-need'),
    p: voice.text('kind-step', { label: '{label}' }),
  };
}
