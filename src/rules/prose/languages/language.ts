// What the rules on numbers in prose need to know of a language: lists of words, and nothing that acts.

import type { Caseless } from '../../../text/caseless.js';

/** The words of one language by which a sentence gives a number, names what it is of, or means another one. */
export interface NumberLanguage {
  /** Numbers as words. */
  readonly numbers: ReadonlyMap<string, number>;
  /** Shares of one unit in words, as patterns in which `UNIT` is the word for it: `half an hour`. */
  readonly shares: readonly (readonly [pattern: string, quarters: number])[];
  /** Words for one of a unit, where a half is added behind it: `an hour and a half`. */
  readonly ones: readonly string[];
  /** What adds a half behind a number or a unit: `and a half`. */
  readonly andHalf: string;
  /** Words for units that the unit table does not know. */
  readonly units: ReadonlyMap<string, string>;
  /** Whether decimals stand behind a comma. */
  readonly decimalComma: boolean;
  /** Words between the two ends of a range. */
  readonly joints: readonly string[];
  /** Words between two ends only behind another: `and` behind `between`. */
  readonly pairs: ReadonlyMap<string, string>;
  /** Words between parts of a sentence that each may name a number. */
  readonly links: readonly string[];
  /** Words that name nothing. */
  readonly filling: ReadonlySet<string>;
  /** Words that say in another form what a name says: `wide` of a width. */
  readonly sameAs: ReadonlyMap<string, string>;
  /** Words between the thing itself and what it is of: `of` in `time of the fall`. */
  readonly ofWords: readonly string[];
  /** How texts call the machine and the header that a parameter belongs to. */
  readonly owners: { readonly machine: string; readonly header: string };
  /** Words by which prose speaks of how long a key is held, or something waited for. */
  readonly holds: readonly string[];
  readonly waits: readonly string[];
  /** What an instrument does with a number: `shows`. */
  readonly shows: readonly string[];
  /** Words before a number by which it is said to be so. */
  readonly claims: readonly string[];
  /** The word by which a thing has a number: `of` in `a supply of 5 V`. */
  readonly having: readonly string[];
  /** Words by which a number is said to be as it should be, behind it: `is right`. */
  readonly verdicts: readonly string[];
  /** Words that may stand between those and the number. */
  readonly about: readonly string[];
  /** Words behind a number that say of what it is: `wide`. */
  readonly extents: readonly string[];
  /** Words that oblige: `must`. */
  readonly duties: readonly string[];
  /** Words before a number that count steps or say by how much: `by`, `every`. */
  readonly changes: readonly string[];
  /** Words before a unit that make of the number a rate: `each inch`. */
  readonly rates: readonly string[];
  /** Words before a count of what comes again and again: `every 50 loads`. */
  readonly recurring: readonly string[];
  /** Words before a number that make it another one than the one that is named: `after`, `more than`. */
  readonly othersBefore: readonly string[];
  /** The same behind it: `apart`, `higher`. */
  readonly othersBehind: readonly string[];
  /** Words in a sentence that says what may be, what was, or what is wrong. */
  readonly hedges: readonly string[];
  /** Words before a band that say beyond its ends: `outside`. */
  readonly outsides: readonly string[];
  /** Words for a reading that no sound sensor gives. */
  readonly faults: readonly string[];
  /** How one bushel stands before a mass, and behind it. */
  readonly bushel: { readonly before: RegExp; readonly behind: RegExp };
  /** A sentence on the moisture that a crop is traded with. */
  readonly traded: RegExp;
  /** Words for one lot of a crop, whose mass and moisture are its own: `wet`, `test weight`. */
  readonly lots: readonly string[];
  /** Words in the name of a header, each with the types that have them. */
  readonly headerWords: readonly (readonly [words: Caseless, types: readonly string[]])[];
  /** Words before a count by which it is the most that is allowed: `at most`, `up to`. */
  readonly mosts: readonly string[];
  /** Words for how often, behind a number. */
  readonly times: readonly string[];
  /** How often in one word: `twice`. */
  readonly often: ReadonlyMap<string, number>;
}

/** The entries of a list that is written with blanks. */
export function words(text: string): readonly string[] {
  return text.trim().split(/\s+/);
}

/** A map from several words each. */
export function table<V>(entries: readonly (readonly [string, V])[]): ReadonlyMap<string, V> {
  return new Map(entries.flatMap(([keys, value]) => words(keys).map((key) => [key, value] as const)));
}
