// Two sheets of facts to what changed between them. Nothing is said twice: parts go with what is new or gone, and a text that
// says a number changes with the number.

import type { Change, Subject, Weight } from '../model/comparison.js';
import type { Words } from '../model/text.js';
import type { Fact, FactSheet } from './fact-sheet.js';
import { tidied } from './fact-sheet.js';
import { numbersIn, sayTheSame } from './number-texts.js';

/** A change whose rigs are not gathered yet. */
export type RawChange = Omit<Change, 'rigs'>;

/** All changes, in the order of the new sheet, then what is gone. `first` is the language that the book is written in. */
export function compareSheets(before: FactSheet, after: FactSheet, first: string): readonly RawChange[] {
  const pairs = numberPairs(before, after);
  const changes: RawChange[] = [];
  const isTogether = (fact: Fact): boolean => {
    const { group } = fact;
    return group !== undefined && before.groups.get(group) === after.groups.get(group);
  };
  for (const [key, fact] of after.facts) {
    const old = before.facts.get(key);
    if (isTogether(fact)) continue;
    if (!old) {
      if (!goesWith(fact, before)) changes.push(changeOf({ fact, how: 'added' }));
      continue;
    }
    const change = changed(old, fact, { pairs, first, before, after });
    if (change) changes.push(change);
  }
  for (const [key, fact] of before.facts) {
    if (after.facts.has(key) || isTogether(fact) || goesWith(fact, after)) continue;
    changes.push(changeOf({ fact, how: 'dropped' }));
  }
  return changes;
}

// a part of what the other sheet lacks as a whole
function goesWith({ under }: Fact, other: FactSheet): boolean {
  return under !== undefined && !other.facts.has(under);
}

function changeOf({ fact, how }: { readonly fact: Fact; readonly how: 'added' | 'dropped' }): RawChange {
  const { about, weight, subject, said } = fact;
  return {
    about,
    how,
    weight,
    ...(subject && { subject }),
    ...(said && { [how === 'added' ? 'after' : 'before']: said }),
  };
}

interface Context {
  readonly pairs: readonly NumberPair[];
  readonly first: string;
  readonly before: FactSheet;
  readonly after: FactSheet;
}

/** Numbers that a part showed before, and those that it shows now. */
export interface NumberPair {
  readonly before: string;
  readonly after: string;
}

function changed(old: Fact, fact: Fact, context: Context): RawChange | undefined {
  const { about } = fact;
  const subject = withOldNumber(fact.subject, old.subject);
  const head = {
    about,
    ...(subject && { subject }),
    ...(old.said && { before: old.said }),
    ...(fact.said && { after: fact.said }),
  };
  if (old.equal === fact.equal) {
    if (old.spelled === fact.spelled || showsInResolution(fact, context)) return undefined;
    return { ...head, how: 'respelled', weight: 'text' };
  }
  if (!old.text || !fact.text) return { ...head, how: 'changed', weight: graver(old.weight, fact.weight) };
  const languages = differing(old.text, fact.text, context.pairs);
  if (languages.length === 0) return undefined;
  const isFirst = languages.includes(context.first);
  return {
    ...head,
    how: 'changed',
    weight: textWeight(old, fact, languages),
    ...(!isFirst && { languages }),
  };
}

/** A step that has another number now says which it had. */
export function withOldNumber(subject: Subject | undefined, old: Subject | undefined): Subject | undefined {
  if (!subject || old?.number === undefined || old.number === subject.number) return subject;
  return { ...subject, was: old.number };
}

// digits that change the resolution are told there, with the limits
function showsInResolution({ key }: Fact, { before, after }: Context): boolean {
  const resolution = key.replace(/\/limits$/, '/resolution');
  if (resolution === key) return false;
  return before.facts.get(resolution)?.equal !== after.facts.get(resolution)?.equal;
}

/** The languages in which words differ by more than the numbers that changed. */
function differing(old: Words, now: Words, pairs: readonly NumberPair[]): readonly string[] {
  const [before, after] = [tidied(old), tidied(now)];
  const languages = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort();
  return languages.filter((language) => {
    const [one, other] = [before[language], after[language]];
    return one === undefined || other === undefined ? one !== other : !sayTheSame(one, other, pairs);
  });
}

// a number in words is a number
function textWeight(old: Fact, fact: Fact, languages: readonly string[]): Weight {
  const weight = graver(old.weight, fact.weight);
  if (weight !== 'text') return weight;
  const differ = languages.some((language) => {
    const [one, other] = [old.text?.[language], fact.text?.[language]];
    return one !== undefined && other !== undefined && numbersIn(one).join() !== numbersIn(other).join();
  });
  return differ ? 'technical' : 'text';
}

const gravity: Readonly<Record<Weight, number>> = { safety: 0, technical: 1, text: 2 };

/** The graver of two weights. */
export function graver(a: Weight, b: Weight): Weight {
  return gravity[a] <= gravity[b] ? a : b;
}

/** Which comes first: safety, then what is technical, then words. */
export function compareWeights(a: Weight, b: Weight): number {
  return gravity[a] - gravity[b];
}

function numberPairs(before: FactSheet, after: FactSheet): readonly NumberPair[] {
  return [...after.facts].flatMap(([key, { numbers = [] }]) => {
    const old = before.facts.get(key)?.numbers ?? [];
    if (old.length !== numbers.length) return [];
    return numbers.flatMap((number, i) => {
      const was = old[i];
      return was === undefined || was === '' || number === '' || was === number ? [] : [{ before: was, after: number }];
    });
  });
}
