// New lines for issued.yaml. What an author wrote there stays as it is, comments included.

import type { IssuedCard } from '../model/book.js';

/** A card to enter. */
export interface NewIssue {
  readonly code: string;
  readonly procedure: string;
  readonly revision: number;
  readonly language: string;
  readonly rigs: readonly string[];
  readonly printed: string;
  readonly content: string;
  readonly unit?: string;
  readonly place: string;
  readonly on: string;
}

const head = [
  '# Printed cards that are out there: written by `stepgauge cards --issue`, held against the book by `stepgauge reprint`.',
  '# Take a line out when its card is destroyed.',
  '',
  'cards:',
  '',
].join('\n');

/** Where the comment for editors in book.yaml says that schemas are. */
const schemaPlace = /^# yaml-language-server: \$schema=(\S*)book\.schema\.json/;

/** The first text of issued.yaml, in a book whose book.yaml this is. */
function headFor(bookText: string): string {
  const place = schemaPlace.exec(bookText)?.[1];
  return place === undefined ? head : `# yaml-language-server: $schema=${place}issued.schema.json\n${head}`;
}

/** The register as it stands. */
export interface Register {
  /** Of issued.yaml; missing where there is no file. */
  readonly text?: string;
  /** What was read of it. */
  readonly issued: readonly IssuedCard[];
  /** Of book.yaml. */
  readonly bookText: string;
}

/**
 * The text of issued.yaml with cards added behind the last one. Undefined where the list is written in a way that no line
 * can be added to.
 */
export function addIssued({ text, issued, bookText }: Register, cards: readonly NewIssue[]): string | undefined {
  const last = issued.at(-1);
  if (text === undefined || text.trim() === '') return headFor(bookText) + linesOf(cards, '  ');
  if (!last) return addToNone(text, cards);
  const start = text.lastIndexOf('\n', last.at.start - 1) + 1;
  const [, indent] = /^([ \t]*)- /.exec(text.slice(start)) ?? [];
  if (indent === undefined) return undefined;
  // a block map ends behind its last line, a flow map within it
  const behind = last.at.end > 0 && text[last.at.end - 1] === '\n' ? last.at.end : text.indexOf('\n', last.at.end) + 1;
  const before = behind === 0 ? `${text}\n` : text.slice(0, behind);
  return before + linesOf(cards, indent) + (behind === 0 ? '' : text.slice(behind));
}

function addToNone(text: string, cards: readonly NewIssue[]): string | undefined {
  const empty = /^cards:[ \t]*\[[ \t]*\][ \t]*(?:\r?\n|$)/m;
  if (empty.test(text)) return text.replace(empty, () => `cards:\n${linesOf(cards, '  ')}`);
  const isBare = text.split(/\r?\n/).every((line) => /^\s*(?:#.*)?$/.test(line));
  return isBare ? `${text.trimEnd()}\n\ncards:\n${linesOf(cards, '  ')}` : undefined;
}

function linesOf(cards: readonly NewIssue[], indent: string): string {
  return cards.map((card) => `${indent}- ${lineOf(card)}\n`).join('');
}

/** Texts are quoted as JSON does, which YAML reads alike: a code such as `234567` stays a text. */
function lineOf({ code, procedure, revision, language, rigs, printed, content, unit, place, on }: NewIssue): string {
  const parts: readonly (readonly [string, string])[] = [
    ['code', JSON.stringify(code)],
    ['procedure', procedure],
    ['revision', String(revision)],
    ['language', JSON.stringify(language)],
    ['rigs', `[${rigs.map((rig) => JSON.stringify(rig)).join(', ')}]`],
    ['printed', printed],
    ['content', content],
    ...(unit === undefined ? [] : [['unit', JSON.stringify(unit)] as const]),
    ['for', JSON.stringify(place)],
    ['on', on],
  ];
  return `{ ${parts.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;
}
