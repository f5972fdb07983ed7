// A part of a book as a sheet of facts: by key, what is compared and what is shown of it. Two sheets are compared key by
// key, so whatever is on a sheet cannot be overlooked.

import type { Said, Subject, Weight } from '../model/comparison.js';
import type { Words } from '../model/text.js';
import { words } from './said.js';

export interface Fact {
  readonly key: string;
  readonly about: string;
  readonly weight: Weight;
  /** The same text in two sheets: no change. */
  readonly equal: string;
  /** How it is written, where that may differ without a change of meaning. */
  readonly spelled?: string;
  readonly said?: Said;
  readonly subject?: Subject;
  /** The fact that this is a part of: where that is new or gone, this goes with it. */
  readonly under?: string;
  /** A set of facts that are equal together: nothing is said of any where the whole means the same. */
  readonly group?: string;
  /** Numbers as they are shown: a text that says them changes with them. */
  readonly numbers?: readonly string[];
  /** Words of people; the numbers that stand in them may come from other facts. */
  readonly text?: Words;
}

export interface FactSheet {
  readonly facts: ReadonlyMap<string, Fact>;
  /** What a group means as a whole, by its name. */
  readonly groups: ReadonlyMap<string, string>;
}

/** A sheet that is being written. */
export interface Sheet {
  readonly facts: Map<string, Fact>;
  readonly groups: Map<string, string>;
}

export function newSheet(): Sheet {
  return { facts: new Map(), groups: new Map() };
}

/** Where facts of one subject go. */
export interface Place {
  readonly sheet: Sheet;
  readonly subject?: Subject;
  /** The key of the subject's own fact. */
  readonly key: string;
}

/** What is known of a fact beside its place. */
export type FactParts = Omit<Fact, 'key' | 'subject' | 'under' | 'about'>;

/** Writes the fact of a subject itself, and gives the place for its parts. */
export function beginSubject(
  { sheet, key, subject: of }: Place,
  part: Subject,
  { equal = '', ...parts }: Partial<FactParts> & Pick<FactParts, 'weight'> & Pick<Fact, 'under'>,
): Place {
  const subject = of ? { ...part, of } : part;
  const own = `${key}${key === '' ? '' : '/'}${subject.kind}:${subject.id}`;
  addFact(sheet, { key: own, about: 'itself', subject, equal, ...(key !== '' && { under: key }), ...parts });
  return { sheet, subject, key: own };
}

/** Writes one fact of a subject; nothing where it says nothing. */
export function addPart({ sheet, subject, key }: Place, about: string, parts: FactParts | undefined): void {
  if (!parts) return;
  addFact(sheet, {
    key: `${key}/${about}`,
    about,
    ...(subject && { subject }),
    ...(key !== '' && { under: key }),
    ...parts,
  });
}

/** The same for one of several of a kind, told apart by `id`. */
export function addOneOf(place: Place, about: string, id: string, parts: FactParts): void {
  const { sheet, subject, key } = place;
  addFact(sheet, {
    key: `${key}/${about}/${id}`,
    about,
    ...(subject && { subject }),
    ...(key !== '' && { under: key }),
    ...parts,
  });
}

// two of one key would hide each other
function addFact(sheet: Sheet, fact: Fact): void {
  let { key } = fact;
  for (let count = 2; sheet.facts.has(key); count += 1) key = `${fact.key}#${count}`;
  sheet.facts.set(key, { ...fact, key });
}

/** Something that is compared as it is shown. */
export function shown(said: Said | undefined, weight: Weight = 'technical'): FactParts | undefined {
  return said && { weight, equal: JSON.stringify(said), said };
}

/** Words of people. */
export function wording(of: Words | undefined, weight: Weight = 'text'): FactParts | undefined {
  return of && { weight, equal: JSON.stringify(tidied(of)), said: words(of), text: of };
}

/** The same words whatever line they were broken at. */
export function tidied(of: Words): Words {
  return Object.fromEntries(
    Object.entries(of)
      .map(([language, text]) => [language, text.replaceAll(/\s+/g, ' ').trim()] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
}
