// What the rules on language need to know of a language: lists of words, and nothing that acts. All words are in small
// letters; where `bare` takes accents off, the lists are without them.

import { type Caseless, caseless } from '../../../text/caseless.js';

/** The words of one language that the rules on language look for. */
export interface Language {
  /** A word as the lists have it: in small letters, in Spanish also without accents. */
  readonly bare: (word: string) => string;
  /** Abbreviations that end in a full stop and end no sentence. */
  readonly abbreviations: ReadonlySet<string>;
  /** Orders that can be nothing else: `read`, `remove`; in Spanish `lea`, `saque`. */
  readonly orders: ReadonlySet<string>;
  /** Orders that may also name or describe a thing: `stop`, `lower`, `clean`; in Spanish `cierre`, `ajuste`. */
  readonly orderOrThing: ReadonlySet<string>;
  /** Orders that only a person can follow: after `until the points rest and` they are still orders. */
  readonly ordersToPeople: ReadonlySet<string>;
  /** Orders that go with another act and make no second one: `keep`, `make`. */
  readonly companions: ReadonlySet<string>;
  /** First order to the second orders that are one movement with it: `press` and `hold`, `go` and `look`. */
  readonly oneMovement: ReadonlyMap<string, ReadonlySet<string>>;
  /** Words after which a word that may name a thing is an order: `the`, `it`, `each`. */
  readonly objects: ReadonlySet<string>;
  /** Small words that belong to an order before its object: `off`, `out`. */
  readonly particles: ReadonlySet<string>;
  /** Words that join two acts. */
  readonly joiners: ReadonlySet<string>;
  /** Words that may stand between a joiner and its order, or before the first order: `then`, `now`. */
  readonly adverbs: ReadonlySet<string>;
  /** First words of a part that says when or with what, and ends at a comma. */
  readonly conditions: ReadonlySet<string>;
  /** Words that begin a part of which the verbs are no orders: `until`, `that`. */
  readonly subordinators: ReadonlySet<string>;
  /** Words before which the next verb is a purpose: `to`. */
  readonly purposes: ReadonlySet<string>;
  /** Words in front of an order, or behind it, that make it a prohibition: `never`, `nothing`. */
  readonly negations: ReadonlySet<string>;
  /** First words of a sentence that tells instead of ordering. */
  readonly tellers: ReadonlySet<string>;
  /** Whether a word is an -ing form, or in Spanish a gerund, and no name of a thing. */
  readonly isParticiple: (word: string) => boolean;
  /** Words after which an -ing form belongs to what stands before it: `start`, `by`, `without`. */
  readonly beforeParticiple: ReadonlySet<string>;
  /** An order as a passive: `must be lowered`. */
  readonly passiveOrder: Caseless;
  /** Words that begin what a thing has or is for, behind its name: `with` in `hex key with a handle`. */
  readonly besideThing: ReadonlySet<string>;
  /** Whether the thing itself is the first word of its name: `llave de boca`; in `open-end wrench` it is the last. */
  readonly thingFirst: boolean;
  /** The word before what something is done with. */
  readonly doneWith: ReadonlySet<string>;
  /** Endings that make of a doing the thing that does it: `scraper` of `scrape`. */
  readonly doerEndings: RegExp;
  /** Words by which an order holds only at times: `before`, `if`. */
  readonly conditionals: ReadonlySet<string>;
  /** Orders that change nothing: `watch`, `read`. */
  readonly watching: ReadonlySet<string>;
  /** A turn to the right and to the left as one looks at it; where one word holds another the longer one is found first. */
  readonly clockwise: RegExp;
  readonly counterClockwise: RegExp;
  /** The sides of a machine, and its own end of whatever is spoken of. */
  readonly left: RegExp;
  readonly right: RegExp;
  readonly ownEnd: RegExp;
  /** Things with a thread, which is the same on both sides. */
  readonly threaded: RegExp;
  /** Words that say from where a turn is looked at. */
  readonly seenFrom: RegExp;
  /** Things that are turned from the one side that they are reached from, and ways round a field, which are seen from above. */
  readonly faced: RegExp;
  /** Whole answers that agree, and those that do not. */
  readonly yes: ReadonlySet<string>;
  readonly no: ReadonlySet<string>;
  /** What kills a person, and what hurts one: a machine is hurt in other words. */
  readonly kills: Caseless;
  readonly injures: Caseless;
  /** The words for the steps of a procedure, those between two numbers of them, and those that begin of what they are. */
  readonly stepWords: string;
  readonly stepJoints: string;
  readonly stepOwners: Caseless;
  /** Things that have steps of their own: a dial, a ladder; and what stands before the step that something is set to. */
  readonly stepped: Caseless;
  readonly setToStep: Caseless;
  /** An order to repeat something until it is right, and what says in the same sentence how often. */
  readonly repeats: Caseless;
  readonly counted: Caseless;
  /** How a sentence says that something comes before the act that it stands behind; `VERB` is how that act begins. */
  readonly beforehand: string;
  /** Orders by which a person goes somewhere, with all of the body or a hand: `crawl`, `reach`. */
  readonly going: ReadonlySet<string>;
  /** Other words for the one that a place begins with: `beneath` for `under`, `into` for `in`. */
  readonly placeWords: ReadonlyMap<string, readonly string[]>;
  /** How an order begins by which a person leaves the cab. */
  readonly leavesCab: Caseless;
  /** What the place is called that it leaves. */
  readonly cab: string;
  /** What people read numbers off. */
  readonly devices: ReadonlySet<string>;
  /** A word that ends a text or a part of one, with the preposition before it: `on the display`. The word is the first group. */
  readonly readOff: Caseless;
  /** Words that decide nothing, with what to write instead. */
  readonly vague: readonly VagueWord[];
  /** Words that say how and not how much. */
  readonly unmeasured: readonly VagueWord[];
}

/** A word or phrase as it is written, or the beginning of a pattern, and what to write in its place. */
export interface VagueWord {
  readonly words: Caseless;
  readonly instead: string;
}

/** The words of a text, cut at blanks. */
export function wordSet(text: string): ReadonlySet<string> {
  return new Set(text.trim().split(/\s+/));
}

/** Entries of whole words, whatever their capitals; `|` parts the words of one entry. */
export function vagueWords(entries: Readonly<Record<string, string>>): readonly VagueWord[] {
  return Object.entries(entries).map(([words, instead]) => ({
    words: caseless(`(?<![\\p{L}\\p{N}-])(?:${words})(?![\\p{L}\\p{N}-])`),
    instead,
  }));
}
