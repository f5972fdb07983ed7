// An order in the note, expectation or detail of a step that is to be followed before the step: who reads on is told too late.

import type { Book } from '../../model/book.js';
import { templatesOf } from '../../model/walk.js';
import { type Caseless, caseless } from '../../text/caseless.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { actsOf } from '../text/acts.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';
import { judgePassages, type Passage } from '../text/passages.js';

interface Facts {
  readonly step: string;
  readonly words: string;
  readonly where: 'note' | 'expectation' | 'detail';
}

export default rule({
  id: 'caution-behind-step',
  severity: 'warning',
  needs: 'book',
  run: (book) => judgePassages(book, findCautions),
  say: ({ step, words, where }: Facts) => ({
    message: `The ${where} of \`${step}\` says what to do before it: “${words}”`,
    help: `Make a step of it before \`${step}\`, a condition under \`needs\`, or a hazard of the step.`,
    note: 'DOE-STD-1029: what has to be known before a step stands before it. A note is read when the step is done, and a detail only by who unfolds it.',
  }),
});

function* findCautions(passages: readonly Passage[], book: Book): Iterable<Finding<Facts>> {
  const [first] = book.settings.languages;
  for (const passage of passages) {
    const { source, hidden, step, language: code, sentences } = passage;
    const language = code === first ? languageOf(code) : undefined;
    const where = placeOf(passage);
    if (!step || !language || !where) continue;
    const pattern = patternFor(passage, language);
    for (const sentence of sentences) {
      const text = hidden.slice(sentence.start, sentence.end);
      if (!pattern.test(text) || actsOf(hidden, sentence, language).length === 0) continue;
      const words = source.value.slice(sentence.start, sentence.end).replace(/\s+/g, ' ');
      const at = spanWithin(source, sentence.start, sentence.end);
      yield { at, data: { step: step.id.value, words: words.replace(/[.!]$/, ''), where } };
    }
  }
}

function placeOf({ role, section }: Passage): Facts['where'] | undefined {
  if (role === 'note' || role === 'expectation') return role;
  return role === 'prose' && section?.step !== undefined ? 'detail' : undefined;
}

const patterns = new Map<string, Caseless>();

/** Finds `before you do this`, and before the very act that the step orders. */
function patternFor({ step, language: code }: Passage, language: Language): Caseless {
  const [act] = [...templatesOf(step?.do, code)];
  const verb = /^\p{L}{3,}/u.exec(act?.source.value ?? '')?.[0].toLowerCase() ?? '';
  // `raise` and `raising`, `levante` and `levantar`
  const stem = verb.length > 4 ? verb.slice(0, -1) : verb;
  const key = `${code} ${stem}`;
  const known =
    patterns.get(key) ?? caseless(language.beforehand.replace('VERB', stem === '' ? '(?!)' : `${stem}\\p{L}*`));
  patterns.set(key, known);
  return known;
}
