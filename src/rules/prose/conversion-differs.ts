// A quantity that is said again in the other system of units, and comes to another number there.

import { divide, exactDecimals, formatDecimals, multiply, type Rational, rational } from '../../calc/rational.js';
import { fromBase, type Unit } from '../../calc/unit.js';
import { spanWithin } from '../../text/source.js';
import { rule } from '../rule.js';
import { judgePassages, type Passage } from '../text/passages.js';
import { type Conversion, conversionsOf, isSameAmount } from './conversions.js';
import type { Quantity } from './quantities.js';
import { statementsOf } from './statements.js';

interface Found extends Conversion {
  readonly passage: Passage;
}

export default rule({
  id: 'conversion-differs',
  severity: 'warning',
  needs: 'book',
  *run(book, context) {
    const found = judgePassages(book, findDifferent);
    if (found.length === 0) return;
    // where one of the two is not what is typed, that is said
    const wrong = statementsOf(context).filter(({ verdict }) => verdict === 'contradicts');
    for (const { passage, first, second } of found) {
      const isTold = wrong.some(
        (one) =>
          one.passage.source === passage.source && [first, second].some(({ start }) => start === one.quantity.start),
      );
      if (isTold) continue;
      const { source } = passage;
      const written = (one: Quantity): string => source.value.slice(one.start, one.end);
      const at = spanWithin(source, second.start, second.end);
      yield {
        at,
        related: [{ message: 'said first here', at: spanWithin(source, first.start, first.end) }],
        data: { first: written(first), second: written(second), right: inUnitOf(first, second), at },
      };
    }
  },
  say: ({ first, second, right, at }) => ({
    message: `\`${second}\` is said to be \`${first}\`, which is ${right}`,
    help: `Write \`${right}\`; or mend \`${first}\`, if that is the slip.`,
    note: 'Half of the people read the one unit, and half the other.',
    fixes: [{ title: `Write \`${right}\``, safe: false, edits: [{ at, text: right }] }],
  }),
});

function* findDifferent(passages: readonly Passage[]): Iterable<Found> {
  for (const passage of passages) {
    if (passage.differs) continue;
    for (const conversion of conversionsOf(passage)) {
      if (!isSameAmount(conversion)) yield { passage, ...conversion };
    }
  }
}

/** What the last digit counts, in the unit. */
function stepOf({ unit, slack }: { readonly unit: Unit; readonly slack: Rational }): Rational {
  return divide(multiply(slack, rational(2)), unit.factor);
}

/** A quantity in the unit of another one, with as many decimals. */
function inUnitOf(first: Quantity, { unit, slack, form }: Quantity): string {
  const decimals = Math.min(exactDecimals(stepOf({ unit, slack })) ?? 3, 3);
  const say = (end: Rational): string => formatDecimals(fromBase(end, unit), decimals);
  return `${form === 'range' ? `${say(first.low)} to ${say(first.high)}` : say(first.low)} ${unit.symbol}`;
}
