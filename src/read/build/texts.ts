// Texts for people: a text in one language, a map by language, a choice by rig, and the same text in translation files.

import type { Choice, Template, Text } from '../../model/text.js';
import type { Span } from '../../text/source.js';
import { readTemplate } from '../template.js';
import type { YamlNode, YamlScalar } from '../tree.js';
import { choiceOf } from './choice.js';
import { childOf, isBlank, located, type Part, wordsBehind } from './part.js';
import { markUsed, noteMissing, type Reading, report, reportGap } from './reading.js';

/** Whether a text must be there in every language: hinted at, an error, or not at all (names, what a display shows). */
export type Translated = 'should' | 'must' | 'may-stay';

/** The text behind a key. */
export function textBehind(
  reading: Reading,
  part: Part | undefined,
  key: string,
  translated: Translated = 'should',
): Text | undefined {
  const child = childOf(reading, part, key);
  return child && textOf(reading, child, translated);
}

/** The text that a part is. Missing where it is of another kind, which the schema has reported. */
export function textOf(reading: Reading, part: Part, translated: Translated = 'should'): Text | undefined {
  const languages = new Map<string, Choice<Template>>();
  for (const language of reading.languages) {
    const own = inLanguage(reading, part.node, language);
    const words = part.words.get(language);
    if (words) markAllUsed(reading, words);
    const choice = own ?? (words && inLanguage(reading, words, language, true));
    if (choice) languages.set(language, choice);
  }
  if (languages.size === 0) return undefined;
  reportMissing(reading, { languages, at: part.node.at, translated });
  return languages.has(mainLanguage(reading)) ? { at: part.node.at, languages } : undefined;
}

// the keys of a text by language or by rig are no keys of the original
function markAllUsed(reading: Reading, node: YamlNode): void {
  for (const { key, value } of node.kind === 'map' ? node.entries : []) {
    markUsed(reading, key);
    markAllUsed(reading, value);
  }
}

/** The language that a book is written in. */
export function mainLanguage(reading: Reading): string {
  return reading.languages[0] ?? 'en';
}

function reportMissing(
  reading: Reading,
  text: { readonly languages: ReadonlyMap<string, unknown>; readonly at: Span; readonly translated: Translated },
): void {
  const main = mainLanguage(reading);
  for (const language of reading.languages.filter((code) => !text.languages.has(code))) {
    if (language === main) {
      reportGap(reading, {
        code: 'missing-language',
        message: `This text has no \`${language}\`, the language that the book is written in`,
        at: text.at,
        help: `Add \`${language}:\` to the map.`,
      });
    } else if (text.translated === 'must') {
      report(reading, {
        code: 'missing-language',
        message: `This safety text has no \`${language}\`, a language of the book`,
        at: text.at,
        help: `Give it in every language: \`{ ${main}: …, ${language}: … }\`.`,
        note: 'Whoever reads this page in that language would have to guess what can hurt them.',
      });
    } else if (text.translated === 'should') {
      noteMissing(reading, { language, at: text.at });
    }
  }
}

/**
 * What a node says in one language. A text without a language is in the book's first one, or in the file's own
 * (`isOwn`). A choice by rig may stand around or inside the languages.
 */
function inLanguage(
  reading: Reading,
  node: YamlNode,
  language: string,
  isOwn = language === mainLanguage(reading),
): Choice<Template> | undefined {
  if (node.kind === 'list' || isBlank(node)) return undefined;
  if (node.kind === 'scalar') return isOwn ? choiceOf(node, (text) => templateOf(reading, text)) : undefined;
  if (isLanguageMap(reading, node)) {
    reportUnknownLanguages(reading, node);
    const entry = node.entries.find(({ key }) => key.text.value === language);
    return entry && inLanguage(reading, entry.value, language, true);
  }
  const entries = node.entries.flatMap(({ key, value }) => {
    const id = located(key);
    const choice = inLanguage(reading, value, language, isOwn);
    return id && choice ? [{ key: id, value: choice }] : [];
  });
  // half a choice would leave a rig without words: such a text counts as missing
  if (entries.length < node.entries.length || entries.length === 0) return undefined;
  return { kind: 'choice', entries, at: node.at };
}

/** Whether a map gives a text by language: one of its keys is a language of the book. */
export function isLanguageMap(reading: Reading, node: YamlNode): boolean {
  return node.kind === 'map' && node.entries.some(({ key }) => reading.languages.includes(key.text.value));
}

function reportUnknownLanguages(reading: Reading, node: YamlNode): void {
  for (const { key } of node.kind === 'map' ? node.entries : []) reportUnknownLanguage(reading, key);
}

/** Reports a key that is meant as a language and is none of the book. */
export function reportUnknownLanguage(reading: Reading, key: YamlScalar): void {
  if (reading.languages.includes(key.text.value)) return;
  reportGap(reading, {
    code: 'unknown-language',
    message: `\`${key.text.value}\` is no language of the book, which has ${reading.languages.map((code) => `\`${code}\``).join(', ')}`,
    at: key.at,
    help: 'Mend the code, or add the language to `languages` in book.yaml.',
  });
}

function templateOf(reading: Reading, text: Template['source']): Template {
  const { value, diagnostics } = readTemplate(text);
  for (const fault of diagnostics) report(reading, fault);
  return value;
}

/** The label of a part, or the words that its id makes where none is given: `on_ground` is shown as *On ground*. */
export function labelOf(reading: Reading, entry: Part & { readonly key: YamlScalar }): Text {
  return (
    textBehind(reading, entry, 'label') ?? labelFrom(reading, entry.key, wordsBehind(reading, entry.words, 'label'))
  );
}

/** The words that an id makes; other languages have what their files say. */
export function labelFrom(reading: Reading, key: YamlScalar, words?: Part['words']): Text {
  const plain = plainWords(key);
  return madeText(reading, { key, shown: plain.charAt(0).toUpperCase() + plain.slice(1), words });
}

/**
 * A word that people choose: its own text, or the words that its id makes. Those are read in every language, so one that has
 * none is missing there.
 */
export function choiceText(
  reading: Reading,
  key: YamlScalar,
  { own, words }: { readonly own: YamlNode | undefined; readonly words: Part['words'] },
): Text {
  const text = own && !isBlank(own) ? textOf(reading, { node: own, words }) : undefined;
  if (text) return text;
  const made = madeText(reading, { key, shown: plainWords(key), words });
  reportMissing(reading, { languages: made.languages, at: key.at, translated: 'should' });
  return made;
}

function plainWords(key: YamlScalar): string {
  return key.text.value.replaceAll(/[-_]+/g, ' ').trim();
}

interface Making {
  readonly key: YamlScalar;
  readonly shown: string;
  readonly words: Part['words'] | undefined;
}

function madeText(reading: Reading, { key, shown, words }: Making): Text {
  const template: Template = { source: { value: shown, at: key.at }, parts: [{ kind: 'words', text: shown }] };
  const languages = new Map<string, Choice<Template>>();
  languages.set(mainLanguage(reading), { kind: 'one', value: template, at: key.at });
  for (const [language, node] of words ?? []) {
    const choice = inLanguage(reading, node, language, true);
    if (choice) languages.set(language, choice);
  }
  return { at: key.at, languages };
}
