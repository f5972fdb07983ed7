// One fault, one diagnostic: what only follows from another fault, or says it again, is joined to that. No error is ever hushed
// by anything less than an error.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { joinIds } from './ids.js';
import { joinOtherRigs } from './other-rigs.js';
import { joinCalls, withoutTranslated } from './repeats.js';
import { joinSides } from './sides.js';
import { withoutRepeated } from './steps.js';
import { joinTwice } from './twice.js';
import { showTyped } from './typed-numbers.js';
import { joinUnknown } from './unknown-states.js';
import { joinUnlike } from './unlike.js';
import { joinValues, rigsIn } from './values.js';
import { joinWords } from './words.js';
import { joinWrittenOut } from './written-out.js';

/** The diagnostics of a whole check, without those that follow from others among them, with the places of their numbers. */
export function joinCauses(diagnostics: readonly Diagnostic[], resolved: ResolvedBook): readonly Diagnostic[] {
  const { book } = resolved;
  const unlike = joinUnlike(diagnostics, book);
  const sides = joinSides(withoutTranslated(joinWrittenOut(unlike, book), book), book);
  const rigsOf = rigsIn(resolved);
  const orders = joinOtherRigs(joinCalls(joinUnknown(withoutRepeated(sides, book), book), book), rigsOf);
  const values = joinValues(joinTwice(orders, book), resolved);
  return showTyped(joinWords(joinIds(values, book), book), book, rigsOf);
}
