// Whose a place in a procedure is: the value or adjuster that it stands in, and the values that it depends on.

import { namesIn } from '../../calc/expression/names.js';
import type { Book } from '../../model/book.js';
import type { CheckValue, Procedure } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';

export interface ValueOwner {
  readonly procedure: Procedure;
  /** The values or adjusters of that place: several where it is repeated for each side. */
  readonly ids: readonly string[];
  /** The values that these are worked out from, or that they move. */
  readonly inputs: readonly string[];
  readonly values: readonly CheckValue[];
}

/** The values or adjusters that a place lies in; undefined elsewhere. */
export function ownersIn(book: Book, place: Span): ValueOwner | undefined {
  const procedure = [...book.procedures.values()].find(({ file }) => file === place.file);
  if (!procedure) return undefined;
  const isHere = ({ at, idAt }: { readonly at: Span; readonly idAt: Span }): boolean =>
    holds(at, place) || holds(idAt, place);
  const values = procedure.values.filter(isHere);
  const adjusters = procedure.adjusters.filter(isHere);
  const ids = [...values, ...adjusters, ...procedure.worksheets.filter(isHere)].map(({ id }) => id);
  if (ids.length === 0) return undefined;
  const moved = adjusters.flatMap(({ moves }) => moves.map(({ value }) => value.value));
  const direct = [...values.flatMap(inputsOf), ...moved];
  return { procedure, ids, inputs: [...new Set(direct.flatMap((id) => [id, ...inputsBehind(procedure, id)]))], values };
}

function holds(outer: Span, inner: Span): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}

function inputsOf({ from }: CheckValue): readonly string[] {
  return from ? namesIn(from.expr).map(({ path }) => path.replaceAll('-', '_')) : [];
}

function inputsBehind({ values }: Procedure, id: string): readonly string[] {
  return values.filter((value) => value.id === id).flatMap(inputsOf);
}
