// A crop that is counted by another mass or moisture than it is traded by.

import { dimensionOf } from '../../calc/expression/dimensions.js';
import { rangeOf } from '../../calc/expression/range.js';
import { compare, divide, multiply, type Rational, rational } from '../../calc/rational.js';
import type { WrittenExpr } from '../../model/numbers.js';
import { type Finding, rule } from '../rule.js';
import { type CropNumber, massOf, moistureOf } from './crop-number-impossible.js';

interface Standard {
  /** Pounds a bushel. IFAS AG126 and Ohio State University Extension AGF-503-00, after USDA. */
  readonly mass: number;
  /** Tenths of a percent. Common practice of the trade, no source. */
  readonly moisture?: number;
}

const standards: ReadonlyMap<string, Standard> = new Map([
  ['corn', { mass: 56, moisture: 155 }],
  ['maize', { mass: 56, moisture: 155 }],
  ['soybeans', { mass: 60, moisture: 130 }],
  ['wheat', { mass: 60, moisture: 135 }],
  ['sorghum', { mass: 56, moisture: 140 }],
  ['barley', { mass: 48 }],
  ['oats', { mass: 32 }],
  ['rye', { mass: 56 }],
]);

interface Facts {
  readonly crop: string;
  readonly key: string;
  readonly written: string;
  readonly usual: string;
}

export default rule({
  id: 'crop-unlike-standard',
  severity: 'warning',
  needs: 'book',
  *run({ crops }) {
    for (const { id, mass, baseMoisture } of crops.values()) {
      const standard = standards.get(id);
      if (!standard) continue;
      // one pound a bushel in base units: 0.45359237 kg by definition
      const usual = multiply(rational(standard.mass), rational(45_359_237, 100_000_000));
      yield* hold(mass, [usual, massOf], { crop: id, key: 'mass', usual: `${standard.mass} lb/bu` });
      if (standard.moisture === undefined) continue;
      const share = rational(standard.moisture, 1000);
      yield* hold(baseMoisture, [share, moistureOf], {
        crop: id,
        key: 'base-moisture',
        usual: `${standard.moisture / 10} %`,
      });
    }
  },
  say: ({ crop, key, written, usual }: Facts) => ({
    message: `\`${key}\` of \`${crop}\` is ${written}, and the trade counts with ${usual}`,
    help: `Write \`${usual}\`, or waive this with the reason why it is counted otherwise here.`,
    note: 'The mass is that of the legal bushel (USDA). With another one every yield in bushels is off by the same share.',
  }),
});

/** Nothing where it is within half a percent of what is usual. */
function* hold(
  written: WrittenExpr | undefined,
  [usual, { isKind, isPossible }]: readonly [Rational, CropNumber],
  facts: Omit<Facts, 'written'>,
): Iterable<Finding<Facts>> {
  const shape = written && dimensionOf(written.expr, () => undefined);
  // a number of another kind, or one that no crop can have, is told of by a rule of its own
  if (!shape?.ok || !isKind(shape.value.dimension)) return;
  const found = written && rangeOf(written.expr, () => undefined);
  if (!written || !found?.ok || !isPossible(found.value.outer.low, found.value.outer.high)) return;
  const ratio = divide(found.value.outer.high, usual);
  if (compare(ratio, rational(995, 1000)) >= 0 && compare(ratio, rational(1005, 1000)) <= 0) return;
  yield { at: written.source.at, data: { ...facts, written: written.source.value.trim() } };
}
