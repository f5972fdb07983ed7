// An id that is misspelt takes a machine or header out of what a procedure is for: what is then missing follows from it. A name
// with a side that nothing gives, a language that no text has, show wherever they are used: that is one fault.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import { joinTo } from './followers.js';

/** Ids of what a rig is made of. */
const rigIds: ReadonlySet<string> = new Set(['unknown-machine', 'unknown-header', 'unknown-option', 'unknown-word']);

/** What is said of rigs that a misspelt id takes away. */
const ofRigs: ReadonlySet<string> = new Set([
  'header-does-not-fit',
  'prose-contradicts-number',
  'run-does-not-apply',
  'unused-choice-entry',
  'verified-elsewhere',
]);

/** Of these the same is said wherever the one thing is missing. */
const repeated: ReadonlySet<string> = new Set(['missing-language', 'too-few-people']);

/** What is said wherever a state is named, where the book has none. */
const ofStates: ReadonlySet<string> = new Set(['unknown-state', 'unknown-place', 'unknown-event']);

/** What is said of a number in words that may be one that could not be read. */
const ofNumbers: ReadonlySet<string> = new Set(['name-contradicts-parameter', 'prose-contradicts-number']);

interface Cause {
  readonly code: string;
  readonly fits: (cause: Diagnostic, of: Diagnostic) => boolean;
}

const anywhere = (): boolean => true;
const there = (cause: Diagnostic, of: Diagnostic): boolean => cause.at.start === of.at.start;

/** What in one file follows from another fault in it. */
const causes: Readonly<Record<string, Cause>> = {
  'unused-choice-entry': { code: 'choice-not-covered', fits: anywhere },
  'run-does-not-apply': { code: 'choice-not-covered', fits: anywhere },
  'instrument-out-of-reach': { code: 'instrument-of-other-quantity', fits: anywhere },
  'unchanged-rule-broken': { code: 'cannot-move-here', fits: there },
};

/** Joins what follows from a misspelt id, a side, a language or the number of people to the one fault. */
export function joinIds(all: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const diagnostics = book.states.size === 0 ? firstOfStates(all) : all;
  const errors = diagnostics.filter(({ severity }) => severity === 'error');
  const wrongIds = errors.filter(({ code }) => rigIds.has(code));
  return joinTo(diagnostics, (diagnostic) => {
    const { code, at, message } = diagnostic;
    const unread =
      ofNumbers.has(code) && errors.find((one) => isUnreadNumber(one) && isOfFile(diagnostic, one.at.file));
    if (unread) return unread;
    const wrong = ofRigs.has(code) && wrongIds.find((one) => reaches(one.at.file, at.file, book));
    if (wrong) return wrong;
    const cause = causes[code];
    const told =
      cause && errors.find((one) => one.code === cause.code && one.at.file === at.file && cause.fits(one, diagnostic));
    if (told) return told;
    if (code === 'missing-language') {
      const inside = errors.find(
        (one) => one.code !== code && one.at.file === at.file && at.start <= one.at.start && one.at.end <= at.end,
      );
      if (inside) return inside;
    }
    if (code === 'two-places-in-step') return errors.find((one) => isUnread(one, diagnostic));
    if (code === 'requires-not-met-at-run') return impossibleIn(diagnostic, errors, book);
    if (code === 'missing-key') return errors.find((one) => one.code === 'unknown-key' && isSameStart(one, diagnostic));
    if (repeated.has(code)) return firstLike(diagnostic, errors, message);
    if (code === 'bad-name' || code === 'bad-expression') return sideOf(diagnostic, errors);
    if (code === 'duplicate-id') return twiceIn(diagnostic, errors);
    if (code === 'never-done') return unfinishedIn(diagnostic, errors, book);
    return undefined;
  });
}

// Hundreds of places name what is missing as a whole: the first of them is enough.
function firstOfStates(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const first = diagnostics.find(({ code }) => code === 'unknown-state');
  return first ? diagnostics.filter((one) => one === first || !ofStates.has(one.code)) : diagnostics;
}

