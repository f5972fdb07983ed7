// Whether a sentence says of a number that it is so, and not what it may be, by how much it changes, or of another thing.
// Rather says no.

import { findUnit } from '../../calc/unit.js';
import { unitsByOtherWords } from '../../calc/unit-table.js';
import type { Sentence } from '../text/sentences.js';
import type { NumberLanguage } from './languages/language.js';
import { patternOf } from './languages/languages.js';
import { nounsIn } from './naming.js';

/** A number in its sentence, and the words that its step has for it. */
export interface Said {
  readonly text: string;
  readonly sentence: Pick<Sentence, 'start' | 'end'>;
  readonly start: number;
  readonly end: number;
  /** The text speaks of nothing else, as the act of a step that holds a key: hardly any word is needed. */
  readonly isPlain: boolean;
  readonly isHeading: boolean;
  /** More of it does as well, as of a wait: `up to` a number then tells of what is waited for. */
  readonly isLeast: boolean;
  /** The thing itself in the name of what the number is taken for. */
  readonly head?: string;
  /** Where an earlier number of the sentence begins whose verb holds for this one too: `reads 3.9 V on the ground and 0.9 V raised`. */
  readonly carriedFrom?: number;
}

const apart = '(?<![\\p{L}\\p{N}])';
const ends = '(?![\\p{L}\\p{N}])';

/** Whether the sentence claims the number. */
export function isClaim({ text, sentence, start, end, ...said }: Said, language: NumberLanguage): boolean {
  const before = text.slice(sentence.start, start);
  const spoken = text.slice(sentence.start, said.carriedFrom ?? start);
  const behind = text.slice(end, Math.max(end, sentence.end));
  const {
    claims,
    having,
    verdicts,
    about,
    duties,
    changes,
    extents,
    hedges,
    mosts,
    othersBefore,
    othersBehind,
    waits,
  } = language;
  if (patternOf(othersBehind, `^\\s*(?:-\\s*)?WORDS${ends}`).test(behind)) return false;
  const isBounded = said.isLeast && patternOf(mosts, `${apart}WORDS\\s+$`).test(before);
  if (isBounded && !patternOf(waits, `${apart}WORDS${ends}`).test(before)) return false;
  const isOrder = patternOf(duties, `${apart}WORDS${ends}`).test(before);
  const isChange = patternOf(changes, `${apart}WORDS\\s+$`).test(before);
  const isOther =
    isChange || [before, spoken].some((one) => patternOf(othersBefore, `(?:${apart}WORDS\\s+|[±+]\\s*)$`).test(one));
  const isHedged = patternOf(hedges, `${apart}WORDS${ends}`).test(`${before}${behind}`) || isRate(before, language);
  if (isOrder ? isChange : isOther || isHedged) return false;
  if (said.isPlain || said.isHeading || spoken.trim() === '') return true;
  if (patternOf(duties, `${apart}WORDS${ends}[^.,;]{0,25}$`).test(spoken)) return true;
  if (patternOf(verdicts, `^\\s*WORDS${ends}`).test(behind)) return true;
  if (patternOf(extents, `^\\s*WORDS${ends}`).test(behind)) return true;
  const close = patternOf(about, `${apart}WORDS\\s+$`).cut(spoken);
  if (/[:=(|][\s|(]*$/.test(close) || patternOf(claims, `(?:^|[\\s(|:=])WORDS[\\s|(]+$`).test(close)) return true;
  // `a supply of 5 V`, and not `a belt of 42 in` where the edge of the belt is named
  const holder = patternOf(having, `(\\p{L}+)\\s+WORDS\\s+$`).exec(close)?.[1];
  return holder !== undefined && (said.head === undefined || nounsIn(holder, language).has(said.head));
}

/** Whether a sentence says how much for each inch, second or other unit. */
function isRate(before: string, { rates, units }: NumberLanguage): boolean {
  return patternOf(rates, `${apart}WORDS\\s+(\\p{L}+)`)
    .matchAll(before)
    .some(({ 1: word = '' }) => {
      const name = word.toLowerCase();
      return name.length > 1 && (units.has(name) || unitsByOtherWords.has(name) || findUnit(name) !== undefined);
    });
}
