// For whom a card holds, in words: machine, headers, and what else tells its rigs apart.

import type { ResolvedBook, Rig, Variant } from '../../model/resolved.js';
import type { Text } from '../../model/text.js';
import { wordsOf } from '../book-text.js';
import { cardWord } from './words.js';

/** `Tarn 40 · 12-row header · with lateral tilt · from 70-00300`. */
export function rigWords(
  { book, rigs: all }: ResolvedBook,
  { variant, machine, language }: { variant: Pick<Variant, 'rigs'>; machine: string; language: string },
): string {
  const first = book.settings.languages[0] ?? 'en';
  const say = (text: Text | undefined, id: string): string => {
    const words = text ? wordsOf(text) : {};
    return words[language] ?? words[first] ?? id;
  };
  const own = variant.rigs.filter((rig) => rig.machine === machine);
  const headers = [...new Set(own.map(({ header }) => header))];
  const every = all.filter((rig) => rig.machine === machine).length;
  const names = headers.map((id) => say(book.headers.get(id)?.name, id));
  const options = book.machines.get(machine)?.options ?? [];
  const optionName = (id: string): string =>
    say(options.find((option) => option.id === id)?.label, id.replaceAll('-', ' '));
  const limits = [...new Set(own.map((rig) => limitsOf(rig, language, optionName)))].filter((words) => words !== '');
  return [
    say(book.machines.get(machine)?.name, machine),
    headers.length < every || every === 1 ? names.join(` ${cardWord(language, 'or')} `) : '',
    limits.join(` ${cardWord(language, 'or')} `),
  ]
    .filter((part) => part !== '')
    .join(' · ');
}

function limitsOf(rig: Rig, language: string, optionName: (id: string) => string): string {
  const options = [...rig.options].map(([id, fitted]) =>
    cardWord(language, fitted ? 'with_option' : 'without_option', { option: optionName(id) }),
  );
  const software = [...rig.software.values()].map((versions) =>
    cardWord(language, 'software', { versions: versions.join(` ${cardWord(language, 'or')} `) }),
  );
  const { from, to } = rig.serials ?? {};
  return [
    ...options,
    ...software,
    ...(from ? [cardWord(language, from.included ? 'from' : 'after', { serial: from.serial })] : []),
    ...(to ? [cardWord(language, to.included ? 'to' : 'below', { serial: to.serial })] : []),
  ].join(', ');
}
