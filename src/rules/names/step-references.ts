// Where the words of a procedure send their reader to one of its steps, by number or by id. Rather says nothing than takes the
// notch of a lever for a step.

import { scanUnit } from '../../calc/unit.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';
import type { Passage } from '../text/passages.js';

/** A step that is named, and where. */
export interface StepReference {
  readonly kind: 'number' | 'id';
  /** `12`, `4.2`, `check-left`. */
  readonly name: string;
  readonly start: number;
  readonly end: number;
}

/** The references of a passage, in their order. */
export function stepReferences({ source, sentences, language: code }: Passage): readonly StepReference[] {
  const language = languageOf(code);
  if (!language || !patternsFor(language).word.test(source.value)) return [];
  return sentences.flatMap(({ start, end }) => {
    const text = source.value.slice(start, end);
    // a link leads to another procedure
    return /\]\(/.test(text) ? [] : referencesIn(text, start, language);
  });
}

function referencesIn(text: string, start: number, language: Language): readonly StepReference[] {
  const found: StepReference[] = [];
  for (const { 0: all, 1: id, 2: numbers = '', index } of patternsFor(language).reference.matchAll(text)) {
    const end = index + all.length;
    if (isOfAnother(text.slice(end), language)) continue;
    if (id !== undefined) {
      if (!id.includes('{')) found.push({ kind: 'id', name: id, start: start + end - id.length - 2, end: start + end });
      continue;
    }
    if (language.stepped.test(text) || language.setToStep.test(text.slice(0, index))) continue;
    const first = start + end - numbers.length;
    for (const { 0: name, index: at } of numbers.matchAll(/\d+(?:\.\d+)*/g)) {
      found.push({ kind: 'number', name, start: first + at, end: first + at + name.length });
    }
  }
  return found;
}

interface Patterns {
  /** A word for steps: most texts have none. */
  readonly word: Caseless;
  /** It with an id in code, or with numbers: `step 3`, `steps 3 to 5`. */
  readonly reference: Caseless;
}

const patterns = new WeakMap<Language, Patterns>();

function patternsFor(language: Language): Patterns {
  const known = patterns.get(language);
  if (known) return known;
  const { stepWords, stepJoints } = language;
  const number = '\\d+(?:\\.\\d+)*(?![\\p{L}\\p{N}%°]|[.,]\\d)';
  const numbers = `${number}(?:(?:\\s*[,–-]\\s*|\\s+(?:${stepJoints})\\s+)${number})*`;
  const reference = caseless(`(?<![\\p{L}\\p{N}-])(?:${stepWords})\\s+(?:\`([^\`\\s]+)\`|(${numbers}))`);
  const made = { word: caseless(stepWords), reference };
  patterns.set(language, made);
  return made;
}

/** `step 3 of the shut-down`, `step 2 in`: the steps of something else, and no step at all. */
function isOfAnother(behind: string, { stepOwners }: Language): boolean {
  const word = /^\s*/.exec(behind)?.[0].length ?? 0;
  return stepOwners.test(behind) || (word > 0 && scanUnit(behind, word) !== undefined);
}
