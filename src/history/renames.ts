// Ids that were renamed: one that is gone and one that is new, and both say the same. The old book is given the new names
// before it is compared, so that a renamed part is no dropped and no added one.

import type { Subject } from '../model/comparison.js';
import type { CompiledBook, PlainProcedure } from '../model/compiled-book.js';
import { type NameKind, renamed } from './rename.js';

export interface Rename {
  readonly kind: NameKind;
  readonly before: string;
  readonly after: string;
  /** The procedure that it is a part of; the machine of an option. */
  readonly within?: string;
  readonly number?: string;
}

export interface Renamed {
  /** The old book with the names of the new one. */
  readonly before: CompiledBook;
  readonly renames: readonly Rename[];
}

/** Parts that have an id and say nothing of themselves elsewhere, in the order in which others speak of them. */
const shared: readonly (readonly [NameKind, (book: CompiledBook) => readonly { readonly id: string }[]])[] = [
  ['state', ({ states }) => states],
  ['hazard', ({ hazards }) => hazards],
  ['event', ({ events }) => events],
  ['tool', ({ tools }) => tools],
  ['bundle', ({ conditions }) => conditions],
  ['rule', ({ rules }) => rules],
  ['instrument', ({ instruments }) => instruments],
  ['header', ({ headers }) => headers],
];

/** Gives the old book the names of the new one, kind by kind. */
export function findRenames(old: CompiledBook, now: CompiledBook): Renamed {
  let before = old;
  const renames: Rename[] = [];
  const take = (found: readonly Rename[]): void => {
    for (const rename of found) before = renamed(before, rename);
    renames.push(...found);
  };
  for (const [kind, partsOf] of shared) take(matches(kind, contentsOf(partsOf(before)), contentsOf(partsOf(now))));
  for (const machine of now.machines) {
    const was = before.machines.find(({ id }) => id === machine.id);
    const options = matches('option', contentsOf(was?.options ?? []), contentsOf(machine.options));
    take(options.map((rename) => ({ ...rename, within: machine.id })));
  }
  take(matches('machine', contentsOf(before.machines), contentsOf(now.machines)));
  take(partRenames(before, now));
  take(matches('procedure', procedureContents(before), procedureContents(now)));
  return { before, renames };
}

/** By id, how to write down what a part says: that is asked of few. */
type Contents = ReadonlyMap<string, () => string>;

function contentsOf(parts: readonly { readonly id: string }[]): Contents {
  return new Map(parts.map(({ id, ...content }) => [id, () => JSON.stringify(content)]));
}

/** Ids of the one side alone whose content an id of the other side alone has; only where each can be but one. */
function matches(kind: NameKind, old: Contents, now: Contents): readonly Rename[] {
  const alone = (own: Contents, other: Contents): readonly (readonly [string, () => string])[] =>
    [...own].filter(([id]) => !other.has(id));
  const [lost, found] = [alone(old, now), alone(now, old)];
  if (lost.length === 0 || found.length === 0) return [];
  const [gone, fresh] = [lost, found].map((parts) => parts.map(([id, write]) => [id, write()] as const));
  if (!gone || !fresh) return [];
  return gone.flatMap(([before, content]) => {
    const same = fresh.filter(([, other]) => other === content);
    const [only] = same;
    if (!only || same.length > 1 || gone.filter(([, other]) => other === content).length > 1) return [];
    return [{ kind, before, after: only[0] }];
  });
}

/** Values, adjusters, worksheets and steps within the procedures of both books. */
function partRenames(old: CompiledBook, now: CompiledBook): readonly Rename[] {
  const ids = new Set(now.variants.map(({ procedure }) => procedure.id));
  return [...ids].flatMap((within) => {
    let before = versionsOf(old, within);
    const after = versionsOf(now, within);
    const kinds = ['value', 'adjuster', 'worksheet', 'step'] as const;
    return kinds.flatMap((kind) => {
      const found = matches(kind, partContents(before, after, kind), partContents(after, before, kind));
      const own = found.map((rename) => ({ ...rename, within, ...numberOf(rename, after) }));
      before = before.map((procedure) => own.reduce((done, rename) => renamed(done, rename), procedure));
      return own;
    });
  });
}

function numberOf({ kind, after }: Rename, versions: readonly PlainProcedure[]): Pick<Rename, 'number'> {
  const step = kind === 'step' && versions.flatMap(({ steps }) => steps).find(({ id }) => id === after);
  return step ? { number: step.number } : {};
}

function versionsOf({ variants }: CompiledBook, id: string): readonly PlainProcedure[] {
  return variants.flatMap(({ procedure }) => (procedure.id === id ? [procedure] : []));
}

/** What parts of one kind say over all versions; of a step not its number, and not which steps only one side has. */
function partContents(
  versions: readonly PlainProcedure[],
  others: readonly PlainProcedure[],
  kind: 'value' | 'adjuster' | 'worksheet' | 'step',
): Contents {
  const steps = new Set(others.flatMap((procedure) => procedure.steps.map(({ id }) => id)));
  const own = new Set(versions.flatMap((procedure) => procedure.steps.map(({ id }) => id)));
  const write = (part: object): string =>
    JSON.stringify(part, (key, value: unknown) => {
      if (key === 'id' || key === 'number') return undefined;
      return key === 'go' && typeof value === 'string' && own.has(value) && !steps.has(value) ? '' : value;
    });
  const parts = new Map<string, object[]>();
  for (const procedure of versions) {
    for (const part of procedure[`${kind}s`]) parts.set(part.id, [...(parts.get(part.id) ?? []), part]);
  }
  return new Map([...parts].map(([id, all]) => [id, () => [...new Set(all.map(write))].sort().join('\n')]));
}

// a review, a trial and a new revision are what a renamed file comes with
function procedureContents(book: CompiledBook): Contents {
  const versions = new Map<string, CompiledBook['variants'][number][]>();
  for (const variant of book.variants) {
    const { id } = variant.procedure;
    versions.set(id, [...(versions.get(id) ?? []), variant]);
  }
  const write = ({ applies, procedure }: CompiledBook['variants'][number]): string => {
    const { id: _, revision: _revision, reviewed: _reviewed, verified: _verified, ...content } = procedure;
    return JSON.stringify([applies, content]);
  };
  return new Map([...versions].map(([id, all]) => [id, () => all.map(write).sort().join('\n')]));
}

/** The part that a rename is of. */
export function renamedSubject({ kind, after, within, number }: Rename): Subject {
  const of = kind === 'option' && within !== undefined ? { of: { kind: 'machine' as const, id: within } } : {};
  return { kind, id: after, ...(number !== undefined && { number }), ...of };
}
