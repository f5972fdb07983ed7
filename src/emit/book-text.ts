// Texts of a book's shared files (names, how to tell, hazards) as words, for one machine and header where that matters.

import type { Machine } from '../model/book.js';
import type { Choice, Template, Text, Words } from '../model/text.js';

/** For whom a text is read. Without it only texts that say the same to everyone can be read. */
export interface Reader {
  readonly machine?: Machine;
  /** What the rig answers to in a choice: ids of its machine, header, and header type. */
  readonly keys: readonly string[];
}

/** Anyone: no machine chosen yet. */
export const anyone: Reader = { keys: [] };

/** The text in every language it is written in. Throws where a choice or a placeholder has nothing for this reader. */
export function wordsOf(text: Text, reader: Reader = anyone): Words {
  const words: Record<string, string> = {};
  for (const [language, choice] of text.languages) words[language] = fill(pick(choice, reader), reader, language);
  return words;
}

/** Whether a text is the same for every reader. */
export function isSameForAll(text: Text): boolean {
  return [...text.languages.values()].every(
    (choice) => choice.kind === 'one' && choice.value.parts.every((part) => part.kind === 'words'),
  );
}

function pick<T>(choice: Choice<T>, reader: Reader): T {
  if (choice.kind === 'one') return choice.value;
  const entry =
    choice.entries.find(({ key }) => reader.keys.includes(key.value)) ??
    choice.entries.find(({ key }) => key.value === 'other');
  if (!entry) throw new Error(`A choice in ${choice.at.file} has nothing for ${reader.keys.join(', ') || 'everyone'}`);
  return pick(entry.value, reader);
}

function fill(template: Template, reader: Reader, language: string): string {
  return template.parts
    .map((part) => (part.kind === 'words' ? part.text : placeOf(part.path, reader, language)))
    .join('');
}

function placeOf(path: string, reader: Reader, language: string): string {
  const [owner, name = ''] = path.split('.');
  const word = owner === 'machine' ? reader.machine?.words.get(name) : undefined;
  if (word) {
    const words = wordsOf(
      { at: word.at, languages: pick(word.text, reader).languages },
      { keys: reader.keys }, // a word that names another word would never end
    );
    return words[language] ?? Object.values(words)[0] ?? '';
  }
  const parameter = owner === 'machine' ? reader.machine?.parameters.get(name) : undefined;
  if (parameter) return pick(parameter.value, reader).source.value;
  throw new Error(`The place \`{${path}}\` in a shared text has nothing to stand there`);
}
