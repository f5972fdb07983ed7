// `second-person: true` in words, since a page has to say what a second person is there for.

import type { Template, Text } from '../../model/text.js';
import type { YamlNode } from '../tree.js';
import type { Reading } from './reading.js';
import { mainLanguage } from './texts.js';

const sentences: Readonly<Record<string, string>> = {
  en: 'A second person stands by and watches.',
  es: 'Una segunda persona está al lado y observa.',
};

/** Whether `true` is written there. */
export function isTrue(node: YamlNode): boolean {
  return node.kind === 'scalar' && node.core === true;
}

/** That a second person is there, in every language of the book that these words are known in. */
export function secondPersonWords(reading: Reading, node: YamlNode): Text {
  const main = mainLanguage(reading);
  const languages = reading.languages.flatMap((language) => {
    const text = sentences[language] ?? (language === main ? sentences.en : undefined);
    if (text === undefined) return [];
    const template: Template = { source: { value: text, at: node.at }, parts: [{ kind: 'words', text }] };
    return [[language, { kind: 'one' as const, value: template, at: node.at }] as const];
  });
  return { at: node.at, languages: new Map(languages) };
}
