// A step of a procedure as facts. Its number is none: it only follows from its place.

import type { Said, Weight } from '../model/comparison.js';
import type { PlainBranch, PlainCondition, PlainStep } from '../model/compiled-book.js';
import { addConditions, type BookSense, weightOf } from './condition-facts.js';
import { addOneOf, addPart, beginSubject, type FactParts, type Place, shown, wording } from './fact-sheet.js';
import { conditionsKey, list, names, plain, sayConditions, ui, words } from './said.js';
import { limitsParts, placeParts } from './value-facts.js';

/** What a step is read with: the book, and the numbers of the other steps. */
export interface StepSense extends BookSense {
  /** Step id to its number, as it is printed. */
  readonly numbers: ReadonlyMap<string, string>;
}

export function addStep(at: Place, step: PlainStep, sense: StepSense): void {
  const said = step.do ?? step.ask;
  const place = beginSubject(
    at,
    { kind: 'step', id: step.id, number: step.number },
    { weight: gravityOf(step, sense), said: said ? words(said) : sayRun(step, sense), numbers: numbersOf(step) },
  );
  for (const about of ['do', 'ask', 'card', 'note', 'expect'] as const) addPart(place, about, wording(step[about]));
  addFigure(place, step);
  for (const hazard of step.hazards ?? []) addOneOf(place, 'hazards', hazard, hazardParts(hazard, sense));
  addPart(place, 'skill', shown(ui(step.skill)));
  addPart(place, 'by', shown(plain(String(step.by))));
  addPart(place, 'at', step.at === undefined ? undefined : placeParts(step.at, sense));
  addConditions(place, 'needs', { conditions: step.needs ?? [], sense });
  addConditions(place, 'sets', { conditions: step.sets ?? [], sense });
  for (const about of ['measure', 'write', 'adjust', 'stale', 'mark'] as const) {
    addPart(place, about, shown(step[about] && names(step[about])));
  }
  addPart(place, 'photo', shown(step.photo === undefined ? undefined : ui(`photo-${step.photo}`)));
  addPart(place, 'hold', limitsParts(step.hold));
  addPart(place, 'wait', limitsParts(step.wait));
  addPart(place, 'run', step.run && { weight: 'technical', equal: step.run.id, said: sayRun(step, sense) });
  addEnergized(place, step);
  addBranches(place, step, sense);
}

function gravityOf(step: PlainStep, sense: BookSense): Weight {
  const touched = [...(step.needs ?? []), ...(step.sets ?? [])].map(({ state }) => state);
  const moves = step.at === undefined ? [] : ['person'];
  const isSafety =
    step.energized !== undefined ||
    (step.hazards ?? []).length > 0 ||
    [...touched, ...moves].some((state) => weightOf(state, sense) === 'safety');
  return isSafety ? 'safety' : 'technical';
}

function sayRun({ run }: PlainStep, { titles }: BookSense): Said {
  return run ? ui('run', { title: titles.get(run.id) ?? words(run.title) }) : plain('');
}

function numbersOf({ hold, wait }: PlainStep): readonly string[] {
  return [hold, wait].flatMap((limits) => limits?.shown ?? []);
}

/** A hazard that is named. */
export function hazardParts(id: string, { hazards }: BookSense): FactParts {
  const what = hazards.get(id)?.texts[0]?.what;
  return { weight: 'safety', equal: id, said: what ? words(what) : plain(id) };
}

function addFigure(place: Place, { figure }: PlainStep): void {
  if (!figure) return;
  addPart(place, 'figure', shown(plain(figure.file)));
  addPart(place, 'figure-words', wording(figure.alt));
}

function addEnergized(place: Place, { energized }: PlainStep): void {
  if (!energized) return;
  addPart(place, 'energized', { weight: 'safety', equal: '', said: words(energized.why) });
  const own: Place = { ...place, key: `${place.key}/energized` };
  addPart(own, 'energized-why', wording(energized.why, 'safety'));
  addPart(own, 'keep-away', wording(energized.keepAway, 'safety'));
  addPart(own, 'second-person', wording(energized.secondPerson, 'safety'));
}

function addBranches(place: Place, step: PlainStep, sense: StepSense): void {
  if (step.otherwise) addBranch(place, 'otherwise', { branch: step.otherwise, sense });
  for (const [outcome, branch] of Object.entries(step.when ?? {})) {
    if (branch) addBranch(place, `when-${outcome}`, { branch, sense });
  }
  for (const { key, label, ...branch } of step.answers ?? []) {
    addOneOf(place, 'answer', key, { weight: 'technical', equal: '', said: words(label) });
    const own: Place = { ...place, key: `${place.key}/answer/${key}` };
    addPart(own, 'answer-words', wording(label));
    addBranch(own, 'answer-leads', { branch, sense });
  }
  if (step.then) addBranch(place, 'then', { branch: step.then, sense });
}

function addBranch(
  place: Place,
  about: string,
  { branch, sense }: { readonly branch: PlainBranch; readonly sense: StepSense },
): void {
  addPart(place, about, { weight: 'technical', equal: branchKey(branch), said: sayBranch(branch, sense) });
  const own: Place = { ...place, key: `${place.key}/${about}` };
  addPart(own, 'because', wording(becauseOf(branch)));
  addMeans(own, branch.means ?? [], sense);
}

// what is seen when a branch is taken: a state that safety rules look at weighs more than the way itself
function addMeans(place: Place, means: readonly PlainCondition[], sense: BookSense): void {
  if (means.length > 0) addConditions(place, 'means', { conditions: means, sense });
}

function becauseOf({ because, else: other }: PlainBranch): PlainBranch['because'] {
  return because ?? (other && becauseOf(other));
}

/** Where a branch leads, how often, and where then. */
function branchKey({ go, atMost, else: other }: PlainBranch): string {
  const then = other ? ` else ${branchKey(other)} ${conditionsKey(other.means ?? [])}` : '';
  return `${go} ${atMost ?? ''}${then}`;
}

function sayBranch(branch: PlainBranch, sense: StepSense): Said {
  const { go, atMost, else: other } = branch;
  const number = sense.numbers.get(go);
  const goal = number === undefined ? ui(`end-${go}`) : ui('to-step', { number: plain(number) });
  return list([
    goal,
    ...(atMost === undefined ? [] : [ui('at-most', { count: plain(String(atMost)) })]),
    ...(other ? [ui('else', { goal: sayBranch(other, sense) })] : []),
    ...(other?.means && other.means.length > 0 ? [sayConditions(other.means, sense.states)] : []),
  ]);
}
