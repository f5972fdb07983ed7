// How often something is tried, in words and as typed: `try at most three times` beside `at-most: 3`.

import type { Branch, Step } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import type { Passage } from '../text/passages.js';
import { numberLanguage, patternOf } from './languages/languages.js';

/** A count in the words of a step that none of its branches has. */
export interface WrongTries {
  readonly passage: Passage;
  readonly start: number;
  readonly end: number;
  /** The counts that are typed, and where the first of them is. */
  readonly typed: readonly number[];
  readonly at: Span;
}

/** Counts in words behind `at most`, in texts of steps with branches that count. */
export function* findTries(passages: readonly Passage[]): Iterable<WrongTries> {
  for (const passage of passages) {
    const counts = passage.step && !passage.differs ? countsOf(passage.step) : [];
    const [first] = counts;
    const said = first && saidIn(passage);
    // whoever goes back three times has tried four times
    if (!first || !said || counts.some(({ value }) => said.count === value || said.count === value + 1)) continue;
    yield { passage, start: said.start, end: said.end, typed: counts.map(({ value }) => value), at: first.at };
  }
}

function countsOf({ otherwise, when, answers, then }: Step): readonly { readonly value: number; readonly at: Span }[] {
  const branches = [otherwise, ...when.values(), ...answers.map(({ branch }) => branch), then];
  return branches.flatMap((branch) => countsAlong(branch));
}

function countsAlong(branch: Branch | undefined): readonly { readonly value: number; readonly at: Span }[] {
  if (!branch) return [];
  return [...(branch.atMost ? [branch.atMost] : []), ...countsAlong(branch.otherwise)];
}

/** The first count of a passage: `three times`, `twice`. */
function saidIn({
  hidden,
  block,
  language: code,
}: Passage): { readonly count: number; readonly start: number; readonly end: number } | undefined {
  const language = numberLanguage(code);
  const text = hidden.slice(block.start, block.end);
  const most = patternOf(language.mosts, '(?<!\\p{L})WORDS\\s+').exec(text);
  if (!most) return undefined;
  const start = most.index + most[0].length;
  const rest = text.slice(start);
  const behind = patternOf(language.times, '^(\\p{L}+|\\d+)\\s+WORDS(?!\\p{L})').exec(rest);
  const word = /^\p{L}+/u.exec(rest)?.[0] ?? '';
  const number = behind?.[1]?.toLowerCase() ?? '';
  const count = behind
    ? (language.numbers.get(number) ?? (/^\d+$/.test(number) ? Number(number) : undefined))
    : language.often.get(word.toLowerCase());
  if (count === undefined) return undefined;
  return { count, start: block.start + start, end: block.start + start + (behind?.[0].length ?? word.length) };
}
