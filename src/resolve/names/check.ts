// Checks every name of a book against what the book declares. Asks nothing of rigs: whether a rig has what is named comes later.

import type { Book } from '../../model/book.js';
import type { Fault } from '../faults.js';
import type { Vocabulary } from '../vocabulary.js';
import { checkCircles } from './circles.js';
import { checkProcedure } from './procedures.js';
import { checkShared } from './shared.js';

/** Every name that names nothing, and every circle of names. */
export function checkNamesOf(book: Book, vocabulary: Vocabulary): readonly Fault[] {
  const faults: Fault[] = [];
  const checker = { book, vocabulary, report: (fault: Fault) => faults.push(fault) };
  checkShared(checker);
  for (const procedure of book.procedures.values()) checkProcedure(checker, procedure);
  checkCircles(book, checker.report);
  return faults;
}
