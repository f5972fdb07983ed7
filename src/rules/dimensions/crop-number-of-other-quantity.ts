// A crop's mass that is no mass of a bushel, or a moisture that is no share.

import { describeDimension, dimension, isDimensionless, sameDimension } from '../../calc/dimension.js';
import { dimensionOf } from '../../calc/expression/dimensions.js';
import type { WrittenExpr } from '../../model/numbers.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly crop: string;
  readonly key: string;
  readonly is: string;
  readonly wanted: string;
}

/** What the mass of a bushel is a quantity of. */
export const massOfBushel = dimension({ mass: 1, bushels: -1 });

export default rule({
  id: 'crop-number-of-other-quantity',
  severity: 'error',
  needs: 'book',
  *run({ crops }) {
    for (const { id, mass, baseMoisture } of crops.values()) {
      const isMass = (found: readonly number[]): boolean => sameDimension(found, massOfBushel);
      yield* judge(mass, isMass, { crop: id, key: 'mass', wanted: 'a mass of one bushel, such as `56 lb/bu`' });
      yield* judge(baseMoisture, isDimensionless, {
        crop: id,
        key: 'base-moisture',
        wanted: 'a share, such as `15.5 %`',
      });
    }
  },
  say: ({ crop, key, is, wanted }: Facts) => ({
    message: `\`${key}\` of \`${crop}\` is ${is}, expected ${wanted}`,
    help:
      key === 'mass'
        ? 'Write the mass of one bushel, with `lb/bu` or `kg/bu` behind the number.'
        : 'Write a share, with `%` behind the number.',
    note: 'A bushel of grain is a count of its legal mass: without `/bu` every yield worked out with it is wrong.',
  }),
});

/** `a mass`, `an area`. */
function withArticle(dimension: string): string {
  return `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension}`;
}

function* judge(
  written: WrittenExpr | undefined,
  isRight: (found: readonly number[]) => boolean,
  facts: Omit<Facts, 'is'>,
): Iterable<Finding<Facts>> {
  const found = written && dimensionOf(written.expr, () => undefined);
  if (!written || !found?.ok || isRight(found.value.dimension)) return;
  yield {
    at: written.source.at,
    data: {
      ...facts,
      is: `${written.source.value.trim()}, which is ${withArticle(describeDimension(found.value.dimension))}`,
    },
  };
}
