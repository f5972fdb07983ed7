// A turn to the right or to the left, and nobody says from where it is looked at.

import type { Adjuster, Procedure, Step } from '../../model/procedure.js';
import type { Template } from '../../model/text.js';
import { templatesOf, textsOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import type { Language } from '../text/languages/language.js';
import { languageOf } from '../text/languages/languages.js';

interface Facts {
  readonly words: string;
  readonly of: string;
  readonly key: 'positive' | 'step';
}

export default rule({
  id: 'turn-without-viewpoint',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const told = new Set<string>();
    for (const code of book.settings.languages) {
      const language = languageOf(code);
      if (!language) continue;
      for (const found of [...inAdjusters(procedure, code, language), ...inSteps(procedure, code, language)]) {
        const key = `${found.at.file}:${found.at.start}`;
        if (told.has(key)) continue;
        told.add(key);
        yield found;
      }
    }
  },
  say: ({ words, of, key }: Facts) => ({
    message: `\`${words}\` says which way ${key === 'positive' ? `\`${of}\` turns` : `to turn at step \`${of}\``}, and not from where that is looked at`,
    help:
      key === 'positive'
        ? 'Say where one stands: `clockwise, seen from the left end of the header`. Where it differs by side, write `positive: { left: ..., right: ... }`.'
        : 'Say where one stands, as in `clockwise, seen from below`; or give the way in `positive` of the adjuster that the step turns.',
    note: 'What is clockwise from one end is counter-clockwise from the other, and a turn the wrong way makes a fault twice as large.',
  }),
});

function inAdjusters({ adjusters }: Procedure, code: string, language: Language): readonly Finding<Facts>[] {
  return adjusters.flatMap((adjuster) => {
    const label = textOf(adjuster, code);
    return [...templatesOf(adjuster.positive, code)].flatMap((template) => {
      const { value } = template.source;
      const isClear = language.seenFrom.test(value) || language.faced.test(`${label} ${value}`);
      return isClear ? [] : findingIn(template, language, { of: adjuster.id, key: 'positive' });
    });
  });
}

function textOf({ label }: Adjuster, code: string): string {
  return [...templatesOf(label, code)].map(({ source }) => source.value).join(' ');
}

function inSteps(procedure: Procedure, code: string, language: Language): readonly Finding<Facts>[] {
  return procedure.steps.flatMap((step) => {
    const written = [...textsOfStep(procedure, step, code)];
    // one place says it for the whole step, and an adjuster says it on the same page
    if (written.some(({ source }) => language.seenFrom.test(source.value))) return [];
    if (step.adjust.some(({ value }) => turns(procedure, value, { code, language }))) return [];
    return written.flatMap((template) => {
      const { value } = template.source;
      const isClear = language.threaded.test(value) || language.faced.test(value);
      return isClear ? [] : findingIn(template, language, { of: step.id.value, key: 'step' });
    });
  });
}

function* textsOfStep(procedure: Procedure, step: Step, code: string): Iterable<Template> {
  for (const use of textsOf(procedure)) if (use.step === step) yield* templatesOf(use.text, code);
  for (const section of procedure.prose.get(code) ?? []) if (section.step === step.id.value) yield section.body;
}

function turns(procedure: Procedure, id: string, of: { readonly code: string; readonly language: Language }): boolean {
  const adjuster = procedure.adjusters.find((one) => one.id === id);
  return [...templatesOf(adjuster?.positive, of.code)].some(({ source }) => turnIn(source.value, of.language) !== null);
}

function turnIn(text: string, { clockwise, counterClockwise }: Language): RegExpExecArray | null {
  return counterClockwise.exec(text) ?? clockwise.exec(text);
}

function findingIn({ source }: Template, language: Language, of: Pick<Facts, 'of' | 'key'>): readonly Finding<Facts>[] {
  const found = turnIn(source.value, language);
  if (!found) return [];
  const [words] = found;
  return [{ at: spanWithin(source, found.index, found.index + words.length), data: { words, ...of } }];
}
