// The walk files of the demo book in English, as a phone reads them.

import { readPortable } from '../../src/calc/portable.js';
import { emitSite } from '../../src/emit/pages/site.js';
import type { WalkFile } from '../../src/emit/walk/walk-shape.js';
import { demoBook } from '../emit-pages/books.js';

let walks: readonly WalkFile[] | undefined;

/** Every walk of the demo, in the order of their paths. */
export function demoWalks(): readonly WalkFile[] {
  const { resolved, proofs, figures } = demoBook();
  walks ??= [...emitSite(resolved, { proofs, figures })]
    .filter(([path]) => path.startsWith('walk/') && path.endsWith('.en.json'))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, text]) => readPortable<WalkFile>(String(text)));
  return walks;
}

/** A walk of the procedure for some rig that has all of the given keys of values. */
export function walkOf(procedure: string, values: readonly string[] = []): WalkFile {
  const found = demoWalks().find(
    (walk) => walk.procedure === procedure && values.every((key) => walk.values.some((value) => value.key === key)),
  );
  if (!found) throw new Error(`The demo has no walk of ${procedure}`);
  return found;
}
