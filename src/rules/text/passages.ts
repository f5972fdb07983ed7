// Every text of a book that readers see, as passages: a text of the front matter, a paragraph, a list item, a row of a table.
// Cut once for a procedure; the rules on language and on numbers share them. Judges nothing.

import type { Book } from '../../model/book.js';
import type { CheckValue, Procedure, ProseSection, Step } from '../../model/procedure.js';
import type { Template, Text } from '../../model/text.js';
import { leavesOf, type TextUse, textsOf } from '../../model/walk.js';
import { remembering } from '../../text/remember.js';
import type { SourceText } from '../../text/source.js';
import { type Block, blocksOf } from './blocks.js';
import { hideNames, namesOf } from './names.js';
import { type Sentence, sentencesOf } from './sentences.js';

export type Role = TextUse['role'] | 'prose' | 'heading' | 'hazard' | 'avoid' | 'name';

/** A text, or a part of one, that is read in one go. */
export interface Passage {
  readonly source: SourceText;
  /** Where it stands in `source.value`. */
  readonly block: Block;
  /** As long as `source.value`; placeholders, labels in bold, terms and signs of markdown stand as one sign repeated. */
  readonly hidden: string;
  readonly sentences: readonly Sentence[];
  readonly language: string;
  readonly role: Role;
  readonly file: string;
  readonly procedure?: Procedure;
  readonly step?: Step;
  readonly value?: CheckValue;
  /** The state of a requirement that the text belongs to. */
  readonly state?: string;
  readonly section?: ProseSection;
  /** A translation with other numbers than its original, which is reported as that. */
  readonly differs?: boolean;
  /** The machine or header that the text is of. */
  readonly owner?: { readonly kind: 'machine' | 'header'; readonly id: string };
}

/** What a rule finds in the passages of one procedure, or of the shared files. May use of the book its terms and languages. */
export type Judge<F> = (passages: readonly Passage[], book: Book) => Iterable<F>;

/**
 * Shows a judge the passages of a book in all its languages, those of each procedure and those of the shared files together.
 * A text that stands for several sides or rigs is there once. Passages that are the same as before are not shown again.
 */
export function judgePassages<F>(book: Book, judge: Judge<F>): readonly F[] {
  const names = namesFor(book);
  const shared = [book.hazards, book.machines, book.headers, book.states, book.events, book.instruments, book.tools];
  const groups = [
    ...[...book.procedures.values()].map((procedure) =>
      rememberPassages(procedure, [names], () => cutProcedure(names, procedure)),
    ),
    rememberPassages(book.hazards, [names, ...shared], () => cutShared(names, book)),
  ];
  const known = (judged.get(judge) ?? new WeakMap()) as WeakMap<readonly Passage[], readonly F[]>;
  judged.set(judge, known);
  return groups.flatMap((group) => {
    const before = known.get(group);
    const found = before ?? [...judge(group, book)];
    if (!before) known.set(group, found);
    return found;
  });
}

const judged = new WeakMap<Judge<unknown>, unknown>();

type Names = ReturnType<typeof namesOf>;

// What is the same object as before is not cut again. Rules are watched in what they read of a book, so that every part
// is read each time, whoever comes first.
const rememberNames = remembering<Names>();
const rememberPassages = remembering<readonly Passage[]>();

function namesFor(book: Book): Names {
  const { terms, machines, settings } = book;
  return rememberNames(terms, [machines, settings], () => namesOf(book));
}

type Origin = Omit<Passage, 'source' | 'block' | 'hidden' | 'sentences' | 'language' | 'file'>;

interface Cutting {
  readonly names: Names;
  readonly seen: Set<string>;
  readonly found: Passage[];
}

