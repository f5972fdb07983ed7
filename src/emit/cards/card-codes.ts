// The codes that stand on cards, and those of cards that a book prints no more because their procedure is withdrawn.

import type { UnprintedCard } from '../../model/history.js';
import type { ResolvedBook, Variant } from '../../model/resolved.js';
import { shortCodes } from '../short-code.js';

/** A variant on one machine: what one card is of. */
interface Pair {
  readonly variant: Variant;
  readonly machine: string;
}

/** With its codes: the first is printed, the others lead to it as well. */
export interface CodedPair extends Pair {
  readonly codes: readonly string[];
}

/** Of what the book prints, and of what it printed before it was withdrawn: these come last and change no other code. */
export function cardCodes({ variants }: Pick<ResolvedBook, 'variants'>): {
  readonly printed: readonly CodedPair[];
  readonly withdrawn: readonly CodedPair[];
} {
  const isWithdrawn = ({ procedure }: Variant): boolean => procedure.status === 'withdrawn';
  const printed = pairsOf(variants.filter((variant) => !isWithdrawn(variant)));
  const withdrawn = pairsOf(variants.filter(isWithdrawn));
  const names = codeNames([...printed, ...withdrawn]);
  const codes = shortCodes([...names.values()].flat());
  const coded = (pair: Pair): CodedPair => ({
    ...pair,
    codes: (names.get(pair) ?? []).map((name) => codes.get(name) ?? ''),
  });
  return { printed: printed.map(coded), withdrawn: withdrawn.map(coded) };
}

/** The cards of withdrawn procedures: whoever scans one is told to stop. */
export function withdrawnCards(resolved: Pick<ResolvedBook, 'variants'>): readonly UnprintedCard[] {
  return cardCodes(resolved).withdrawn.flatMap(({ variant: { procedure }, machine, codes }) =>
    codes.map((code) => ({ code, machine, procedure: procedure.id, title: procedure.title })),
  );
}

function pairsOf(variants: readonly Variant[]): readonly Pair[] {
  return variants.flatMap((variant) =>
    [...new Set(variant.rigs.map(({ machine }) => machine))].map((machine) => ({ variant, machine })),
  );
}

/**
 * What the codes of a card stand for: machine, procedure and header, and which of these where several are; that of the first
 * header is printed. Not the number of its variant: with a header more, a card that was printed before would lead to
 * another's page.
 */
function codeNames(pairs: readonly Pair[]): ReadonlyMap<Pair, readonly string[]> {
  const counts = new Map<string, number>();
  const named = ({ variant, machine }: Pair): readonly string[] => {
    const headers = new Set(variant.rigs.filter((rig) => rig.machine === machine).map(({ header }) => header));
    return [...headers].map((header) => {
      const name = `${machine} ${variant.procedure.id} ${header}`;
      const count = (counts.get(name) ?? 0) + 1;
      counts.set(name, count);
      return count === 1 ? name : `${name} ${count}`;
    });
  };
  return new Map(pairs.map((pair) => [pair, named(pair)]));
}
