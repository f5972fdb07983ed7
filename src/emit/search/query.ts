// Asks a loaded index. Runs in the browser as it is. A word that stands there exactly counts before one that begins so,
// that before one that is nearly so; codes and numbers are never matched roughly. Hits are grouped by procedure.

import MiniSearch, { type Options } from 'minisearch';
import type { Line, SearchFile, Synonym } from './index-shape.js';
import { oneSlip, qualityOf, slipsBetween } from './quality.js';
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

/** What a kind of line weighs against the others where words are met alike. */
const kindWeight: Readonly<Record<Line[0], number>> = { t: 1.3, s: 1.05, v: 1.05, p: 1, n: 0.75 };

/** Longer words are taken as they are: nobody types them by a slip. */
const longest = 20;

/** How much of a line's score depends on how much of it was met. */
const lengthPart = 0.2;

/** What a word counts that stands in what belongs to a line and not in the line itself. */
const besideLine = 0.8;

/** What words beside each other as they were asked add to a line's score. */
const besidePart = 0.25;

const linesShown = 3;

/** A procedure with less than this share of the best one's score is no answer. */
const worthShowing = 0.3;

/** A search over the files of one home. */
export function openSearch(parts: readonly SearchPart[]): Search {
  const synonyms = parts.flatMap(({ file }) => file.synonyms);
  return (query, most = 20) => {
    const found = new Map<number, ScoredGroup>();
    const asked = queryWords(query);
    const meeting = meetOnce(parts);
    for (const words of [...rephrase(asked, synonyms), ...apart(asked, parts, meeting)]) {
      for (const group of ask(parts, words, meeting)) {
        const other = found.get(group.procedure);
        if (!other || other.score < group.score) found.set(group.procedure, group);
      }
    }
    const groups = [...found.values()].sort((a, b) => b.score - a.score || a.procedure - b.procedure);
    const least = worthShowing * (groups[0]?.score ?? 0);
    return groups.filter(({ score }) => score >= least).slice(0, most);
  };
}

/** What a word meets in all parts; `last` where it may only be begun. */
type Meeting = (token: Token, last: boolean) => readonly Met[];

