// A value that is worked out from one thing twice comes to nothing, or to one: what its limits are then told says it again.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { WrittenExpr } from '../../model/numbers.js';
import type { Span } from '../../text/source.js';
import { joinTo } from './followers.js';

/** What is said of limits that no reading can miss, or none can keep. */
const aboutReach: ReadonlySet<string> = new Set([
  'derived-limits-impossible',
  'derived-limits-never-fail',
  'worksheet-limits-impossible',
  'worksheet-limits-never-fail',
]);

/** Joins the two: to the expression where both warn, to what its limits are told where that is an error. */
export function joinTwice(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const twice = diagnostics.filter(({ code }) => code === 'argument-twice');
  if (twice.length === 0) return diagnostics;
  const derived = derivedIn(book);
  const ownerOf = ({ at }: Diagnostic): Derived | undefined => derived.find((one) => holds(one.at, at));
  const reached = diagnostics.filter(({ code }) => aboutReach.has(code));
  return joinTo(diagnostics, (diagnostic) => {
    const owner = ownerOf(diagnostic);
    if (!owner) return undefined;
    if (diagnostic.code === 'argument-twice')
      return reached.find((one) => one.severity === 'error' && ownerOf(one) === owner);
    const isIdle = aboutReach.has(diagnostic.code) && diagnostic.severity !== 'error';
    return isIdle ? twice.find((one) => ownerOf(one) === owner) : undefined;
  });
}

interface Derived {
  readonly from?: WrittenExpr;
  readonly at: Span;
}

/** Every value, column and result: each has its own expression and limits. */
function derivedIn({ procedures }: Book): readonly Derived[] {
  return [...procedures.values()].flatMap(({ values, worksheets }) => [
    ...values,
    ...worksheets.flatMap(({ columns, results }) => [...columns, ...results]),
  ]);
}

function holds(outer: Span, inner: Span): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}
