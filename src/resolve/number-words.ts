// Limits as they are said in a language. The digits stay as they are; only the words between them differ.

interface NumberWords {
  readonly to: string;
  readonly atLeast: string;
  readonly atMost: string;
  readonly or: string;
}

const english: NumberWords = { to: 'to', atLeast: 'at least', atMost: 'at most', or: 'or' };

const byLanguage: Readonly<Record<string, NumberWords>> = {
  en: english,
  es: { to: 'a', atLeast: 'al menos', atMost: 'como máximo', or: 'o' },
  fr: { to: 'à', atLeast: 'au moins', atMost: 'au plus', or: 'ou' },
  de: { to: 'bis', atLeast: 'mindestens', atMost: 'höchstens', or: 'oder' },
  pt: { to: 'a', atLeast: 'pelo menos', atMost: 'no máximo', or: 'ou' },
};

function wordsOf(language: string): NumberWords {
  const [main = ''] = language.split('-');
  return byLanguage[main] ?? english;
}

/** `3.6 to 4.2 V` in another language; one that is not known keeps the English words. */
export function sayLimits(text: string, language: string): string {
  const words = wordsOf(language);
  if (words === english) return text;
  return text
    .replaceAll(/(?<=\s)to(?=\s)/g, words.to)
    .replaceAll(/\bat least(?=\s)/g, words.atLeast)
    .replaceAll(/\bat most(?=\s)/g, words.atMost);
}

/** `low idle or off`. */
export function sayEither(words: readonly string[], language: string): string {
  const joint = ` ${wordsOf(language).or} `;
  return words.length < 3 ? words.join(joint) : `${words.slice(0, -1).join(', ')}${joint}${words.at(-1)}`;
}
