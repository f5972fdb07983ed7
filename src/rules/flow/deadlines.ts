// The time that a step says it must be done within.

import type { Step } from '../../model/procedure.js';
import { templatesOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';

/** By language: a time that something must be done within. */
const deadlines: Readonly<Record<string, RegExp>> = {
  en: /\bwithin (?:the next )?(?:\{[^}]+\}|\d[\d./]*)\s*(?:s|sec|seconds?|min|minutes?|h|hours?)\b/i,
  es: /\b(?:en menos de|dentro de|antes de que pasen) (?:\{[^}]+\}|\d[\d,./]*)\s*(?:s|segundos?|min|minutos?|h|horas?)\b/i,
};

/** The first deadline in what a step tells to do: its words, as in `within 10 s`, and where they stand. */
export function deadlineOf(step: Step, language: string): { readonly words: string; readonly at: Span } | undefined {
  for (const { source } of templatesOf(step.do, language)) {
    const found = deadlines[language]?.exec(source.value);
    if (found) return { words: found[0], at: spanWithin(source, found.index, found.index + found[0].length) };
  }
  return undefined;
}
