// Finds vague words in what is read beside the machine. Shared by the rules on words that decide nothing and on missing measures.

import { spanWithin } from '../../text/source.js';
import type { Finding } from '../rule.js';
import type { Language, VagueWord } from './languages/language.js';
import { languageOf } from './languages/languages.js';
import type { Judge, Passage, Role } from './passages.js';

/** What is read while the work is done. */
const atWork: ReadonlySet<Role> = new Set(['step', 'question', 'card', 'expectation', 'condition', 'avoid']);

/** A vague word, and what to write in its place. */
export interface VagueFacts {
  readonly word: string;
  readonly instead: string;
}

/** A judge that finds each vague word of a list in these texts. */
export function vagueJudge(listOf: (language: Language) => readonly VagueWord[]): Judge<Finding<VagueFacts>> {
  return function* judge(passages) {
    for (const passage of passages) {
      const words = atWork.has(passage.role) ? languageOf(passage.language) : undefined;
      if (words) yield* placesOf(passage, listOf(words));
    }
  };
}

function* placesOf({ hidden, source }: Passage, list: readonly VagueWord[]): Iterable<Finding<VagueFacts>> {
  for (const { words, instead } of list) {
    for (const { index, 0: word } of words.matchAll(hidden)) {
      yield { at: spanWithin(source, index, index + word.length), data: { word, instead } };
    }
  }
}
