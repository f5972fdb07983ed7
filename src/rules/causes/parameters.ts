// A parameter that is wrong offends wherever it is named. Where its own file says so, or several values say so for the one
// machine or header whose it is, that is one fault.

import { namesIn } from '../../calc/expression/names.js';
import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book, Header, Machine } from '../../model/book.js';
import type { CheckValue } from '../../model/procedure.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { leavesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { type RigsOf, withFollowers } from './followers.js';
import { ownersIn } from './owners.js';
import { namesAt } from './typed-numbers.js';

/** A parameter of one machine or header, by the name that expressions have for it. */
interface Held {
  readonly path: string;
  readonly holder: string;
  readonly at: Span;
}

/** Joins what is said of values that name one parameter to what is said of that parameter, or to the first of them. */
export function joinParameters(
  diagnostics: readonly Diagnostic[],
  { book }: ResolvedBook,
  rigsOf: RigsOf,
): readonly Diagnostic[] {
  const held = heldIn(book);
  const own = diagnostics.map((diagnostic) => ({ diagnostic, held: ownersOf(diagnostic, held, book) }));
  const first = new Map<Held, Diagnostic>();
  for (const { diagnostic, held: owners } of own) {
    if (diagnostic.severity === 'error') for (const one of owners) first.set(one, first.get(one) ?? diagnostic);
  }
  const followers = new Map<Diagnostic, Diagnostic[]>();
  const gone = new Set<Diagnostic>();
  for (const diagnostic of diagnostics) {
    if (diagnostic.severity === 'hint') continue;
    const named = namedBy(book, diagnostic, held).filter(({ holder }) => isOnly(rigsOf(diagnostic), holder));
    const cause = named.map((one) => first.get(one)).find((one) => one !== undefined);
    if (cause && cause !== diagnostic) {
      followers.set(cause, [...(followers.get(cause) ?? []), diagnostic]);
      gone.add(diagnostic);
    } else if (diagnostic.severity === 'error') for (const one of named) first.set(one, diagnostic);
  }
  for (const { diagnostic, held: owners } of own) {
    const wrong = diagnostic.code === 'value-unlike-siblings' && owners.map((one) => first.get(one)).find(Boolean);
    if (!wrong) continue;
    followers.set(wrong, [...(followers.get(wrong) ?? []), diagnostic]);
    gone.add(diagnostic);
  }
  for (const { diagnostic, held: owners } of own) {
    // a value that names it says which of them is the wrong one
    const said =
      diagnostic.code === 'parameter-of-other-quantity' && owners.map(({ path }) => mismatchOf(path)).find(Boolean);
    if (!said) continue;
    followers.set(said, [...(followers.get(said) ?? []), diagnostic]);
    gone.add(diagnostic);
  }
  return diagnostics.filter((one) => !gone.has(one)).map((one) => withFollowers(one, followers.get(one) ?? []));

  function mismatchOf(path: string): Diagnostic | undefined {
    const told = diagnostics.filter((one) => one.code === 'unit-mismatch' && !gone.has(one));
    return told.find((one) => namedBy(book, one, held).some((named) => named.path === path));
  }
}

function heldIn(book: Book): readonly Held[] {
  const of = (kind: string, holders: Iterable<Machine | Header>): readonly Held[] =>
    [...holders].flatMap(({ id: holder, parameters }) =>
      [...parameters.values()].map(({ id, at }) => ({ path: `${kind}.${id}`, holder, at })),
    );
  return [...of('machine', book.machines.values()), ...of('header', book.headers.values())];
}

/** The parameters that a fault in the file of a machine or header is about. */
function ownersOf({ at, code }: Diagnostic, held: readonly Held[], book: Book): readonly Held[] {
  const here = held.filter((one) => one.at.file === at.file);
  if (here.length === 0) return [];
  if (code !== 'numbers-disagree') return here.filter((one) => one.at.start <= at.start && at.end <= one.at.end);
  const holder = [...book.machines.values(), ...book.headers.values()].find(({ file }) => file === at.file);
  const names = holder?.agree.flatMap(({ that, equals, limits }) =>
    [that, equals, limits].flatMap((written) => (written ? namesIn(written.expr) : [])),
  );
  const paths = new Set(names?.map(({ path }) => path.slice(path.indexOf('.') + 1)));
  return here.filter(({ path }) => paths.has(path.slice(path.indexOf('.') + 1)));
}

/** The parameters that the value, or the number of a step, at a diagnostic's place names. */
function namedBy(book: Book, { at }: Diagnostic, held: readonly Held[]): readonly Held[] {
  const owner = ownersIn(book, at);
  const procedure = owner ? undefined : [...book.procedures.values()].find(({ file }) => file === at.file);
  const paths = new Set(owner?.values.flatMap(pathsIn) ?? (procedure ? namesAt(procedure, { at }) : []));
  return paths.size === 0 ? [] : held.filter(({ path }) => paths.has(path));
}

function pathsIn({ limits, nominal, inside, from }: CheckValue): readonly string[] {
  const written = [limits, nominal, inside].flatMap((choice) => (choice ? [...leavesOf(choice)] : []));
  const exprs = [...written.map(({ expr }) => expr), ...(from ? [from.expr] : [])];
  return exprs.flatMap((expr) => namesIn(expr).map(({ path }) => path));
}

/** Whether a fault is one of that machine or header alone. */
function isOnly(rigs: ReadonlySet<string>, holder: string): boolean {
  return (
    rigs.size > 0 &&
    [...rigs].every((rig) =>
      rig
        .split(/[+~@#]/)
        .slice(0, 2)
        .includes(holder),
    )
  );
}
