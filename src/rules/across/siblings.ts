// The same number in several places of a book: a parameter of every machine or header, the entries of one choice.
// Only numbers that are written out count; what is worked out from others follows them.

import { type Dimension, sameDimension } from '../../calc/dimension.js';
import { dimensionOfLimits } from '../../calc/expression/dimensions.js';
import { namesIn } from '../../calc/expression/names.js';
import type { Limits } from '../../calc/limits.js';
import { resolveLimits } from '../../calc/resolve-limits.js';
import type { Book } from '../../model/book.js';
import type { NumberChoice, WrittenLimits } from '../../model/numbers.js';
import type { Procedure } from '../../model/procedure.js';
import type { Choice } from '../../model/text.js';
import { remembering } from '../../text/remember.js';
import type { Span } from '../../text/source.js';

/** One of several numbers that are called the same. */
export interface Sibling {
  /** Whose it is: a machine, a header, the keys of an entry. */
  readonly of: string;
  /** The machine or header, or the entry of the outermost choice: what lies within one of these is no second opinion. */
  readonly under: string;
  readonly limits: Limits;
  /** As written. */
  readonly text: string;
  readonly at: Span;
}

/** Numbers that are called the same. */
export interface Family {
  /** The parameter or the value. */
  readonly id: string;
  /** `machines`, `headers` or `entries` of a choice. */
  readonly among: 'machines' | 'headers' | 'entries';
  readonly members: readonly Sibling[];
}

/** Each parameter that two or more machines, or two or more headers, have. */
export function parameterFamilies(book: Book): readonly Family[] {
  return (['machines', 'headers'] as const).flatMap((among) => {
    const holders = [...book[among].values()];
    const ids = new Set(holders.flatMap(({ parameters }) => [...parameters.keys()]));
    const families = [...ids].map((id): Family => {
      const members = holders.flatMap((holder) => siblingsIn(holder.parameters.get(id)?.value, holder.id));
      return { id, among, members };
    });
    return families.filter(({ members }) => new Set(members.map(({ of }) => of)).size > 1);
  });
}

/** The limits of each value of a procedure that has a choice of them: all of its entries, and those of each choice within. */
export function valueFamilies(procedure: Procedure): readonly Family[] {
  return procedure.values.flatMap(({ id, limits }) =>
    (limits ? choicesIn(limits, []) : []).map((members) => ({ id, among: 'entries' as const, members })),
  );
}

function choicesIn(choice: Choice<WrittenLimits>, keys: readonly string[]): readonly (readonly Sibling[])[] {
  if (choice.kind === 'one') return [];
  const own = choice.entries.flatMap(({ key, value }) =>
    keyed(value, [...keys, key.value]).map((member) => ({ ...member, under: key.value })),
  );
  return [own, ...choice.entries.flatMap(({ key, value }) => choicesIn(value, [...keys, key.value]))];
}

function siblingsIn(choice: NumberChoice | undefined, of: string): readonly Sibling[] {
  return choice ? keyed(choice, []).map((member) => ({ ...member, of, under: of })) : [];
}

function keyed(choice: Choice<WrittenLimits>, keys: readonly string[]): readonly Sibling[] {
  if (choice.kind === 'choice') return choice.entries.flatMap(({ key, value }) => keyed(value, [...keys, key.value]));
  const limits = plainLimits(choice.value);
  const { source } = choice.value;
  const of = keys.join(' ');
  return limits ? [{ of, under: of, limits, text: source.value.trim(), at: source.at }] : [];
}

/** What limits without names come to; undefined where they name something, or are wrong in themselves. */
export function plainLimits(written: WrittenLimits): Limits | undefined {
  return remember(written, [], () => workOut(written));
}

const remember = remembering<Limits | undefined>();

function workOut({ expr }: WrittenLimits): Limits | undefined {
  if (namesIn(expr).length > 0 || !dimensionOfLimits(expr, () => undefined).ok) return undefined;
  const found = resolveLimits(expr, () => undefined);
  return found.ok ? found.value : undefined;
}

/** Siblings by what they measure, the largest group first; of groups alike the one whose first member comes last. */
export function byDimension(members: readonly Sibling[]): readonly (readonly Sibling[])[] {
  const groups: { readonly dimension: Dimension; readonly members: Sibling[] }[] = [];
  for (const member of members) {
    const { dimension } = member.limits.unit;
    const group = groups.find((one) => sameDimension(one.dimension, dimension));
    if (group) group.members.push(member);
    else groups.push({ dimension, members: [member] });
  }
  return groups
    .reverse()
    .sort((a, b) => b.members.length - a.members.length)
    .map((group) => group.members);
}
