// Where a translation has other numbers or placeholders than its original: in short texts, and section by section in prose.

import { equals, type Rational } from '../../calc/rational.js';
import { isConvertible } from '../../calc/unit.js';
import type { Procedure, ProseSection } from '../../model/procedure.js';
import type { Choice, Template, Text } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import { remembering } from '../../text/remember.js';
import { type Span, spanWithin } from '../../text/source.js';
import { isSameAmount } from '../prose/conversions.js';
import { type Quantity, quantitiesOf } from '../prose/quantities.js';
import { hideNames } from '../text/names.js';

/** What a translated text lacks of its original, and what it has besides. */
export interface Difference {
  readonly at: Span;
  readonly original: Span;
  readonly missing: readonly string[];
  readonly extra: readonly string[];
}

interface Part {
  /** As it is compared. */
  readonly text: string;
  readonly at: Span;
}

/** The differences of a text in two languages. */
export function* differencesOf(text: Text, first: string, language: string): Iterable<Difference> {
  const own = text.languages.get(first);
  const other = text.languages.get(language);
  if (!own || !other) return;
  for (const [original, translated] of pairs(own, other)) yield* between(original, translated, [first, language]);
}

/** The differences of the prose of a procedure, for each section that both languages have. */
export function* proseDifferences({ prose }: Procedure, first: string, language: string): Iterable<Difference> {
  const [own = [], other = []] = [prose.get(first), prose.get(language)];
  for (const [original, translated] of sectionPairs(own, other)) {
    yield* between(original.body, translated.body, [first, language]);
    for (const [one, two] of headings(original, translated)) yield* between(one, two, [first, language]);
  }
  yield* unpaired(own, other, [first, language]);
}

/** Whether two sections say other numbers, placeholders or words of a display, which is told as that. */
export function saysOtherwise(
  [original, translated]: readonly [ProseSection, ProseSection],
  languages: readonly [string, string],
): boolean {
  return [...between(original.body, translated.body, languages)].length > 0;
}

/** Where a language has another number of sections, what is in none of the other's. */
function* unpaired(
  own: readonly ProseSection[],
  other: readonly ProseSection[],
  [first, language]: readonly [string, string],
): Iterable<Difference> {
  const [left, right] = [freeSections(own), freeSections(other)];
  const [original, translated] = [left[0], right[0]];
  if (left.length === right.length || !original || !translated) return;
  const [ofOriginal, ofTranslated] = [quantitiesOfAll(left, first), quantitiesOfAll(right, language)];
  const wanted = left.flatMap(({ body }) => partsOf(body, first, otherwiseWritten(body, first, ofTranslated)));
  const found = right.flatMap(({ body }) => partsOf(body, language, otherwiseWritten(body, language, ofOriginal)));
  const [missing, extra] = [lacking(wanted, found), lacking(found, wanted)];
  if (missing.length + extra.length === 0) return;
  yield differenceAt({ original: original.body, translated: translated.body }, missing, extra);
}

function quantitiesOfAll(sections: readonly ProseSection[], language: string): readonly Quantity[] {
  return sections.flatMap(({ body }) => quantitiesIn(body, language));
}

/** The sections that belong to no step, but an empty one before the first heading. */
export function freeSections(all: readonly ProseSection[]): readonly ProseSection[] {
  return all.filter(({ step, heading, body }) => step === undefined && (heading || /\S/.test(body.source.value)));
}

/** The parts of one text that the other has not, each once. */
function lacking(from: readonly Part[], of: readonly Part[]): readonly Part[] {
  return from.filter(
    ({ text }, i) => of.every((one) => one.text !== text) && from.findIndex((one) => one.text === text) === i,
  );
}

/** Sections of one step each; of the others the first with the first, where there are as many of them. */
export function sectionPairs(
  own: readonly ProseSection[],
  other: readonly ProseSection[],
): readonly (readonly [ProseSection, ProseSection])[] {
  const ofSteps = own.flatMap((section): readonly (readonly [ProseSection, ProseSection])[] => {
    const same = section.step === undefined ? undefined : other.find(({ step }) => step === section.step);
    return same ? [[section, same]] : [];
  });
  const [left, right] = [freeSections(own), freeSections(other)];
  const byPlace = left.length === right.length ? left.map((one, i) => [one, right[i] as ProseSection] as const) : [];
  return [...ofSteps, ...byPlace];
}

/** Two headings as texts; none of a section that belongs to a step, where the heading is its id. */
function headings(original: ProseSection, translated: ProseSection): readonly (readonly [Template, Template])[] {
  if (original.step !== undefined || !original.heading || !translated.heading) return [];
  return [[headingOf(original.heading), headingOf(translated.heading)]];
}

function headingOf({ text, at }: NonNullable<ProseSection['heading']>): Template {
  const start = at.start + Math.max(0, at.end - at.start - text.length);
  return { source: { value: text, at: { ...at, start } }, parts: [] };
}

function* between(
  original: Template,
  translated: Template,
  [first, language]: readonly [string, string],
): Iterable<Difference> {
  const own = otherwiseWritten(original, first, quantitiesIn(translated, language));
  const other = otherwiseWritten(translated, language, quantitiesIn(original, first));
  const [wanted, found] = [partsOf(original, first, own), partsOf(translated, language, other)];
  const [missing, extra] = [lacking(wanted, found), lacking(found, wanted)];
  if (missing.length + extra.length > 0) {
    yield differenceAt({ original, translated }, missing, extra);
    return;
  }
  yield* inWords([original, wordsBut(original, first, own)], [translated, wordsBut(translated, language, other)]);
}

