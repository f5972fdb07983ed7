// Faults of readings, those with one cause together: a step that moves three values is one slip.

import type { Violation, ViolationKind } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import type { Context, Finding, Proof } from '../rule.js';
import { grouped, violationsOf } from './violation.js';
import { code, listed, stepIdAt } from './words.js';

/** A fault that several values have in common. */
export interface ReadingFault {
  readonly violation: Violation;
  /** In the order in which the book has them. */
  readonly values: readonly string[];
}

/** The violations of one kind, those of one cause as one: shown where the values were lost. */
export function* readingFaultsOf(kind: ViolationKind, proof: Proof, context: Context): Iterable<Finding<ReadingFault>> {
  const found = [...violationsOf(kind, proof, context)].map((each) => ({ ...each, at: causeOf(each, context) }));
  for (const group of grouped(found, ({ at }) => `${at.file} ${at.start} ${at.end}`)) {
    const [first] = group;
    if (first) yield { ...first, data: { violation: first.data, values: namesOf(group, proof) } };
  }
}

// The branch that a failing reading took, or the step that moved the value; the step that reads where nothing was lost.
function causeOf({ data, at }: Finding<Violation>, { book }: Context): Span {
  const lost = data.missing[0]?.lost;
  const entry = lost?.kind === 'step' ? data.trace[lost.entry] : undefined;
  if (!entry || lost?.kind !== 'step') return at;
  return (lost.how === 'reading' ? entry.taken?.at : undefined) ?? stepIdAt(entry.place, book);
}

function namesOf(group: readonly Finding<Violation>[], { variant }: Proof): readonly string[] {
  const { values, worksheets } = variant.procedure;
  const order = [...values, ...worksheets].map(({ id }) => id);
  const names = new Set(group.map(({ data }) => data.value ?? ''));
  return [...names].sort((a, b) => order.indexOf(a) - order.indexOf(b));
}

/** `` `raised` and `travel` ``. */
export function valueNames(values: readonly string[]): string {
  return listed(values.map(code), 'and');
}
