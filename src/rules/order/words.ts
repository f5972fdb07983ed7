// Facts of the order proof in words: steps, states, what is missing and what took it away.

import type { Book } from '../../model/book.js';
import type { End } from '../../model/resolved.js';
import type { MissingFact, StateSet, StepPlace, TraceEntry, Violation } from '../../order/result.js';
import type { Span } from '../../text/source.js';

/** The id of a step in its own file: a short place to point at. */
export function stepIdAt(place: StepPlace, book: Book): Span {
  const step = book.procedures.get(place.procedure)?.steps.find(({ id }) => id.value === place.step);
  return step?.id.at ?? place.at;
}

/** `` step 4.2 `wait` ``. */
export function stepName({ number, step, end }: StepPlace): string {
  return `step ${number} \`${step}\`${end === undefined ? '' : ` of what \`${end}\` runs`}`;
}

/** The step that a violation shows at. */
export function where({ place }: Violation): string {
  return place ? stepName(place) : 'the start';
}

/** `` `done`, after step 4 `park` ``: the end that a violation shows at. */
export function endWords(violation: Violation): string {
  const last = violation.trace.findLast(({ place }) => place.end === undefined)?.place ?? violation.place;
  return `\`${violation.end ?? 'done'}\`${last ? `, after ${stepName(last)}` : ''}`;
}

/** The end whose procedure is run, for faults of a call that an end makes. */
export function calledEnd({ callee, trace }: Violation): End | undefined {
  const go = callee === undefined ? undefined : trace.at(-1)?.taken?.go;
  return go === 'stop' || go === 'call-service' ? go : undefined;
}

/** `` Step 4 `safe` runs `shut-down` ``, or the end that runs it. */
export function calledWords(violation: Violation): string {
  const end = calledEnd(violation);
  const callee = code(violation.callee ?? '');
  if (end !== undefined) return `After ${where(violation)}, ${code(end)} runs ${callee}`;
  return `${capital(where(violation))} runs ${callee}`;
}

/** `` `engine: low-idle or off` ``. */
export function stateWords({ state, person, values }: StateSet): string {
  if (isAnything(values)) return `${stateName({ state, person })} unknown`;
  return `${code(`${state}: ${values.join(' or ')}`)}${ofPerson(person)}`;
}

/** `` `engine` is `off` ``, or may be several. */
export function isSo(states: readonly StateSet[]): string {
  return listed(
    states.map(({ values, ...state }) => `${stateName(state)} ${isOrMayBe(values)} ${valueWords(values)}`),
    'and',
  );
}

function isOrMayBe(values: readonly string[]): string {
  return values.length === 1 && !isAnything(values) ? 'is' : 'may be';
}

/** `` `engine` ``, or `person 2` where there are several. */
export function stateName({ state, person }: { readonly state: string; readonly person?: number | undefined }): string {
  return state === 'person' && person !== undefined ? `person ${person}` : code(state);
}

function ofPerson(person: number | undefined): string {
  return person === undefined ? '' : ` of person ${person}`;
}

/** `` `engine` is `low-idle` and must be `off`; `key` may be … `` for each fact that is missing. */
export function missingWords(missing: readonly MissingFact[]): string {
  return missing.map((fact) => `${isWords(fact)} and must be ${wantedWords(fact)}`).join('; ');
}

/** `` `engine` may be `low-idle` or `off` ``, of values that will not do. */
function isWords(fact: MissingFact): string {
  const others = fact.values.filter((value) => !fact.wanted.includes(value));
  if (others.length === 0) return `${stateName(fact)} is not known`;
  return `${stateName(fact)} ${isOrMayBe(fact.values)} ${valueWords(others)}`;
}

/** `` `off` or `low-idle` ``: what would do. */
export function wantedWords({ wanted }: MissingFact): string {
  return valueWords(wanted);
}

/** `` `raised` or `on-stop` ``; stretches of a quantity stand without backticks. */
export function valueWords(values: readonly string[]): string {
  return listed(
    values.map((value) => (value.includes(' ') || isAnything([value]) ? value : code(value))),
    'or',
  );
}

function isAnything(values: readonly string[]): boolean {
  return values.length === 1 && values[0] === 'anything';
}

/** A name as it is written in a book. */
export function code(text: string): string {
  return `\`${text}\``;
}

/** `a, b and c`. */
export function listed(parts: readonly string[], word: 'and' | 'or'): string {
  if (parts.length <= 1) return parts[0] ?? '';
  return `${parts.slice(0, -1).join(', ')} ${word} ${parts.at(-1)}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The places of a person for which the rule holds, where it is about a person; nothing where it is not. */
export function triggerPlaces({ rule }: Violation): string | undefined {
  const test = rule?.when.find(({ state }) => state === 'person')?.test;
  return test?.kind === 'words' ? valueWords(test.words) : undefined;
}

/** When the broken rule holds, and where it comes from. */
export function ruleWords({ rule, triggeredBy }: Violation): string {
  const when = triggeredBy.length > 0 ? `while ${isSo(triggeredBy)}` : 'always';
  const origin = Object.values(rule?.origin ?? {})[0];
  return `The rule holds ${when}${origin === undefined ? '' : ` (${origin})`}.`;
}

/** Why facts are missing: nothing says them, or the step that took them away. */
export function lossWords({ missing, reading, trace }: Violation): string | undefined {
  if (reading === 'absent') return undefined;
  if (reading !== undefined) return sentences(missing.map((fact) => lossOf(fact, trace)));
  const fromStart = missing.filter(({ lost }) => lost.kind === 'start');
  const unsaid = fromStart.filter(({ values }) => values.length !== 1 || isAnything(values)).map(stateName);
  const said = fromStart.filter(({ values }) => values.length === 1 && !isAnything(values));
  return sentences([
    unsaid.length > 0
      ? `Nothing before says what ${listed(unsaid, 'and')} ${unsaid.length > 1 ? 'are' : 'is'}, and unknown is never safe`
      : undefined,
    said.length > 0 ? `From the start ${isSo(said)}` : undefined,
    ...missing.map((fact) => lossOf(fact, trace)),
  ]);
}

function sentences(parts: readonly (string | undefined)[]): string | undefined {
  const said = [...new Set(parts.filter((part) => part !== undefined))];
  return said.length > 0 ? `${said.join('. ')}.` : undefined;
}

function lossOf(fact: MissingFact, trace: readonly TraceEntry[]): string | undefined {
  const { lost } = fact;
  const entry = lost.kind === 'step' ? trace[lost.entry] : undefined;
  if (lost.kind === 'start' || !entry) return undefined;
  const by = stepName(entry.place);
  const name = stateName(fact);
  const then = (sets: readonly StateSet[]): string => {
    const found = sets.find(({ state, person }) => state === fact.state && person === fact.person);
    return isSo([found ?? { ...fact, values: ['anything'] }]);
  };
  const words: Record<typeof lost.how, string> = {
    sets: `after ${by}, ${then(entry.sets)}`,
    physics: `after ${by}, ${then(entry.physics)}, by \`physics\``,
    failed: `when ${by} fails, ${then(entry.means)}`,
    means: `at ${by}, it is seen that ${then(entry.means)}`,
    moved: `${by} brings the person to ${valueWords(entry.stands)}`,
    adjust: `${by} turns what moves ${name}`,
    stale: `after ${by}, the reading of ${name} no longer counts`,
    reading: `${by} reads ${name}`,
  };
  return capital(words[lost.how]);
}
