// What the rules on order share: one kind of violation each, found by the proof and put into words by the rule.

import type { Book } from '../../model/book.js';
import type { Violation, ViolationKind } from '../../order/result.js';
import type { Span } from '../../text/source.js';
import type { Context, Finding, Proof, Said } from '../rule.js';
import { lossWords, pathOf, repairWords, stepIdAt } from './words.js';

/** The violations of one kind, each with its path. */
export function* violationsOf(kind: ViolationKind, { result }: Proof, { book }: Context): Iterable<Finding<Violation>> {
  for (const violation of result.violations) {
    if (violation.kind !== kind) continue;
    const rule = violation.rule ? [{ message: `the rule \`${violation.rule.id}\``, at: violation.rule.at }] : [];
    yield { at: pointOf(violation, book), related: [...pathOf(violation.trace, book), ...rule], data: violation };
  }
}

/** What to point at; a whole step is pointed at by where it puts the person, else by its id. */
function pointOf({ at, place }: Violation, book: Book): Span {
  if (!place || at.file !== place.at.file || at.start !== place.at.start || at.end !== place.at.end) return at;
  const step = book.procedures.get(place.procedure)?.steps.find(({ id }) => id.value === place.step);
  return step?.place?.at ?? stepIdAt(place, book);
}

/** A violation's words: the fact, then the proved repair or else `help`, then what took the fact away, and `note`. */
export function sayOf(violation: Violation, words: { message: string; help: string; note?: string }): Said {
  const note = [lossWords(violation), words.note].filter((part) => part !== undefined).join(' ');
  return {
    message: words.message,
    help: repairWords(violation.repair) ?? words.help,
    ...(note === '' ? {} : { note }),
  };
}
