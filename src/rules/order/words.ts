// Facts of the order proof in words: states, what was wanted, who took it away, and the path as places in order.

import type { Book } from '../../model/book.js';
import type { MissingFact, Repair, StateSet, StepPlace, Taken, TraceEntry, Violation } from '../../order/result.js';
import type { Span } from '../../text/source.js';

/** The id of a step in its own file: a short place to point at. */
export function stepIdAt(place: StepPlace, book: Book): Span {
  const step = book.procedures.get(place.procedure)?.steps.find(({ id }) => id.value === place.step);
  return step?.id.at ?? place.at;
}

/** `step 4.2 `wait``. */
export function stepName(place: StepPlace): string {
  return `step ${place.number} \`${place.step}\``;
}

/** The step that a violation shows at. */
export function where({ place }: Violation): string {
  return place ? stepName(place) : 'the start';
}

/** `header: raised or on-ground`. */
export function stateWords({ state, person, values }: StateSet): string {
  const whose = person === undefined || person === 1 ? '' : ` of person ${person}`;
  return `\`${state}${whose}: ${values.join(' or ')}\``;
}

/** `` `engine` must be `off` and may be `low-idle` `` for each fact that is missing. */
export function missingWords(missing: readonly MissingFact[]): string {
  return listed(missing.map(missingFact), 'and');
}

function missingFact({ state, values, wanted }: MissingFact): string {
  const must = `\`${state}\` must be ${listed(wanted.map(code), 'or')}`;
  const others = values.filter((value) => !wanted.includes(value));
  if (others.length === 0) return `${must} and is not known`;
  const isOther = values.length === 1;
  return `${must} and ${isOther ? 'is' : 'may be'} ${listed(others.map(code), 'or')}`;
}

function code(text: string): string {
  return `\`${text}\``;
}

/** `a, b and c`. */
export function listed(parts: readonly string[], word: 'and' | 'or'): string {
  if (parts.length <= 1) return parts[0] ?? '';
  return `${parts.slice(0, -1).join(', ')} ${word} ${parts.at(-1)}`;
}

/** Why facts are missing: nothing says them, or the step that took them away. */
export function lossWords(violation: Violation): string | undefined {
  const fromStart = violation.missing.filter(({ lost }) => lost.kind === 'start');
  const [unsaid, said] = [true, false].map((isOpen) =>
    fromStart.filter(({ values }) => (values.length !== 1) === isOpen).map(({ state }) => code(state)),
  ) as [string[], string[]];
  const reasons = [
    unsaid.length > 0
      ? `Nothing before says what ${listed(unsaid, 'and')} ${unsaid.length > 1 ? 'are' : 'is'}, and unknown is never safe`
      : '',
    said.length > 0 ? `${listed(said, 'and')} ${said.length > 1 ? 'are' : 'is'} so from the start` : '',
    ...violation.missing.map((fact) => lossOf(fact, violation.trace) ?? ''),
  ].filter((reason) => reason !== '');
  return reasons.length > 0 ? `${[...new Set(reasons)].join('. ')}.` : undefined;
}

function lossOf({ state, lost }: MissingFact, trace: readonly TraceEntry[]): string | undefined {
  if (lost.kind === 'start') return undefined;
  const entry = trace[lost.entry];
  if (!entry) return undefined;
  const by = stepName(entry.place);
  const words: Record<typeof lost.how, string> = {
    sets: `${by} sets \`${state}\``,
    physics: `\`${state}\` follows from what ${by} does, by \`physics\``,
    failed: `${by} may have failed, and then \`${state}\` is unknown`,
    means: `${by} says what \`${state}\` then is`,
    moved: `${by} brings the person there`,
    adjust: `${by} turns what moves it`,
    stale: `${by} makes the reading stale`,
    reading: `${by} takes the reading`,
  };
  return capital(words[lost.how]);
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The path as related places, in its order. */
export function pathOf(trace: readonly TraceEntry[], book: Book): { message: string; at: Span }[] {
  return trace.map((entry) => ({ message: entryWords(entry), at: stepIdAt(entry.place, book) }));
}

function entryWords({ place, stands, moved, sets, means, physics, measured, adjusted, taken }: TraceEntry): string {
  const parts = [
    moved && stands.length > 0 ? `the person comes to \`${stands.join('` or `')}\`` : '',
    sets.length > 0 ? `sets ${sets.map(stateWords).join(', ')}` : '',
    measured.length > 0 ? `reads ${measured.map(code).join(', ')}` : '',
    adjusted.length > 0 ? `turns ${adjusted.map(code).join(', ')}` : '',
    means.length > 0 ? `seen: ${means.map(stateWords).join(', ')}` : '',
    physics.length > 0 ? `by physics ${physics.map(stateWords).join(', ')}` : '',
    takenWords(taken),
  ].filter((part) => part !== '');
  return `${stepName(place)}${parts.length > 0 ? `: ${parts.join('; ')}` : ''}`;
}

function takenWords(taken: Taken | undefined): string {
  if (!taken || taken.branch === 'next' || taken.branch === 'run' || taken.branch === 'returned') return '';
  const why: Record<Exclude<Taken['branch'], 'next' | 'run' | 'returned'>, string> = {
    then: 'then',
    otherwise: 'it failed',
    outside: 'the reading is outside',
    low: 'the reading is too low',
    high: 'the reading is too high',
    unsure: 'the reading is too close to call',
    fault: 'the reading is outside what can be',
    answer: `the answer is \`${taken.answer ?? ''}\``,
  };
  const used = taken.elses > 0 ? ', the count is used up' : '';
  return `${why[taken.branch]}${used}, on to \`${taken.go}\``;
}

/** A repair that was itself proved, as one sentence. */
export function repairWords(repair: Repair | undefined): string | undefined {
  if (!repair) return undefined;
  switch (repair.kind) {
    case 'insert-step': {
      const where = repair.place === undefined ? '' : `, at \`${repair.place}\``;
      const sets = repair.sets.length > 0 ? ` that sets ${repair.sets.map(stateWords).join(' and ')}` : '';
      return `Add a step${sets}${where} before ${stepName(repair.before)}: that was tried and holds.`;
    }
    case 'insert-run':
      return `Add \`run: ${repair.procedure}\` before ${stepName(repair.before)}: that was tried and holds.`;
    case 'move-step':
      return `Move ${stepName(repair.step)} before ${stepName(repair.before)}: that was tried and holds.`;
    case 'set-place':
      return `Give ${stepName(repair.step)} \`at: ${repair.place}\`: that was tried and holds.`;
    case 'measure':
      return `Add \`${repair.value}\` to what ${stepName(repair.step)} measures: that was tried and holds.`;
  }
}