/** Phrasings share most of their words: each is looked up once. */
function meetOnce(parts: readonly SearchPart[]): Meeting {
  const known = new Map<string, readonly Met[]>();
  return (token, last) => {
    const key = `${last ? '>' : ''}${token.word}`;
    const met = known.get(key) ?? withoutSlips(parts.flatMap((part) => meet(part, token, last)));
    known.set(key, met);
    return met;
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
  /** By query word: the word of the line that met it best. */
  readonly terms: Map<string, string>;
}

function ask(parts: readonly SearchPart[], words: readonly Token[], meeting: Meeting): readonly ScoredGroup[] {
  const matches = new Map<Line, LineMatch>();
  const weights = new Map<string, number>();
  const total = Math.max(1, ...parts.map(({ file }) => file.procedures.length));
  words.forEach((token, i) => {
    const met = meeting(token, i === words.length - 1);
    for (const { line, term, quality } of met) {
      const match = matches.get(line) ?? { line, quality: new Map(), met: new Set(), terms: new Map() };
      matches.set(line, match);
      if (quality > (match.quality.get(token.word) ?? 0)) {
        match.quality.set(token.word, quality);
        match.terms.set(token.word, term);
      }
      match.met.add(term);
    }
    // a word that few procedures have tells more; one that none has tells nothing
    const count = new Set(met.map(({ line }) => line[1])).size;
    weights.set(token.word, count === 0 ? 0 : Math.log(1 + total / count));
  });
  // phrasings are compared with each other: what one leaves unmet counts against it
  const whole = [...weights.values()].reduce((sum, weight) => sum + (weight || Math.log(1 + total)), 0);
  const order = words.map(({ word }) => word);
  return grouped([...matches.values()], { weights, order }).map((group) => ({ ...group, score: group.score / whole }));
}

/** What a line's score is worked out from. */
interface Asked {
  /** By word; 0 for one that nothing has. */
  readonly weights: ReadonlyMap<string, number>;
  readonly order: readonly string[];
}

/** The query with a word cut in two, where nothing has the word and something has both parts: `shutdown`, `keep2`. */
function apart(words: readonly Token[], parts: readonly SearchPart[], meeting: Meeting): readonly (readonly Token[])[] {
  return words.flatMap((token, i) => {
    const { word } = token;
    if (word.length < 5 || word.length > longest || meeting(token, i === words.length - 1).length > 0) return [];
    const cuts = token.code
      ? [/^\p{L}+(?=\d)/u.exec(word)?.[0].length ?? 0]
      : Array.from({ length: Math.max(0, word.length - 5) }, (_, at) => at + 3);
    return cuts
      .filter((at) => at > 0)
      .map((at) => [word.slice(0, at), word.slice(at)].map((half) => ({ word: half, code: /\d/.test(half) })))
      .filter((halves) => halves.every((half) => parts.some((part) => hasNearly(part, half))))
      .map((halves) => [...words.slice(0, i), ...halves, ...words.slice(i + 1)]);
  });
}

function hasNearly({ index }: SearchPart, token: Token): boolean {
  return spellings(token, index).some(({ word }) => index.search(word, plainly).length > 0);
}

interface Met {
  readonly line: Line;
  readonly term: string;
  readonly quality: number;
  /** Whether it is met only if something was typed wrong. */
  readonly slips: boolean;
}

/** What is met exactly leaves no room for what is met with slips. */
function withoutSlips(met: readonly Met[]): readonly Met[] {
  return met.some(({ slips }) => !slips) ? met.filter(({ slips }) => !slips) : met;
}

/** What one word meets. Where it stands nowhere as it is, its letters may also be exchanged. */
function meet({ file, index }: SearchPart, token: Token, last: boolean): readonly Met[] {
  const found = new Map<string, Met>();
  for (const { word, edits } of spellings(token, index)) {
    const results = index.search(word, {
      tokenize: (text) => [text],
      processTerm: (term) => term,
      prefix: edits > 0 ? false : last || word.length > 2,
      fuzzy: token.code ? false : mostEdits(word) - edits || false,
      maxFuzzy: 2,
    });
    for (const { id, terms, match } of results) {
      const line = file.lines[id as number];
      if (!line) continue;
      for (const term of terms) {
        // a word of the line itself counts for more than one that stands beside it
        const own = qualityOf(token.word, term);
        const quality = own * (match[term]?.includes('text') ? 1 : besideLine);
        const key = `${String(id)} ${term}`;
        if (quality > (found.get(key)?.quality ?? 0)) found.set(key, { line, term, quality, slips: own <= oneSlip });
      }
    }
  }
  return [...found.values()];
}

function mostEdits(word: string): number {
  return word.length < 4 ? 0 : word.length < 6 ? 1 : 2;
}

/** The word itself and, where no line has it, the words that come of exchanging two neighbours in it. */
function spellings(
  { word, code }: Token,
  index: SearchPart['index'],
): readonly { readonly word: string; readonly edits: number }[] {
  const itself = { word, edits: 0 };
  if (code || word.length < 4 || word.length > longest || index.search(word, plainly).length > 0) return [itself];
  const exchanged = Array.from({ length: word.length - 1 }, (_, i) => ({
    word: word.slice(0, i) + word.charAt(i + 1) + word.charAt(i) + word.slice(i + 2),
    edits: 1,
  }));
  return [itself, ...exchanged];
}

const plainly = {
  tokenize: (text: string) => [text],
  processTerm: (term: string) => term,
  prefix: false,
  fuzzy: false,
};

function grouped(matches: readonly LineMatch[], asked: Asked): readonly ScoredGroup[] {
  const byProcedure = new Map<number, LineMatch[]>();
  for (const match of matches) {
    const list = byProcedure.get(match.line[1]) ?? [];
    list.push(match);
    byProcedure.set(match.line[1], list);
  }
  return [...byProcedure].map(([procedure, list]) => {
    const scored = list
      .map((match) => ({ match, score: lineScore(match, asked) }))
      .sort((a, b) => b.score - a.score || a.match.line[2].length - b.match.line[2].length);
    const best = scored[0]?.score ?? 0;
    const hits = scored
      .filter(({ match, score }) => match.line[0] !== 't' && score >= 0.6 * best)
      .slice(0, linesShown)
      .map(({ match: { line, met } }) => ({ line, met }));
    return { procedure, hits, score: 1.5 * best + unionScore(list, asked.weights) };
  });
}

function lineScore({ line, quality, terms }: LineMatch, { weights, order }: Asked): number {
  let score = 0;
  for (const [word, met] of quality) score += met * (weights.get(word) ?? 0);
  // of two lines that have the same words the shorter one says less beside them
  const { text, length } = wordsIn(line);
  // words that stand beside each other as they were asked are meant together
  const pairs = order.slice(1).filter((word, i) => isBeside(text, terms.get(order[i] ?? ''), terms.get(word)));
  score *= 1 + besidePart * (pairs.length / Math.max(1, order.length - 1));
  return score * kindWeight[line[0]] * (1 - lengthPart + lengthPart * Math.min(1, quality.size / length));
}

const lineWords = new WeakMap<Line, { readonly text: readonly string[]; readonly length: number }>();

/** The telling words of a line in order, and how many words it has in all; cut once for each line. */
function wordsIn(line: Line): { readonly text: readonly string[]; readonly length: number } {
  const known = lineWords.get(line);
  if (known) return known;
  const all = tokenize(line[2]).map(({ word }) => word);
  const words = { text: all.filter((word) => !isSilent(word)), length: all.length };
  lineWords.set(line, words);
  return words;
}

function isBeside(text: readonly string[], first: string | undefined, second: string | undefined): boolean {
  return first !== undefined && text.some((word, i) => word === first && text[i + 1] === second);
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
  if (asked === undefined) return false;
  if (asked === word || asked === `${word}s` || asked === `${word}es`) return true;
  return word.length > 5 && slipsBetween(asked, word) === 1;
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
