// What can be asked of a rig, which answers it may give as far as it is known, and what is known after an answer.

import type { Book, Machine } from '../model/book.js';
import type { Rig } from '../model/resolved.js';
import { type Cut, cutStretch, type Stretch } from '../model/serials.js';

/**
 * One question. `machine-among`, `header-among`: is it one of these? `serial`: does it lie above the cut? `software`: is the
 * module's version one of these? The last three are asked once the machine is known.
 */
export type Question =
  | { readonly about: 'machine' | 'header' | 'header-type' }
  | { readonly about: 'machine-among' | 'header-among'; readonly ids: readonly string[] }
  | { readonly about: 'option'; readonly option: string }
  | { readonly about: 'serial'; readonly cut: Cut }
  | { readonly about: 'software'; readonly module: string; readonly versions: readonly string[] };

/** An id for machine, header and its type, otherwise yes or no. */
export type Answer = string | boolean;

export type Ask = (question: Question) => Answer;

/** A machine and a header that fits it. */
export interface Pair {
  readonly machine: string;
  readonly header: string;
}

/** A rig as far as it is decided: what it may still be. An option or kind of software that is missing may be anything. */
export interface PartialRig {
  readonly pairs: readonly Pair[];
  readonly options: ReadonlyMap<string, boolean>;
  readonly software: ReadonlyMap<string, readonly string[]>;
  readonly serials?: Stretch;
}

/** Every rig of the book. */
export function anyRig(book: Book): PartialRig {
  return { pairs: pairsOf(book), options: new Map(), software: new Map() };
}

/** Each machine with each header that fits: machines in the order of ids, headers as the machine lists them. */
export function pairsOf(book: Book): readonly Pair[] {
  return [...book.machines.keys()].sort().flatMap((id) => {
    const machine = book.machines.get(id);
    return machine ? headersOf(book, machine).map((header) => ({ machine: id, header })) : [];
  });
}

/** The headers that fit a machine, as far as the book has them, in the order in which the machine lists them. */
export function headersOf(book: Book, machine: Machine): readonly string[] {
  const ids = machine.headers.map(({ value }) => value).filter((id) => book.headers.has(id));
  return [...new Set(ids)];
}

/** A text that is the same for two questions exactly where they ask the same. */
export function questionKey(question: Question): string {
  switch (question.about) {
    case 'machine-among':
    case 'header-among':
      return `${question.about} ${question.ids.join(' ')}`;
    case 'option':
      return `option ${question.option}`;
    case 'serial':
      return `serial ${question.cut.side} ${question.cut.serial}`;
    case 'software':
      return `software ${question.module} ${question.versions.join('|')}`;
    default:
      return question.about;
  }
}

/** What a machine with a header answers; undefined for what they alone cannot. */
function answerOf(book: Book, pair: Pair, question: Question): Answer | undefined {
  switch (question.about) {
    case 'machine':
      return pair.machine;
    case 'header':
      return pair.header;
    case 'header-type':
      return book.headers.get(pair.header)?.type.value ?? '';
    case 'machine-among':
      return question.ids.includes(pair.machine);
    case 'header-among':
      return question.ids.includes(pair.header);
    default:
      return undefined;
  }
}

/** The machine that a rig is decided to be. Throws where it is not: ask for the machine first. */
function decidedMachine(book: Book, { pairs }: PartialRig): Machine {
  const [first, ...others] = new Set(pairs.map(({ machine }) => machine));
  const machine = first === undefined || others.length > 0 ? undefined : book.machines.get(first);
  if (!machine) throw new Error('A rig whose machine is not decided was asked about its parts');
  return machine;
}

function stretchOf(machine: Machine, rig: PartialRig): Stretch {
  return rig.serials ?? ownStretch(machine);
}

/** The serials that a machine has. */
export function ownStretch({ serials }: Machine): Stretch {
  const { from, to } = serials ?? {};
  return {
    ...(from === undefined ? {} : { from: { serial: from, included: true } }),
    ...(to === undefined ? {} : { to: { serial: to, included: true } }),
  };
}

function versionsOf(machine: Machine, rig: PartialRig, module: string): readonly string[] {
  const listed = machine.software.find((software) => software.module.value === module);
  return rig.software.get(module) ?? listed?.versions.map(({ value }) => value) ?? [];
}

/** The answers that are still possible, at least one. */
export function possibleAnswers(book: Book, rig: PartialRig, question: Question): readonly Answer[] {
  if (question.about === 'option') return optionAnswers(decidedMachine(book, rig), rig, question.option);
  if (question.about === 'serial') {
    const { below, above } = cutStretch(stretchOf(decidedMachine(book, rig), rig), question.cut);
    return [...(below ? [false] : []), ...(above ? [true] : [])];
  }
  if (question.about === 'software') {
    const versions = versionsOf(decidedMachine(book, rig), rig, question.module);
    const inside = versions.filter((version) => question.versions.includes(version)).length;
    return [...(inside < versions.length || versions.length === 0 ? [false] : []), ...(inside > 0 ? [true] : [])];
  }
  return [...new Set(rig.pairs.map((pair) => answerOf(book, pair, question) ?? ''))];
}

function optionAnswers(machine: Machine, rig: PartialRig, id: string): readonly Answer[] {
  const option = machine.options.find((one) => one.id === id);
  if (!option) return [false];
  const fitted = option.is === 'standard' ? true : rig.options.get(id);
  return fitted === undefined ? [true, false] : [fitted];
}

/** What is known of the rig once a question with several possible answers has this one. */
export function narrowRig(book: Book, rig: PartialRig, [question, answer]: readonly [Question, Answer]): PartialRig {
  switch (question.about) {
    case 'option':
      return { ...rig, options: new Map(rig.options).set(question.option, answer === true) };
    case 'serial': {
      const parts = cutStretch(stretchOf(decidedMachine(book, rig), rig), question.cut);
      const serials = answer === true ? parts.above : parts.below;
      return serials ? { ...rig, serials } : rig;
    }
    case 'software': {
      const kept = versionsOf(decidedMachine(book, rig), rig, question.module).filter(
        (version) => question.versions.includes(version) === answer,
      );
      return { ...rig, software: new Map(rig.software).set(question.module, kept) };
    }
    default:
      return { ...rig, pairs: rig.pairs.filter((pair) => answerOf(book, pair, question) === answer) };
  }
}

/** Every rig that a partly decided one stands for: each machine and header that is left open, all else as it is. */
export function completeRigs({ pairs, options, software, serials }: PartialRig): readonly Rig[] {
  return pairs.map((pair) => ({ ...pair, options, software, ...(serials ? { serials } : {}) }));
}