/**
 * What a text has in digits and the others in words, or the other way round, or in another unit, and is the same amount: `3 s`
 * and `tres segundos`, `60 s` and `un minuto`, `40 ft` and `12,2 m`.
 */
function otherwiseWritten(text: Template, language: string, others: readonly Quantity[]): readonly Quantity[] {
  return quantitiesIn(text, language).filter((one) => others.some((each) => isOtherwise(one, each)));
}

function isOtherwise(one: Quantity, other: Quantity): boolean {
  if (one.form !== other.form || !isConvertible(one.unit, other.unit)) return false;
  if (one.unit.symbol === other.unit.symbol) return one.digits !== other.digits && sameNumber(one, other);
  const isRough = !one.digits || !other.digits;
  return sameNumber(one, other) || (!isRough && isSameAmount({ first: one, second: other, isRough }));
}

interface Pair {
  readonly original: Template;
  readonly translated: Template;
}

/** Points at what is there and should not be, or else at the whole text. */
function differenceAt({ original, translated }: Pair, missing: readonly Part[], extra: readonly Part[]): Difference {
  return {
    at: extra[0]?.at ?? firstLine(translated),
    original: missing[0]?.at ?? firstLine(original),
    missing: missing.map(({ text }) => text),
    extra: extra.map(({ text }) => text),
  };
}

/** Numbers in words, as far as both languages have as many of one kind: `ten minutes` and `quince minutos`. */
function* inWords(
  [original, wanted]: readonly [Template, readonly Quantity[]],
  [translated, found]: readonly [Template, readonly Quantity[]],
): Iterable<Difference> {
  if (wanted.length !== found.length) return;
  for (const [i, quantity] of found.entries()) {
    const other = wanted[i];
    if (!other || quantity.unit.symbol !== other.unit.symbol || sameNumber(quantity, other)) continue;
    yield differenceAt({ original, translated }, [partAt(original, other)], [partAt(translated, quantity)]);
  }
}

/** The quantities in words, without some that are compared already. */
function wordsBut(text: Template, language: string, known: readonly Quantity[]): readonly Quantity[] {
  return quantitiesIn(text, language).filter((one) => !one.digits && !isAmong(one, known));
}

function isAmong({ start, end }: Pick<Quantity, 'start' | 'end'>, known: readonly Quantity[]): boolean {
  return known.some((one) => one.start <= start && end <= one.end);
}

// a text is held against the other language from several sides
const rememberQuantities = remembering<readonly Quantity[]>();

function quantitiesIn(template: Template, language: string): readonly Quantity[] {
  const { value } = template.source;
  return rememberQuantities(template, [language], () =>
    quantitiesOf(hideNames(value, undefined), { start: 0, end: value.length }, language),
  );
}

function sameNumber(a: Quantity, b: Quantity): boolean {
  const same = (one: Rational, two: Rational): boolean => equals(one, two);
  return same(a.low, b.low) && same(a.high, b.high);
}

function partAt({ source }: Template, { start, end }: Quantity): Part {
  return { text: source.value.slice(start, end), at: spanWithin(source, start, end) };
}

/** The first line of a text: all of it in front matter. */
function firstLine({ source }: Template): Span {
  const line = /\S[^\n]*/.exec(source.value);
  return line ? spanWithin(source, line.index, line.index + line[0].trimEnd().length) : source.at;
}

/** The leaves of two choices of the same shape; nothing where the shapes differ, which is reported where they are read. */
function pairs(own: Choice<Template>, other: Choice<Template>): readonly (readonly [Template, Template])[] {
  const [left, right] = [[...leavesOf(own)], [...leavesOf(other)]];
  return left.length === right.length ? left.map((one, i) => [one, right[i] as Template] as const) : [];
}

/**
 * What a text has in every language alike: placeholders, numbers with their units, and what a display shows, which stands in
 * bold capitals. A decimal comma counts as a point, and commas between thousands for nothing. What is compared already is left out.
 */
function partsOf(template: Template, language: string, known: readonly Quantity[]): readonly Part[] {
  const { source } = template;
  const { value } = source;
  const found = value.matchAll(/\{\{|\}\}|\{[^{}]*\}|\d+(?:[.,]\d+)*|(?<=\*\*)\p{Lu}[\p{Lu}\d -]+(?=\*\*)/gu);
  const parts = [...found].flatMap(({ 0: written, index }) => {
    if (written === '{{' || written === '}}') return [];
    if (isAmong({ start: index, end: index + written.length }, known)) return [];
    const text = written.startsWith('{') ? written.replaceAll(/\s/g, '') : plainNumber(written);
    return [{ text, at: spanWithin(source, index, index + written.length) }];
  });
  const units = quantitiesIn(template, language)
    .filter((one) => one.digits && !isAmong(one, known))
    .map((quantity) => ({ text: quantity.unit.symbol, at: partAt(template, quantity).at }));
  return [...parts, ...units];
}

function plainNumber(written: string): string {
  return /^\d{1,3}(?:[,.]\d{3})+$/.test(written) ? written.replaceAll(/[,.]/g, '') : written.replace(',', '.');
}
