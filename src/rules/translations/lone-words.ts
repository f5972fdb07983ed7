// The words of a text in one language, where it has them without a choice by rig.

import type { Text } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import type { SourceText } from '../../text/source.js';

/** Words as they read: without the blanks and line breaks of the file. */
export interface LoneWords {
  readonly words: string;
  readonly at: SourceText['at'];
}

/** Undefined where a text is missing in the language, or differs by rig. */
export function loneWords(text: Text | undefined, language: string): LoneWords | undefined {
  const choice = text?.languages.get(language);
  const leaves = choice ? [...leavesOf(choice)] : [];
  const [leaf] = leaves;
  if (!leaf || leaves.length > 1) return undefined;
  return { words: leaf.source.value.trim().replaceAll(/\s+/g, ' '), at: leaf.source.at };
}
