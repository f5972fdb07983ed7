// Two sides of a procedure that mirror each other, where a turn counts the same way on both as each is looked at, or the other
// way and with another sign.

import { type Rational, sign } from '../../calc/rational.js';
import type { ResolvedAdjuster, Variant } from '../../model/resolved.js';
import { templatesOf } from '../../model/walk.js';
import type { Span } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';

interface Facts {
  readonly ids: readonly [string, string];
  readonly words: readonly [string, string];
  readonly isAlike: boolean;
}

export default rule({
  id: 'side-not-turned',
  severity: 'warning',
  needs: 'variant',
  *run(variant, { book }) {
    const [first = 'en'] = book.settings.languages;
    const language = languageOf(first);
    if (!language || !variant.procedure.source.forEach) return;
    for (const [one, other] of pairsOf(variant)) {
      const finding = judge({ one, other, variant }, first, language);
      if (finding) yield finding;
    }
  },
  say: ({ ids: [one, other], words: [here, there], isAlike }: Facts) => ({
    message: `\`${one}\` counts “${here}”, and \`${other}\` “${there}”: ${
      isAlike
        ? 'a mirrored side turns the other way round, and the effect has one sign for both'
        : 'that is turned as in a mirror already, and the sign of the effect is turned as well'
    }`,
    help: `${
      isAlike
        ? 'Write the other way round for one side, `counter-clockwise` for `clockwise`, or give its effect in `moves` the other sign.'
        : 'Give both sides the same sign in `moves`, or the same way round in `positive`.'
    } If the two sides are built alike and mirror nothing, waive this with that reason.`,
    note: 'Seen from its own end, the right side turns the other way round than the left one: with the wrong sign a person turns away from the limits.',
  }),
});

/** Adjusters that are written once and stand for two sides. */
function pairsOf({ procedure }: Variant): readonly (readonly [ResolvedAdjuster, ResolvedAdjuster])[] {
  return procedure.adjusters.flatMap((one, i): readonly (readonly [ResolvedAdjuster, ResolvedAdjuster])[] => {
    const { file, start } = one.source.idAt;
    const other = procedure.adjusters
      .slice(i + 1)
      .find(({ source }) => source.idAt.file === file && source.idAt.start === start);
    return other ? [[one, other]] : [];
  });
}

interface Sides {
  readonly one: ResolvedAdjuster;
  readonly other: ResolvedAdjuster;
  readonly variant: Variant;
}

function judge({ one, other }: Sides, first: string, language: Language): Finding<Facts> | undefined {
  const [here, there] = [turnOf(one, first, language), turnOf(other, first, language)];
  const effects = [...other.moves.values()];
  const products = [...one.moves.values()].map((effect, i) => signOf(effect) * signOf(effects[i]));
  const known = products.find((product) => product !== 0);
  if (!here || !there || known === undefined) return undefined;
  const isTurned = here.way === there.way;
  if (isTurned === known > 0) return undefined;
  const isOneText = here.at.start === there.at.start;
  return {
    at: there.at,
    ...(isOneText ? {} : { related: [{ message: `\`${one.id}\` counts so`, at: here.at }] }),
    data: {
      ids: [one.id, other.id],
      words: [here.words, there.words],
      isAlike: known > 0,
    },
  };
}

/** 1 or -1 where the effect has that sign for sure. */
function signOf(effect: { readonly low: Rational; readonly high: Rational } | undefined): number {
  return effect && sign(effect.low) === sign(effect.high) ? sign(effect.low) : 0;
}

/**
 * Which way round the shaft along the header a turn goes, seen from its left end; undefined where the words do not say it, and
 * for threads, which are the same on both sides.
 */
function turnOf(
  adjuster: ResolvedAdjuster,
  first: string,
  { clockwise, counterClockwise, left, right, ownEnd, threaded }: Language,
): { readonly way: 1 | -1; readonly words: string; readonly at: Span } | undefined {
  const [template] = templatesOf(adjuster.source.positive, first);
  const words = template?.source.value;
  const label = [...templatesOf(adjuster.source.label, first)].map(({ source }) => source.value).join(' ');
  if (!template || words === undefined || threaded.test(`${label} ${words}`)) return undefined;
  const turn = counterClockwise.test(words) ? -1 : clockwise.test(words) ? 1 : 0;
  const seen = ownEnd.test(words) ? `${adjuster.id} ${label}` : words;
  const [isLeft, isRight] = [left.test(seen.replaceAll(/[_-]/g, ' ')), right.test(seen.replaceAll(/[_-]/g, ' '))];
  if (turn === 0 || isLeft === isRight) return undefined;
  return { way: (isLeft ? turn : -turn) as 1 | -1, words, at: template.source.at };
}