// what the words mean may be the number that could not be read, beside the one that they are taken for
function isOfFile({ at, related }: Diagnostic, file: string): boolean {
  return at.file === file || related.some((one) => one.at.file === file);
}

function isUnreadNumber({ code, at: { file } }: Diagnostic): boolean {
  return code === 'bad-limits' && /^(?:machines|headers)\//.test(file);
}

// A file of a machine reaches all; one of a procedure itself, its translations and what runs it.
function reaches(wrong: string, file: string, book: Book): boolean {
  if (/^(?:machines|headers)\//.test(wrong)) return true;
  const procedure = [...book.procedures.values()].find((one) => one.file === wrong);
  if (!procedure) return false;
  const translations = [...procedure.translations.values()].map((one) => one.file);
  const callers = [...book.procedures.values()].filter(({ steps }) =>
    steps.some(({ run }) => run?.value === procedure.id),
  );
  return [wrong, ...translations, ...callers.map((one) => one.file)].includes(file);
}

function firstLike(diagnostic: Diagnostic, errors: readonly Diagnostic[], message: string): Diagnostic | undefined {
  const plain = (text: string): string => text.replace(/^Step `[^`]+`/, '');
  const same = errors.find(
    (one) =>
      one.code === diagnostic.code && one.at.file === diagnostic.at.file && plain(one.message) === plain(message),
  );
  return same === diagnostic ? undefined : same;
}

// A name with braces in it wants a side that `for-each` does not give.
function sideOf(diagnostic: Diagnostic, errors: readonly Diagnostic[]): Diagnostic | undefined {
  const first = errors.find(
    (one) => one.code === 'bad-name' && one.at.file === diagnostic.at.file && /\{[^}`]*\}/.test(one.message),
  );
  const isOfIt =
    diagnostic.code === 'bad-name' ? /\{[^}`]*\}/.test(diagnostic.message) : /`\{`/.test(diagnostic.message);
  return isOfIt && first !== diagnostic ? first : undefined;
}

// A side that stands twice gives everything that is written once for each side twice.
function twiceIn({ at, message }: Diagnostic, errors: readonly Diagnostic[]): Diagnostic | undefined {
  return errors.find((one) => {
    const side = one.code === 'duplicate-entry' && one.at.file === at.file && /^`([^`]+)`/.exec(one.message)?.[1];
    return side && new RegExp(`[_-]${side}\``).test(message);
  });
}

// What runs a procedure that never comes to its end does not come to its own.
function unfinishedIn({ at }: Diagnostic, errors: readonly Diagnostic[], book: Book): Diagnostic | undefined {
  const procedures = [...book.procedures.values()];
  const runs = procedures.find(({ file }) => file === at.file)?.steps.flatMap(({ run }) => run?.value ?? []) ?? [];
  const files = runs.flatMap((id) => book.procedures.get(id)?.file ?? []);
  return errors.find(
    ({ code, at: { file } }) => /^(?:never-done|loop-without-bound)$/.test(code) && files.includes(file),
  );
}

// The place where a value is read comes from an instrument that it cannot be read with.
function isUnread({ code, at: { file }, message }: Diagnostic, { at, message: told }: Diagnostic): boolean {
  if (!/^(?:limits-outside-instrument|instrument-of-other-quantity)$/.test(code) || file !== at.file) return false;
  const value = /and (`[^`]+`) is read at/.exec(told)?.[1];
  return value !== undefined && message.includes(value);
}

// What can never begin is not run in a state that it can begin in either.
function impossibleIn({ message }: Diagnostic, errors: readonly Diagnostic[], book: Book): Diagnostic | undefined {
  const callee = book.procedures.get(/ runs `([^`]+)`, which requires/.exec(message)?.[1] ?? '');
  return errors.find(({ code, at }) => code === 'start-impossible' && at.file === callee?.file);
}

function isSameStart(a: Diagnostic, b: Diagnostic): boolean {
  return a.at.file === b.at.file && a.at.start === b.at.start;
}
