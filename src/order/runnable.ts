// Which procedures of a book a step could run, for the very rigs that a variant is for.

import type { ResolvedProcedure, Rig, Variant } from '../model/resolved.js';

/**
 * Each other procedure that reads the same for all machines and headers of `variant`. One that differs between them is left
 * out, since what is proved with it for some would not be proved for others; so is one that is not released.
 */
export function runnableFor(variant: Variant, variants: readonly Variant[]): readonly ResolvedProcedure[] {
  const pairs = new Set(variant.rigs.map(pairOf));
  const met = new Map<string, Variant[]>();
  for (const other of variants) {
    const { id, status } = other.procedure;
    if (id === variant.procedure.id || status !== 'released' || !other.rigs.some((rig) => pairs.has(pairOf(rig))))
      continue;
    met.set(id, [...(met.get(id) ?? []), other]);
  }
  return [...met.values()].flatMap(([first, ...others]) => {
    const reached = new Set(first?.rigs.map(pairOf));
    return first && others.length === 0 && [...pairs].every((pair) => reached.has(pair)) ? [first.procedure] : [];
  });
}

function pairOf({ machine, header }: Rig): string {
  return `${machine}+${header}`;
}
