// Checks every name of a book against what the book declares. Asks nothing of rigs: whether a rig has what is named comes later.

import type { Book } from '../../model/book.js';
import type { Keep } from '../../text/keep.js';
import type { Fault } from '../faults.js';
import type { Vocabulary } from '../vocabulary.js';
import type { Checker } from './checker.js';
import { checkCircles } from './circles.js';
import { checkProcedure } from './procedures.js';
import { checkShared } from './shared.js';

/**
 * Every name that names nothing, and every circle of names. `vocabulary` is the same object as before only where the shared
 * files, those of customers' units apart, are the same as before.
 */
export function checkNamesOf(book: Book, vocabulary: Vocabulary, keep: Keep): readonly Fault[] {
  const { figures, unread, fleet } = book;
  const around = [vocabulary, figures, unread, [...book.procedures.keys()].sort().join(' ')];
  const gather = (check: (checker: Checker) => void): readonly Fault[] => {
    const faults: Fault[] = [];
    check({ book, vocabulary, report: (fault) => faults.push(fault) });
    return faults;
  };
  return [
    ...keep('shared names', [...around, fleet], () => gather(checkShared)),
    ...[...book.procedures.values()].flatMap((procedure) =>
      keep(`names ${procedure.id}`, [...around, procedure], () =>
        gather((checker) => checkProcedure(checker, procedure)),
      ),
    ),
    ...gather(({ report }) => checkCircles(book, report)),
  ];
}