function cutShared(names: Names, book: Book): readonly Passage[] {
  const cutting: Cutting = { names, seen: new Set(), found: [] };
  for (const { what, harm, avoid } of book.hazards.values()) {
    for (const text of [what, harm]) cutText(cutting, text, { role: 'hazard' });
    cutText(cutting, avoid, { role: 'avoid' });
  }
  for (const { label } of book.rules) cutText(cutting, label, { role: 'label' });
  for (const { id, name, tell, options, software } of book.machines.values()) {
    const owner = { kind: 'machine', id } as const;
    cutText(cutting, name, { role: 'name', owner });
    for (const text of [tell, ...[...options, ...software].map((part) => part.tell)]) {
      cutText(cutting, text?.text, { role: 'note', owner });
      cutText(cutting, text?.figure?.alt, { role: 'note', owner });
    }
    for (const { label } of options) cutText(cutting, label, { role: 'label' });
  }
  for (const { id, name, tell } of book.headers.values()) {
    const owner = { kind: 'header', id } as const;
    cutText(cutting, name, { role: 'name', owner });
    cutText(cutting, tell?.text, { role: 'note', owner });
    cutText(cutting, tell?.figure?.alt, { role: 'note', owner });
  }
  for (const things of [book.states, book.events, book.instruments, book.tools]) {
    for (const { label } of things.values()) cutText(cutting, label, { role: 'label' });
  }
  return cutting.found;
}

function cutProcedure(names: Names, procedure: Procedure): readonly Passage[] {
  const cutting: Cutting = { names, seen: new Set(), found: [] };
  const states = new Map(
    procedure.requires.flatMap(({ state, shownBy, ifMissed }) =>
      [shownBy, ifMissed].flatMap((text) => (text ? [[text, state.value] as const] : [])),
    ),
  );
  for (const { text, ...use } of textsOf(procedure)) {
    const state = states.get(text);
    cutText(cutting, text, { ...use, procedure, ...(state === undefined ? {} : { state }) });
  }
  for (const [language, sections] of procedure.prose) {
    for (const section of sections) {
      const step = procedure.steps.find(({ id }) => id.value === section.step);
      const of = { procedure, section, ...(step ? { step } : {}) };
      if (section.heading && section.step === undefined) {
        const { text, at } = section.heading;
        const marks = Math.max(0, at.end - at.start - text.length);
        const source = { value: text, at: { ...at, start: at.start + marks } };
        cutTemplate(cutting, { source, parts: [] }, { origin: { ...of, role: 'heading' }, language });
      }
      cutTemplate(cutting, section.body, { origin: { ...of, role: 'prose' }, language });
    }
  }
  return cutting.found;
}

function cutText(cutting: Cutting, text: Text | undefined, origin: Origin): void {
  const numbers = new Map<string, string>();
  for (const [language, choice] of text?.languages ?? []) {
    const templates = [...leavesOf(choice)];
    numbers.set(language, templates.map(numbersOf).join(';'));
    const differs = numbers.get(language) !== [...numbers.values()][0];
    const own = differs ? { ...origin, differs } : origin;
    for (const template of templates) cutTemplate(cutting, template, { origin: own, language });
  }
}

/** The numbers and placeholders of a text, in one order. */
function numbersOf({ source }: Template): string {
  const found = source.value.match(/\{[^{}]*\}|\d+(?:[.,]\d+)?/g) ?? [];
  return found
    .map((one) => one.replace(',', '.'))
    .sort()
    .join(' ');
}

function cutTemplate(
  { names, seen, found }: Cutting,
  { source }: Template,
  { origin, language }: { readonly origin: Origin; readonly language: string },
): void {
  const key = `${source.at.file}:${source.at.start}:${language}`;
  if (seen.has(key) || source.value === '') return;
  seen.add(key);
  const hidden = hideNames(source.value, names.get(language));
  const blocks = origin.role === 'prose' ? blocksOf(source.value) : [{ start: 0, end: source.value.length }];
  for (const block of blocks) {
    const sentences = sentencesOf(hidden, block, language);
    found.push({ ...origin, source, block, hidden, sentences, language, file: source.at.file });
  }
}

/** Whether a range of a text lies in another. */
export function isWithin(inner: Block, outer: Block): boolean {
  return outer.start <= inner.start && inner.end <= outer.end;
}
