// Text to search words: the same at build time and in the browser, so it uses nothing but the language.
// Accents are folded; a code is one word however it is spaced: `P-8`, `P8` and `P 8` all give `p8`.

/** A search word. `code` is one that has digits: never matched roughly. */
export interface Token {
  readonly word: string;
  readonly code: boolean;
}

const accents = /\p{M}/gu;
// letters and digits in one run, with the joints that keep a code or a number together
const run = /[\p{L}\p{N}]+(?:[-.][\p{L}\p{N}]+)*/gu;
const spacedCode = /(?<![\p{L}\p{N}.-])(\p{L}{1,2}) (\d{1,4}\p{L}?)(?![\p{L}\p{N}.])/gu;

/** Words that say nothing, in English and Spanish: they neither count nor join with a number behind them. */
const silent = new Set(
  'a an and are as at be by do for from if in into is it its no not of on or so than that the then this to up what when where which with you your al con de del el en es esta este la las lo los mas no o para por que se sin su un una y'.split(
    ' ',
  ),
);

/** Lower case without accents. */
export function fold(text: string): string {
  return text.normalize('NFD').replaceAll(accents, '').toLowerCase();
}

/** The words of a text in order. A hyphened word gives its parts too: `tarn-40` gives `tarn40`, `tarn`, `40`. */
export function tokenize(text: string): readonly Token[] {
  const folded = fold(text)
    .replaceAll('\u00a0', ' ')
    .replaceAll(/[\u2010-\u2015\u2212]/g, '-');
  const words: string[] = [];
  for (const [, letters = '', digits = ''] of folded.matchAll(spacedCode)) {
    if (!silent.has(letters)) words.push(letters + digits);
  }
  for (const [whole] of folded.matchAll(run)) words.push(...wordsOfRun(whole));
  return words.map((word) => ({ word, code: /\d/.test(word) }));
}

function wordsOfRun(whole: string): readonly string[] {
  // a decimal number stays as it is; a sentence's end never joins two words
  if (/^\d+(?:\.\d+)?$/.test(whole)) return [whole];
  const pieces = whole.split('.').flatMap((piece) => {
    const parts = piece.split('-');
    if (parts.length === 1) return parts;
    return /\d/.test(piece) ? [parts.join(''), ...parts] : parts;
  });
  return pieces.filter((piece) => piece !== '');
}

/** The words of a query that count; all of them where none would be left. */
export function queryWords(query: string): readonly Token[] {
  const tokens = tokenize(query);
  // `p 8` is meant as the code it spells, not as a letter and a number beside it
  const spelled = new Set(
    [...fold(query).matchAll(spacedCode)]
      .filter(([, letters = '']) => !silent.has(letters))
      .flatMap(([, letters = '', digits = '']) => [letters, digits]),
  );
  const hyphened = new Set(
    [...fold(query).matchAll(/[\p{L}\d]+(?:-[\p{L}\d]+)+/gu)]
      .filter(([whole]) => /\d/.test(whole))
      .flatMap(([whole]) => whole.split('-')),
  );
  const joined = tokens.filter(({ word }) => !spelled.has(word) && !hyphened.has(word));
  const telling = joined.filter(({ word }) => !silent.has(word));
  return telling.length > 0 ? telling : joined;
}

/** Whether a word says nothing by itself. */
export function isSilent(word: string): boolean {
  return silent.has(word);
}
