// A crop that weighs nothing, or is all water.

import { isDimensionless, sameDimension } from '../../calc/dimension.js';
import { dimensionOf } from '../../calc/expression/dimensions.js';
import { rangeOf } from '../../calc/expression/range.js';
import { compare, type Rational, rational } from '../../calc/rational.js';
import type { WrittenExpr } from '../../model/numbers.js';
import { massOfBushel } from '../dimensions/crop-number-of-other-quantity.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly crop: string;
  readonly key: string;
  readonly written: string;
  readonly wanted: string;
  readonly why: string;
}

/** What a number of a crop must be a quantity of, and between what. */
export interface CropNumber extends Pick<Facts, 'key' | 'wanted' | 'why'> {
  readonly isKind: (dimension: readonly number[]) => boolean;
  readonly isPossible: (low: Rational, high: Rational) => boolean;
}

const zero = rational(0);

/** The mass of one bushel. */
export const massOf: CropNumber = {
  key: 'mass',
  wanted: 'more than 0 lb/bu',
  why: 'A bushel counts as this mass. With none, every yield worked out with it is wrong or cannot be worked out.',
  isKind: (found) => sameDimension(found, massOfBushel),
  isPossible: (low) => compare(low, zero) > 0,
};

/** The share of water that a crop is sold with. */
export const moistureOf: CropNumber = {
  key: 'base-moisture',
  wanted: 'a share from 0 % to less than 100 %',
  why: 'It is the share of water in grain as it is sold, and grain is never all water.',
  isKind: isDimensionless,
  isPossible: (low, high) => compare(low, zero) >= 0 && compare(high, rational(1)) < 0,
};

export default rule({
  id: 'crop-number-impossible',
  severity: 'error',
  needs: 'book',
  *run({ crops }) {
    for (const { id, mass, baseMoisture } of crops.values()) {
      yield* judge(mass, id, massOf);
      yield* judge(baseMoisture, id, moistureOf);
    }
  },
  say: ({ crop, key, written, wanted, why }: Facts) => ({
    message: `\`${key}\` of \`${crop}\` is ${written}, expected ${wanted}`,
    help: 'Write the number that the crop is sold by.',
    note: why,
  }),
});

/** Nothing of a number of another kind: a rule of its own tells of that. */
function* judge(
  written: WrittenExpr | undefined,
  crop: string,
  { isKind, isPossible, ...expected }: CropNumber,
): Iterable<Finding<Facts>> {
  const shape = written && dimensionOf(written.expr, () => undefined);
  if (!written || !shape?.ok || !isKind(shape.value.dimension)) return;
  const found = rangeOf(written.expr, () => undefined);
  if (!found.ok || isPossible(found.value.outer.low, found.value.outer.high)) return;
  yield { at: written.source.at, data: { crop, written: written.source.value.trim(), ...expected } };
}
