// What texts say of the band in which a sensor reads at all: `outside 0.25 to 4.75 V it is a fault`.

import { sameDimension } from '../../calc/dimension.js';
import { formatLimits } from '../../calc/display.js';
import type { Limits } from '../../calc/limits.js';
import { equals } from '../../calc/rational.js';
import type { Span } from '../../text/source.js';
import type { Context } from '../rule.js';
import { judgePassages, type Passage } from '../text/passages.js';
import { numberLanguage, patternOf } from './languages/languages.js';
import { namedIn } from './naming.js';
import { type Quantity, quantitiesOf } from './quantities.js';

/** A band in words that no value of the procedure is read in. */
export interface WrongBand {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly value: string;
  readonly typed: readonly string[];
  readonly at: Span;
}

interface Band {
  readonly id: string;
  readonly label: string;
  readonly inside?: Limits;
  readonly known: readonly Limits[];
  readonly at: Span;
}

/** Bands in words beside a fault, where the values of the procedure of that kind are read in others. */
export function wrongBands({ book, resolved }: Context): readonly WrongBand[] {
  const mentions = judgePassages(book, findBands);
  if (mentions.length === 0) return [];
  return mentions.flatMap(({ passage, quantity, sentence }) => {
    const variants = resolved.variants.filter(({ procedure }) => procedure.id === passage.procedure?.id);
    const values = variants.flatMap(({ procedure }) =>
      procedure.values.map((value) => bandOf(value, passage.language)),
    );
    const alike = values.filter(
      ({ known: [first] }) => first && sameDimension(first.unit.dimension, quantity.unit.dimension),
    );
    const banded = alike.filter(({ inside }) => inside);
    const [first] = banded;
    const isKnown = alike.some(({ known }) => known.some((limits) => isRange(limits, quantity)));
    const here = namedIn(sentence, numberLanguage(passage.language));
    const own = wordsOf(banded, passage.language);
    if (!first || isKnown || !own.some((word) => here.has(word))) return [];
    // what another value alone is called by, as a supply, is rather meant than the band
    const others = wordsOf(
      alike.filter(({ inside }) => !inside),
      passage.language,
    );
    if (others.some((word) => here.has(word) && !own.includes(word))) return [];
    const typed = [...new Set(banded.flatMap(({ inside }) => (inside ? [formatLimits(inside)] : [])))];
    return [{ passage, quantity, value: first.id, typed, at: first.at }];
  });
}

interface Mention {
  readonly passage: Passage;
  readonly quantity: Quantity;
  readonly sentence: string;
}

function* findBands(passages: readonly Passage[]): Iterable<Mention> {
  for (const passage of passages) {
    if (passage.role === 'label' || passage.differs) continue;
    const { outsides, faults } = numberLanguage(passage.language);
    for (const quantity of quantitiesOf(passage.hidden, passage.block, passage.language)) {
      const place = passage.sentences.findLast(({ start }) => start <= quantity.start);
      if (!place || quantity.form !== 'range') continue;
      const sentence = passage.source.value.slice(place.start, place.end);
      const before = passage.source.value.slice(place.start, quantity.start);
      if (!patternOf(outsides, '(?<!\\p{L})WORDS\\s+$').test(before)) continue;
      if (patternOf(faults, '(?<!\\p{L})WORDS(?!\\p{L})').test(sentence)) yield { passage, quantity, sentence };
    }
  }
}

type Value = Context['resolved']['variants'][number]['procedure']['values'][number];

function bandOf(
  { id, source, label, inside, tolerance, acceptance, failing, instrument, limitsAt }: Value,
  language: string,
): Band {
  const known = [inside, tolerance, acceptance, failing, instrument?.range].filter((one) => one !== undefined);
  const at = source.inside?.at ?? limitsAt;
  return { id, label: label[language] ?? '', ...(inside ? { inside } : {}), known, at };
}

function isRange({ low, high }: Limits, quantity: Quantity): boolean {
  return low !== undefined && high !== undefined && equals(low, quantity.low) && equals(high, quantity.high);
}

/** What the labels of values name. */
function wordsOf(values: readonly Band[], code: string): readonly string[] {
  return values.flatMap(({ label }) => [...namedIn(label, numberLanguage(code))]);
}
