// What can be found on a home: titles, symptoms, check values with their limits, conditions, steps. One line is one hit.

import type { ResolvedProcedure, ResolvedStep, World } from '../../model/resolved.js';
import { describeRig } from '../pages/rig-words.js';
import type { Entry, Home, Version } from '../pages/site-map.js';
import { plainCondition } from '../pages/states.js';
import { type Symptom, symptomsOf } from '../pages/symptoms.js';
import { stepAnchor } from '../pages/ways.js';
import { stepLabel } from '../step-label.js';
import type { Voice } from '../voice.js';
import { quantityWords } from '../words/quantities.js';
import type { Line, LineKind } from './index-shape.js';

/** Who tells the lines: in which language, of which states. */
export interface Teller {
  readonly voice: Voice;
  readonly world: World;
}

/** Titles, symptoms and check values of a home: what a phone fetches first. */
export function mainLines(home: Home, teller: Teller): readonly Line[] {
  const { voice } = teller;
  const seen = new Map<Entry, Symptom[]>(home.entries.map((entry) => [entry, []]));
  for (const symptom of symptomsOf(home)) {
    if (symptom.kind === 'seen' || (symptom.kind === 'reading' && symptom.cause))
      seen.get(symptom.entry)?.push(symptom);
  }
  return home.entries.flatMap((entry, i) => [
    ['t', i, voice.plain(entry.procedure.title), '', voice.plain(entry.procedure.summary), entry.id] as const,
    ...(seen.get(entry) ?? []).map((symptom) => symptomLine(symptom, i, teller)),
    ...byVersion(entry, { home, voice }, (version) => valueLines(version, i, voice)),
  ]);
}

/** Conditions and steps of a home: fetched once the first answers can be given. */
export function detailLines(home: Home, { voice }: Teller): readonly Line[] {
  return home.entries.flatMap((entry, i) => [
    ...byVersion(entry, { home, voice }, (version) => needLines(version, i, voice)),
    ...byVersion(entry, { home, voice }, (version) => stepLines(version.variant.procedure, i, voice)),
  ]);
}

function symptomLine(symptom: Symptom, procedure: number, { voice, world }: Teller): Line {
  const isReading = symptom.kind === 'reading';
  // of a reading that fails the value has a line of its own: here it is what that means
  const sign = voice.plain(isReading ? symptom.cause : symptom.sign);
  const text = symptom.not ? voice.text('symptom-not-seen', { expect: sign }) : sign;
  const cause = symptom.condition
    ? `${voice.text('symptom-first')} ${plainCondition(symptom.condition, world, voice)}. ${voice.plain(symptom.look)}`
    : voice.plain(isReading ? symptom.sign : symptom.cause);
  const own = symptom.versions.length < symptom.entry.versions.length ? symptom.version.folder : symptom.entry.folder;
  const anchor = own.slice(symptom.entry.folder.length) + (symptom.anchor === '' ? '' : `#${symptom.anchor}`);
  return ['s', procedure, text, anchor, cause.trim()];
}

function valueLines({ variant }: Version, procedure: number, voice: Voice): readonly Line[] {
  const { steps, values } = variant.procedure;
  return values.map((value) => {
    const step = steps.find(({ measure }) => measure.includes(value.id));
    const limits = value.shown.acceptance ?? value.shown.tolerance;
    const anchor = step ? `#${stepAnchor(stepLabel(step))}` : '';
    const quantity = value.quantity === undefined ? '' : quantityWords(value.quantity);
    const shown = limits === undefined ? '' : voice.number(limits);
    const also = `${quantity} ${voice.plain(value.instrument?.label)}`;
    return ['v', procedure, voice.plain(value.label), anchor, shown, also.trim()];
  });
}

function needLines({ variant }: Version, procedure: number, voice: Voice): readonly Line[] {
  return variant.procedure.requires.map(({ words, shownBy }, i) => [
    'n',
    procedure,
    voice.plain(words),
    `#first-${i + 1}`,
    voice.plain(shownBy),
  ]);
}

function stepLines(procedure: ResolvedProcedure, place: number, voice: Voice): readonly Line[] {
  return procedure.steps.flatMap((step): readonly Line[] => {
    const text = voice.plain(step.do ?? step.ask ?? step.run?.title);
    const label = stepLabel(step);
    return text === '' ? [] : [['p', place, text, `#${stepAnchor(label)}`, label, alsoOf(step, voice)]];
  });
}

/** What else a step says: what is seen, what may be answered, and why it leads elsewhere. */
function alsoOf({ expect, answers, otherwise, when }: ResolvedStep, voice: Voice): string {
  const branches = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch)];
  return [expect, ...answers.map(({ label }) => label), ...branches.map((branch) => branch?.because)]
    .map((words) => voice.plain(words))
    .filter((words) => words !== '')
    .join(' ');
}

/**
 * The lines of every version of an entry. Where there are several, a line that all of them have stands once and leads to
 * the choice; any other leads to its version and says which that is.
 */
function byVersion(
  entry: Entry,
  { home, voice }: { readonly home: Home; readonly voice: Voice },
  linesOf: (version: Version) => readonly Line[],
): readonly Line[] {
  const { versions, procedure } = entry;
  // nothing of a withdrawn procedure leads anybody to its steps
  if (procedure.status === 'withdrawn') return [];
  if (versions.length === 1) return linesOf(versions[0]);
  const all = versions.map((version) => ({ version, lines: linesOf(version) }));
  const key = ([kind, , text, anchor, extra]: Line): string => JSON.stringify([kind, text, anchor, extra]);
  const counts = new Map<string, number>();
  for (const { lines } of all) for (const one of new Set(lines.map(key))) counts.set(one, (counts.get(one) ?? 0) + 1);
  const done = new Set<string>();
  return all.flatMap(({ version, lines }) =>
    lines.flatMap((line): readonly Line[] => {
      const [kind, place, text, anchor, extra, also = ''] = line;
      const shared = counts.get(key(line)) === versions.length;
      if (shared && done.has(key(line))) return [];
      done.add(key(line));
      // steps are numbered once over all rigs: the choice hands the place on
      if (shared) return [[kind, place, text, anchor, extra, also]];
      const which = version.rigs.map((rig) => describeRig(rig, home.machine, voice)).join(`; ${voice.text('or')} `);
      return [[kind, place, `${text} (${which})`, version.folder.slice(entry.folder.length) + anchor, extra, also]];
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
