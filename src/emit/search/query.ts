// Asks a loaded index. Runs in the browser as it is. A word that stands there exactly counts before one that begins so,
// that before one that is nearly so; codes and numbers are never matched roughly. Hits are grouped by procedure.

import MiniSearch, { type Options } from 'minisearch';
import type { Line, SearchFile, Synonym } from './index-shape.js';
import { isSilent, queryWords, type Token, tokenize } from './tokenize.js';

interface Indexed {
  readonly id: number;
  readonly text: string;
  readonly also: string;
}

/** A file whose lines can be asked. */
export interface SearchPart {
  readonly file: SearchFile;
  readonly index: MiniSearch<Indexed>;
}

const options: Options<Indexed> = {
  fields: ['text', 'also'],
  storeFields: [],
  tokenize: (text) => tokenize(text).map(({ word }) => word),
  processTerm: (term) => (isSilent(term) ? null : term),
};

/** Indexes the lines of a file: a few milliseconds for a thousand of them. */
export function indexFile(file: SearchFile): SearchPart {
  const index = new MiniSearch<Indexed>(options);
  // the number of a step is shown beside it and is no word of it
  index.addAll(
    file.lines.map(([kind, , text, , extra, also = ''], id) => ({
      id,
      text,
      also: kind === 'p' ? also : `${extra} ${also}`,
    })),
  );
  return { file, index };
}

export interface Hit {
  readonly line: Line;
  /** Words of the line that were met, to be marked. */
  readonly met: ReadonlySet<string>;
}

/** A procedure that was found, with its matching lines, the best first. */
export interface Group {
  readonly procedure: number;
  readonly hits: readonly Hit[];
}

export type Search = (query: string, most?: number) => readonly Group[];

/** How well a word was met. */
const exact = 1;
const inflected = 0.95;
const begun = 0.8;
const rough = 0.55;

/** What a kind of line weighs against the others where words are met alike. */
const kindWeight: Readonly<Record<Line[0], number>> = { t: 1.15, s: 1.05, v: 1.05, p: 1, n: 0.9 };

const linesShown = 3;

/** A procedure with less than this share of the best one's score is no answer. */
const worthShowing = 0.3;

/** A search over the files of one home. */
export function openSearch(parts: readonly SearchPart[]): Search {
  const synonyms = parts.flatMap(({ file }) => file.synonyms);
  return (query, most = 20) => {
    const found = new Map<number, ScoredGroup>();
    for (const words of rephrase(queryWords(query), synonyms)) {
      for (const group of ask(parts, words)) {
        const other = found.get(group.procedure);
        if (!other || other.score < group.score) found.set(group.procedure, group);
      }
    }
    const groups = [...found.values()].sort((a, b) => b.score - a.score || a.procedure - b.procedure);
    const least = worthShowing * (groups[0]?.score ?? 0);
    return groups.filter(({ score }) => score >= least).slice(0, most);
  };
}

interface ScoredGroup extends Group {
  readonly score: number;
}

interface LineMatch {
  readonly line: Line;
  /** By query word: how well it was met. */
  readonly quality: Map<string, number>;
  readonly met: Set<string>;
}

function ask(parts: readonly SearchPart[], words: readonly Token[]): readonly ScoredGroup[] {
  const matches = new Map<Line, LineMatch>();
  const weights = new Map<string, number>();
  const total = parts.reduce((sum, { file }) => sum + file.lines.length, 0);
  words.forEach((token, i) => {
    let count = 0;
    for (const part of parts) count += meet(part, token, i === words.length - 1, matches);
    // rare words tell more; a word that nothing has tells nothing
    weights.set(token.word, count === 0 ? 0 : Math.log(1 + total / count));
  });
  return grouped([...matches.values()], weights);
}

