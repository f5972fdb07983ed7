// Compiled books for the tests of the history: the base book with edits of its text, and what changed as lines.

import { compileBook } from '../../src/build.js';
import { lineOf, sayChange } from '../../src/emit/changes/say-change.js';
import { voiceFor } from '../../src/emit/voice.js';
import type { Change, Comparison, How } from '../../src/model/comparison.js';
import type { CompiledBook } from '../../src/model/compiled-book.js';
import { bookOf, demoBook, filesOfBook } from '../emit-pages/books.js';

/** In which file which words become which; from nothing to some is a new file, from nothing to nothing takes it away. */
export type Edit = readonly [file: string, from: string, to: string];

const { texts: baseTexts, figures } = filesOfBook('tests/books/base');

/** The base book, edited. Throws where an edit finds nothing, or what comes of it cannot be worked out. */
export function edited(edits: readonly Edit[] = [], base: ReadonlyMap<string, string> = baseTexts): CompiledBook {
  const texts = new Map(base);
  for (const [file, from, to] of edits) {
    const text = texts.get(file) ?? '';
    if (from !== '' && !text.includes(from)) throw new Error(`${file} has no ${from}`);
    if (from === '' && to === '') texts.delete(file);
    else texts.set(file, from === '' ? to : text.replace(from, to));
  }
  const { resolved } = bookOf(texts, { figures, proved: false });
  return compileBook(resolved, figures);
}

/** The demo book, compiled. */
export function compiledDemo(): CompiledBook {
  const demo = demoBook({ proved: false });
  return compileBook(demo.resolved, demo.figures);
}

const voice = voiceFor('en', 'en');

/** Every change of a comparison as a line: `safety: Step 3 (raise) (tarn-40): gone: Raise it.` */
export function linesOf({ shared, procedures }: Comparison): readonly string[] {
  const line = (change: Change): string => `${change.weight}: ${lineOf(sayChange(change, voice))}`;
  return [
    ...shared.map((change) => `book ${line(change)}`),
    ...procedures.flatMap(({ id, how, alert, changes }) => [
      ...(how === 'changed' ? [] : [`${id}: ${how}`]),
      ...(alert ? [`${id}: ${alert}`] : []),
      ...changes.map((change) => `${id} ${line(change)}`),
    ]),
  ].map((text) => text.replaceAll('\u00a0', ' '));
}

const mirrored: Readonly<Record<How, How>> = {
  added: 'dropped',
  dropped: 'added',
  changed: 'changed',
  moved: 'moved',
  renamed: 'renamed',
  respelled: 'respelled',
};

/** What stands in a comparison once for each change, seen from the other side if `turned`. Ids of renamed parts are left out. */
export function essence({ shared, procedures }: Comparison, turned: boolean): readonly string[] {
  const of = ({ about, how, weight, rigs, before, after, subject }: Change): string => {
    const kind = how === 'renamed' || subject?.kind === 'physics' ? subject?.kind : `${subject?.kind} ${subject?.id}`;
    const own = about.replace(/^rigs-(gained|lost)$/, 'rigs');
    const said = turned ? [after, before] : [before, after];
    return JSON.stringify([own, turned ? mirrored[how] : how, weight, rigs, kind, ...(own === 'rigs' ? [] : said)]);
  };
  return [...shared.map(of), ...procedures.flatMap(({ changes }) => changes.map(of))].sort();
}
