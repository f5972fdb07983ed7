// What every check of names needs: the book, its names, where faults go, and the small checks that all share.

import { askWhetherMeant, nearestNames } from '../../diagnostic/nearest.js';
import type { Book } from '../../model/book.js';
import type { Figure } from '../../model/procedure.js';
import type { Choice } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import type { Located } from '../../text/source.js';
import { type ChoiceKind, kindOfChoice, kindsOfKey, kindWords, namesOfKind } from '../choice.js';
import { joinNames, type Report } from '../faults.js';
import type { Vocabulary } from '../vocabulary.js';
import { fixFor, mayBeUnread, type NameUse, requireName } from './unknown.js';

export interface Checker {
  readonly book: Book;
  readonly vocabulary: Vocabulary;
  readonly report: Report;
}

/** Reports a name that names nothing, unless a file that may declare it could not be read. */
export function checkName(checker: Checker, use: NameUse): boolean {
  if (mayBeUnread(checker.book, use.kind, use.name.value)) return true;
  return requireName(checker.report, use);
}

/** Checks each name of a list. */
export function checkNames(checker: Checker, names: readonly Located<string>[], use: Omit<NameUse, 'name'>): void {
  for (const name of names) checkName(checker, { ...use, name });
}

/** Checks that a figure is there. */
export function checkFigure(checker: Checker, figure: Figure | undefined): void {
  if (figure) checkName(checker, { kind: 'figure', name: figure.file, known: checker.book.figures });
}

/** Checks the keys of a choice on all levels, and gives what stands at its ends. */
export function checkChoice<T>(checker: Checker, choice: Choice<T> | undefined): readonly T[] {
  if (!choice) return [];
  checkKeys(checker, choice);
  return [...leavesOf(choice)];
}

function checkKeys<T>(checker: Checker, choice: Choice<T>): void {
  if (choice.kind === 'one') return;
  const { vocabulary } = checker;
  const keys = choice.entries.map(({ key }) => key);
  const named = keys.filter(({ value }) => value !== 'other');
  const isCommon =
    kindOfChoice(
      vocabulary,
      named.map(({ value }) => value),
    ) !== undefined;
  if (!isCommon) {
    const unknown = named.filter(({ value }) => kindsOfKey(vocabulary, value).length === 0);
    for (const key of unknown) reportKey(checker, key, { named, unknown });
    if (unknown.length === 0) reportMixed(checker, named);
  }
  for (const { value } of choice.entries) checkKeys(checker, value);
}

interface OtherKeys {
  readonly named: readonly Located<string>[];
  readonly unknown: readonly Located<string>[];
}

function reportKey(checker: Checker, key: Located<string>, { named: others, unknown }: OtherKeys): void {
  const kinds = ['machine', 'header', 'option'] as const;
  if (kinds.some((kind) => mayBeUnread(checker.book, kind, key.value))) return;
  const { vocabulary } = checker;
  // what the other keys are is what this one should be
  const known = others.flatMap(({ value }) => kindsOfKey(vocabulary, value));
  const wanted: readonly ChoiceKind[] =
    known.length > 0 ? [...new Set(known)] : (Object.keys(kindWords) as ChoiceKind[]);
  const names = [...wanted.flatMap((kind) => [...namesOfKind(vocabulary, kind)]), 'other'];
  const sides = sidesIn(checker, key);
  const isSide = sides.includes(key.value);
  const near = isSide ? [] : nearestNames(key.value, [...names, ...sides]);
  checker.report({
    code: 'unknown-choice-key',
    message: `\`${key.value}\` is no ${sides.length > 0 && !isSide ? 'side, ' : ''}machine, header, header type, option or software version of the book`,
    at: key.at,
    help:
      sidesHelp([...unknown, ...others], sides) ??
      (isSide
        ? 'Words may differ by side, numbers may not: give one number for all sides. Of an adjuster, `positive` says for each side which way makes the reading larger.'
        : askWhetherMeant(near)) ??
      `The keys of a choice are ${known.length > 0 ? wanted.map((kind) => kindWords[kind]).join(' or ') : 'names of one kind'}, or \`other\`.`,
    ...fixFor(key, near),
  });
}

/** The sides that `for-each` of the procedure with that key repeats things for. */
function sidesIn({ book }: Checker, { at }: Located<string>): readonly string[] {
  const procedure = [...book.procedures.values()].find(({ file }) => file === at.file);
  return procedure?.forEach?.values.map(({ value }) => value) ?? [];
}

// Words for each side count as that only where every side is there and nothing else.
function sidesHelp(written: readonly Located<string>[], sides: readonly string[]): string | undefined {
  const keys = written.map(({ value }) => value);
  const [missing] = sides.filter((side) => !keys.includes(side));
  const [strange] = keys.filter((one) => !sides.includes(one));
  if (!keys.some((one) => sides.includes(one)) || (missing === undefined && strange === undefined)) return undefined;
  const all = sides.map((side) => `\`${side}\``).join(' and ');
  return `For words by side write one entry for each, ${all}, and no other${missing === undefined ? '' : `: \`${missing}\` is missing`}.`;
}

function reportMixed(checker: Checker, keys: readonly Located<string>[]): void {
  const [first] = keys;
  const kinds = first ? kindsOfKey(checker.vocabulary, first.value) : [];
  const stranger = keys.find(({ value }) =>
    kindsOfKey(checker.vocabulary, value).every((kind) => !kinds.includes(kind)),
  );
  const [own] = stranger ? kindsOfKey(checker.vocabulary, stranger.value) : [];
  const [kind] = kinds;
  if (!first || !stranger || !kind || !own) return;
  checker.report({
    code: 'mixed-choice',
    message: `The keys of a choice are of one kind: \`${first.value}\` is one of the ${kindWords[kind]}, \`${stranger.value}\` one of the ${kindWords[own]}`,
    at: stranger.at,
    related: [{ message: `\`${first.value}\` stands here`, at: first.at }],
    help: `Choose by ${kindWords[kind]} alone, and put a choice by ${kindWords[own]} inside the entries that need it.`,
    note: `Mixed keys would leave open which of ${joinNames([first.value, stranger.value], 'and')} counts for a rig that both fit.`,
  });
}
