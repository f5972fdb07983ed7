// A procedure that requires another state than its own steps, its own words and whatever runs it count on.

import type { Book } from '../../model/book.js';
import type { Procedure, Requirement } from '../../model/procedure.js';
import type { ResolvedProcedure, World } from '../../model/resolved.js';
import { type Proof, rule } from '../rule.js';
import { errorsOf, isRight, type Reprove, wordFix } from './blame.js';
import { code, listed, valueWords } from './words.js';

export default rule({
  id: 'requirement-unlike-steps',
  severity: 'error',
  needs: 'proofs',
  *run(proofs, context) {
    const { book, reprove, resolved } = context;
    if (!reprove) return;
    for (const procedure of book.procedures.values()) {
      const own = proofs.filter(({ variant }) => variant.procedure.id === procedure.id);
      const broken = own.filter((proof) => errorsOf(proof).length > 0);
      const callers = callersOf(procedure.id, proofs);
      if (own.length === 0 || (broken.length === 0 && callers.length === 0)) continue;
      for (const requirement of procedure.requires) {
        const found = otherValue({ procedure, requirement, own, callers, world: resolved.world, book, reprove });
        if (!found) continue;
        yield {
          at: requirement.test.at,
          related: found.signs.map(({ test }) => ({ message: 'the same words show it here', at: test.at })),
          data: {
            ...found,
            state: requirement.state.value,
            required: wordsOf(requirement),
            isBroken: broken.length > 0,
            at: requirement.test.at,
          },
        };
        break;
      }
    }
  },
  say: ({ state, required, value, isBroken, signs, callers, at }) => ({
    message: isBroken
      ? `${code(state)} is required to be ${valueWords(required)}, and the steps cannot be done so: they count on ${code(value)}`
      : `${code(state)} is required to be ${valueWords(required)}, and whatever runs this comes with ${code(value)}`,
    help: `Write ${code(value)} here (tried: the order then holds). If what is required is right, add the step that brings ${code(state)} to ${code(value)}, and mend what shows it.`,
    fixes: [wordFix(at, value)],
    note: [
      signs.length > 0 ? `The words that show it here show ${code(value)} elsewhere in the book.` : undefined,
      callers.length > 0 ? `It is run by ${listed(callers.map(code), 'and')}, where it is so.` : undefined,
    ]
      .filter((part) => part !== undefined)
      .join(' '),
  }),
});

interface Looking {
  readonly procedure: Procedure;
  readonly requirement: Requirement;
  readonly own: readonly Proof[];
  readonly callers: readonly Caller[];
  readonly world: World;
  readonly book: Book;
  readonly reprove: Reprove;
}

/** A value that something else speaks for, and with which nothing is wrong. */
function otherValue({
  procedure,
  requirement,
  own,
  callers,
  world,
  book,
  reprove,
}: Looking):
  | { readonly value: string; readonly signs: readonly Requirement[]; readonly callers: readonly string[] }
  | undefined {
  const [required, ...others] = wordsOf(requirement);
  if (required === undefined || others.length > 0) return undefined;
  const state = requirement.state.value;
  const isBroken = own.some((proof) => errorsOf(proof).length > 0);
  const signs = signsLike(requirement, procedure, book);
  const calls = callers.filter((one) => one.state === state);
  const values = world.variables.find(({ id }) => id === state)?.values ?? [];
  for (const value of values.filter((one) => one !== required)) {
    const ownSigns = signs.filter((sign) => wordsOf(sign).join() === value);
    const ownCalls = calls.filter((one) => one.value === value);
    const isLikely = isBroken ? ownSigns.length + ownCalls.length > 0 : ownSigns.length > 0 && ownCalls.length > 0;
    // what comes with another value still would miss it
    if (!isLikely || calls.length > ownCalls.length) continue;
    if (
      own.every(({ variant }) =>
        isRight({ ...variant, procedure: requiring(variant.procedure, state, value) }, world, reprove),
      )
    )
      return { value, signs: ownSigns, callers: [...new Set(ownCalls.map(({ id }) => id))] };
  }
  return undefined;
}

function requiring(procedure: ResolvedProcedure, state: string, value: string): ResolvedProcedure {
  const requires = procedure.requires.map((one) =>
    one.condition.state === state
      ? { ...one, condition: { ...one.condition, test: { kind: 'words' as const, words: [value] } } }
      : one,
  );
  return { ...procedure, requires };
}

interface Caller {
  readonly id: string;
  readonly state: string;
  readonly value: string;
}

/** The procedures that run it in another state than it requires, with that state. */
function callersOf(procedure: string, proofs: readonly Proof[]): readonly Caller[] {
  return proofs.flatMap((proof) =>
    errorsOf(proof)
      .filter(({ kind, callee }) => kind === 'requires-not-met-at-run' && callee === procedure)
      .flatMap(({ missing }) =>
        missing.map(({ state, values }) => ({ id: proof.variant.procedure.id, state, value: values.join(' ') })),
      ),
  );
}

/** Requirements of other procedures that the same words show. */
function signsLike(requirement: Requirement, procedure: Procedure, book: Book): readonly Requirement[] {
  const words = signOf(requirement, book);
  if (words === undefined) return [];
  const others = [...book.procedures.values()].filter((other) => other !== procedure);
  return others
    .flatMap(({ requires }) => requires)
    .filter((one) => one.state.value === requirement.state.value && signOf(one, book) === words);
}

function signOf({ shownBy }: Requirement, { settings }: Book): string | undefined {
  const written = shownBy?.languages.get(settings.languages[0] ?? '');
  return written?.kind === 'one' ? written.value.source.value.trim() : undefined;
}

function wordsOf({ test }: Requirement): readonly string[] {
  return test.kind === 'words' ? test.words.map(({ value }) => value) : [];
}
