// Works something out for every rig by asking only what matters: one run for each way in which the answers can fall.

import type { Book } from '../model/book.js';
import {
  type Answer,
  type Ask,
  narrowRig,
  type PartialRig,
  possibleAnswers,
  type Question,
  questionKey,
} from './facets.js';

/** One way in which the answers fell, and what came of it. */
export interface Leaf<T> {
  readonly rig: PartialRig;
  readonly value: T;
}

export interface Explored<T> {
  readonly leaves: readonly Leaf<T>[];
  /** False where there are more leaves than may be looked at. */
  readonly complete: boolean;
}

/**
 * Runs `run` once for each combination of answers to what it asks, beginning with what `start` leaves open. `run` must ask
 * the same after the same answers. What has one possible answer alone makes no leaf of its own.
 */
export function exploreRigs<T>(
  book: Book,
  options: { readonly start: PartialRig; readonly most: number },
  run: (ask: Ask) => T,
): Explored<T> {
  const waiting: (readonly Answer[])[] = [[]];
  const leaves: Leaf<T>[] = [];
  for (let given = waiting.pop(); given; given = waiting.pop()) {
    if (leaves.length >= options.most) return { leaves, complete: false };
    const path = new Path(book, options.start, given);
    leaves.push({ value: run((question) => path.ask(question)), rig: path.rig });
    waiting.push(...path.others);
  }
  return { leaves, complete: true };
}

/** One run's answers so far. The first ones are given; every later fork takes its first answer and notes the others. */
class Path {
  rig: PartialRig;
  readonly others: (readonly Answer[])[] = [];
  readonly #book: Book;
  readonly #answers: Answer[] = [];
  readonly #given: readonly Answer[];

  constructor(book: Book, start: PartialRig, given: readonly Answer[]) {
    this.#book = book;
    this.rig = start;
    this.#given = given;
  }

  ask(question: Question): Answer {
    const possible = possibleAnswers(this.#book, this.rig, question);
    const [first] = possible;
    if (first === undefined) throw new Error(`No rig can answer: ${questionKey(question)}`);
    if (possible.length === 1) return first;
    const isGiven = this.#answers.length < this.#given.length;
    const answer = isGiven ? (this.#given[this.#answers.length] ?? first) : first;
    // the last fork's others are looked at first, in their order
    if (!isGiven)
      this.others.push(
        ...possible
          .slice(1)
          .reverse()
          .map((other) => [...this.#answers, other]),
      );
    this.#answers.push(answer);
    this.rig = narrowRig(this.#book, this.rig, [question, answer]);
    return answer;
  }
}

/** Results of one piece of work, by the answers that led to them. */
export interface Memo<T> {
  question?: Question;
  readonly next: Map<Answer, Memo<T>>;
  result?: { readonly value: T };
}

/** Nothing is known yet. */
export function emptyMemo<T>(): Memo<T> {
  return { next: new Map() };
}

/**
 * Does a piece of work, or gives what came of it before: only its questions are put again, and where the answers fall as they
 * fell before, so does the result. The work must ask the same after the same answers.
 */
export function recall<T>(memo: Memo<T>, ask: Ask, run: (ask: Ask) => T): T {
  let node: Memo<T> | undefined = memo;
  while (node && !node.result && node.question) node = node.next.get(ask(node.question));
  return node?.result ? node.result.value : record(memo, ask, run);
}

function record<T>(memo: Memo<T>, ask: Ask, run: (ask: Ask) => T): T {
  let node = memo;
  const value = run((question) => {
    const answer = ask(question);
    node.question ??= question;
    const next = node.next.get(answer) ?? emptyMemo();
    node.next.set(answer, next);
    node = next;
    return answer;
  });
  node.result = { value };
  return value;
}
