// A state that begins otherwise than the procedures of the book count on.

import type { World } from '../../model/resolved.js';
import { type Proof, rule } from '../rule.js';
import { brokenIn, isRight, type Reprove, wordFix } from './blame.js';
import { code, listed } from './words.js';

/** Fewer than these may be wrong themselves. */
const fewest = 3;

export default rule({
  id: 'start-unlike-procedures',
  severity: 'error',
  needs: 'proofs',
  *run(proofs, { book, resolved: { world }, reprove }) {
    const broken = brokenIn(proofs);
    if (!reprove || broken.size < fewest) return;
    const [best] = otherStarts(broken, world, reprove).sort((a, b) => b.mended.length - a.mended.length);
    const start = best && book.states.get(best.state)?.start;
    if (best && start && best.mended.length * 2 >= broken.size)
      yield { at: start.at, data: { ...best, own: start.value, at: start.at } };
  },
  say: ({ state, own, other, mended, at }) => ({
    message: `${code(state)} begins as ${code(own)}, and ${mended.length} procedures cannot be done so: they count on ${code(other)}`,
    help: `Write ${code(`start: ${other}`)} (tried: it mends them). If the start is right, say under \`requires\` how each of them begins.`,
    fixes: [wordFix(at, other)],
    note: `It breaks the order of ${listed(mended.map(code), 'and')}.`,
  }),
});

interface OtherStart {
  readonly state: string;
  readonly other: string;
  /** Procedures that nothing would be wrong with. */
  readonly mended: readonly string[];
}

function otherStarts(broken: ReadonlyMap<string, readonly Proof[]>, world: World, reprove: Reprove): OtherStart[] {
  return world.variables.flatMap(({ id: state, start, values }) => {
    if (start === undefined) return [];
    return values
      .filter((other) => other !== start)
      .flatMap((other): readonly OtherStart[] => {
        const variables = world.variables.map((one) => (one.id === state ? { ...one, start: other } : one));
        const mended = [...broken]
          .filter(([, [proof]]) => proof && isRight(proof.variant, { ...world, variables }, reprove))
          .map(([id]) => id);
        return mended.length >= fewest ? [{ state, other, mended }] : [];
      });
  });
}
