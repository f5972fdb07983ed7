// A number of one machine, header or entry that lies far off what the same number is on all the others.

import { type Dimension, dimension, sameDimension } from '../../calc/dimension.js';
import { isSingle, type Limits } from '../../calc/limits.js';
import { add, type Rational, subtract, toNumber } from '../../calc/rational.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';
import { leastSiblings, type Outlier, outliersAmong } from './outliers.js';
import { byDimension, type Family, parameterFamilies, type Sibling, valueFamilies } from './siblings.js';

interface Facts {
  readonly id: string;
  readonly of: string;
  readonly text: string;
  readonly among: Family['among'];
  readonly measure: Measure;
  readonly factor: string;
}

type Measure = 'middle' | 'width';

/** Numbers within these factors of each other count as alike: of what is measured, and of how much it may vary. */
const alike: Readonly<Record<Measure, number>> = { middle: 1.2, width: 1.4 };

const temperature: Dimension = dimension({ temperature: 1 });

export default rule({
  id: 'value-unlike-siblings',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const families = [...parameterFamilies(book), ...[...book.procedures.values()].flatMap(valueFamilies)];
    const told = new Set<Span>();
    for (const { id, among, members } of families) {
      const [siblings = []] = byDimension(members);
      for (const { index, factor, measure } of farOff(siblings)) {
        const found = siblings[index];
        if (!found || told.has(found.at)) continue;
        told.add(found.at);
        const { of, text } = found;
        const data: Facts = { id, of, text, among, measure, factor: sayFactor(factor) };
        yield { at: found.at, related: others(siblings, found), data };
      }
    }
  },
  say: ({ id, of, text, among, measure, factor }: Facts) => ({
    message:
      measure === 'middle'
        ? `\`${id}\` of \`${of}\` is ${text}: ${factor} what is usual among the ${among}`
        : `\`${id}\` of \`${of}\` is ${text}: it may vary by ${factor} what is usual among the ${among}`,
    help: 'Look it up once more: a digit, the decimal point or the unit may be a slip. If it is right, waive this with the reason.',
    note: 'It lies further from the others than these lie from each other (modified score above 3.5 on a scale of factors: Iglewicz and Hoaglin, 1993; NIST/SEMATECH e-Handbook, 1.3.5.17).',
  }),
});

function farOff(siblings: readonly Sibling[]): readonly (Outlier & { readonly measure: Measure })[] {
  const [first] = siblings;
  // a degree has no factors, and where signs differ neither have the numbers
  if (!first || sameDimension(first.limits.unit.dimension, temperature)) return [];
  if (new Set(siblings.map(({ under }) => under)).size < leastSiblings) return [];
  if (new Set(siblings.map(({ limits }) => sidesOf(limits))).size > 1) return [];
  const found = (['middle', 'width'] as const).flatMap((measure) => {
    const sizes = siblings.map(({ limits }) => (isSigned(limits) ? undefined : sizeOf(limits, measure)));
    const known = sizes.flatMap((size) => (size === undefined ? [] : [toNumber(size)]));
    if (known.length < siblings.length) return [];
    return outliersAmong(known, alike[measure]).map((outlier) => ({ ...outlier, measure }));
  });
  // one number, one fault: where it lies speaks before how much it may vary
  return found.filter(({ index }, place) => found.findIndex((other) => other.index === index) === place);
}

function isSigned({ low, high }: Limits): boolean {
  return [low, high].some((end) => end !== undefined && end.num < 0n);
}

/** The sum of two ends, or the one end there is; the distance of two ends. */
function sizeOf(limits: Limits, measure: Measure): Rational | undefined {
  const { low, high } = limits;
  if (measure === 'width') return low && high && !isSingle(limits) ? subtract(high, low) : undefined;
  return low && high ? add(low, high) : (low ?? high);
}

function sidesOf({ low, high }: Limits): string {
  return `${low ? 'low' : ''}${high ? 'high' : ''}`;
}

/** `9.9 times` or `1/8`: never nearer to one than it is. */
function sayFactor(factor: number): string {
  const far = factor > 1 ? factor : 1 / factor;
  const shown = far < 10 ? (Math.floor(far * 10) / 10).toFixed(1) : String(Math.floor(far));
  return factor > 1 ? `${shown} times` : `1/${shown} of`;
}

function others(
  siblings: readonly Sibling[],
  found: Sibling,
): readonly { readonly message: string; readonly at: Span }[] {
  return siblings.filter((one) => one !== found).map(({ of, text, at }) => ({ message: `${text} for \`${of}\``, at }));
}
