// Rigs for which a procedure reads the same, as one variant: one page, one card.

import type { Book } from '../model/book.js';
import type { End, ResolvedProcedure, Rig, Variant } from '../model/resolved.js';
import { compareRigs, mergeRigs } from '../model/rig-lists.js';
import { sha256 } from '../text/sha256.js';
import { contentOf, type Digests } from './content.js';
import { completeRigs, type PartialRig } from './facets.js';

/** A procedure as it reads for one way in which the answers of a rig fell. */
export interface Reading {
  readonly rig: PartialRig;
  readonly procedure: ResolvedProcedure;
  readonly ends: ReadonlyMap<End, ResolvedProcedure>;
}

/** The variants of one procedure, in the order of their first rigs. */
export function variantsOf(book: Book, readings: readonly Reading[], digests: Digests): readonly Variant[] {
  const byContent = new Map<string, { readonly reading: Reading; readonly rigs: Rig[] }>();
  for (const reading of readings) {
    const content = contentOf(reading, digests);
    const entry = byContent.get(content) ?? { reading, rigs: [] };
    entry.rigs.push(...completeRigs(reading.rig));
    byContent.set(content, entry);
  }
  const found = [...byContent].map(
    ([
      content,
      {
        reading: { procedure, ends },
        rigs,
      },
    ]) => ({
      procedure,
      ends,
      rigs: mergeRigs(book, rigs),
      hash: sha256(content),
    }),
  );
  const sorted = found.sort((a, b) => (a.rigs[0] && b.rigs[0] ? compareRigs(book, a.rigs[0], b.rigs[0]) : 0));
  return sorted.map((variant, index) => ({
    id: idOf(book, variant.procedure.id, { index, count: found.length }),
    ...variant,
  }));
}

/** `learn`, or `learn-2` where there are several; a name that is another procedure's is stretched. */
function idOf(book: Book, id: string, { index, count }: { readonly index: number; readonly count: number }): string {
  if (count === 1) return id;
  let joint = '-';
  while (book.procedures.has(`${id}${joint}${index + 1}`)) joint += '-';
  return `${id}${joint}${index + 1}`;
}