/** Adds what one word meets to the lines; gives how many lines it met. */
function meet(
  { file, index }: SearchPart,
  { word, code }: Token,
  last: boolean,
  matches: Map<Line, LineMatch>,
): number {
  const distance = code || word.length < 4 ? 0 : word.length < 6 ? 1 : 2;
  const results = index.search(word, {
    tokenize: (text) => [text],
    processTerm: (term) => term,
    prefix: last || word.length > 2,
    fuzzy: distance === 0 ? false : distance,
    maxFuzzy: 2,
  });
  for (const { id, terms } of results) {
    const line = file.lines[id as number];
    if (!line) continue;
    const match = matches.get(line) ?? { line, quality: new Map(), met: new Set() };
    matches.set(line, match);
    for (const term of terms) {
      const quality = qualityOf(word, term);
      match.quality.set(word, Math.max(quality, match.quality.get(word) ?? 0));
      match.met.add(term);
    }
  }
  return results.length;
}

function qualityOf(word: string, term: string): number {
  if (term === word) return exact;
  if (term === `${word}s` || word === `${term}s` || word === `${term}es`) return inflected;
  return term.startsWith(word) ? begun : rough;
}

function grouped(matches: readonly LineMatch[], weights: ReadonlyMap<string, number>): readonly ScoredGroup[] {
  const byProcedure = new Map<number, LineMatch[]>();
  for (const match of matches) {
    const list = byProcedure.get(match.line[1]) ?? [];
    list.push(match);
    byProcedure.set(match.line[1], list);
  }
  return [...byProcedure].map(([procedure, list]) => {
    const scored = list
      .map((match) => ({ match, score: lineScore(match, weights) }))
      .sort((a, b) => b.score - a.score || a.match.line[2].length - b.match.line[2].length);
    const best = scored[0]?.score ?? 0;
    const hits = scored
      .filter(({ match, score }) => match.line[0] !== 't' && score >= 0.6 * best)
      .slice(0, linesShown)
      .map(({ match: { line, met } }) => ({ line, met }));
    return { procedure, hits, score: 1.5 * best + unionScore(list, weights) };
  });
}

function lineScore({ line, quality }: LineMatch, weights: ReadonlyMap<string, number>): number {
  let score = 0;
  for (const [word, met] of quality) score += met * (weights.get(word) ?? 0);
  return score * kindWeight[line[0]];
}

function unionScore(list: readonly LineMatch[], weights: ReadonlyMap<string, number>): number {
  let score = 0;
  for (const [word, weight] of weights) {
    score += weight * Math.max(0, ...list.map(({ quality }) => quality.get(word) ?? 0));
  }
  return score;
}

/** The query as it is, and once for each other word in it with the book's own word in its place. */
export function rephrase(words: readonly Token[], synonyms: readonly Synonym[]): readonly (readonly Token[])[] {
  const phrasings: (readonly Token[])[] = [words];
  for (const [from, to] of synonyms) {
    const at = words.findIndex((_, i) => from.every((word, j) => sameWord(words[i + j]?.word, word)));
    if (at < 0 || phrasings.length > 8) continue;
    const put = to.map((word) => ({ word, code: /\d/.test(word) }));
    phrasings.push([...words.slice(0, at), ...put, ...words.slice(at + from.length)]);
  }
  return phrasings;
}

function sameWord(asked: string | undefined, word: string): boolean {
  return asked === word || asked === `${word}s` || asked === `${word}es`;
}

/** A line cut where words were met, for marking. */
export function markParts(
  text: string,
  met: ReadonlySet<string>,
): readonly { readonly text: string; readonly met: boolean }[] {
  const parts: { text: string; met: boolean }[] = [];
  for (const piece of text.split(/([\p{L}\p{N}]+(?:[-.][\p{L}\p{N}]+)*)/u)) {
    if (piece === '') continue;
    const isMet = tokenize(piece).some(({ word }) => met.has(word));
    const last = parts.at(-1);
    if (last && last.met === isMet) last.text += piece;
    else parts.push({ text: piece, met: isMet });
  }
  return parts;
}
