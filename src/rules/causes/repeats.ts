// A fault that shows in several files: in a text and its translation, in a procedure and whatever runs it. It is told where it is.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Procedure, Step } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import { joinTo, withFollowers } from './followers.js';

const translation = /\.[a-z]{2}\.md$/;

const aboutTranslations: ReadonlySet<string> = new Set(['translation-differs', 'extra-translation']);

/** Without what a translation says again of a fault of its original. */
export function withoutTranslated(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const originals = diagnostics.filter(({ severity, at }) => severity === 'error' && !translation.test(at.file));
  return diagnostics.filter((diagnostic) => {
    const { at, code, message, related } = diagnostic;
    if (!translation.test(at.file)) return true;
    const file = at.file.replace(translation, '.md');
    const own = originals.filter((one) => one.at.file === file);
    if (own.some((one) => one.code === code && one.message === message)) return false;
    if (!aboutTranslations.has(code)) return true;
    const places = related.filter((place) => place.at.file === file).map((place) => place.at);
    const procedure = procedureIn(book, file);
    const steps = places.map((place) => stepAt(procedure, place));
    return !own.some((one) => one.code === 'duplicate-id' || isNear(one.at, places, steps));
  });
}

// in the text itself, or in the step that it belongs to
function isNear(at: Span, places: readonly Span[], steps: readonly (Step | undefined)[]): boolean {
  return (
    places.some(({ start, end }) => start <= at.start && at.start <= end) ||
    steps.some((step) => step && step.at.start <= at.start && at.start < step.at.end)
  );
}

function procedureIn(book: Book, file: string): Procedure | undefined {
  return [...book.procedures.values()].find((procedure) => procedure.file === file);
}

function stepAt(procedure: Procedure | undefined, { start }: Span): Step | undefined {
  return procedure?.steps.find(({ at }) => at.start <= start && start < at.end);
}

/** What several callers of one procedure lack in the same way is one fault; so is an end that a procedure run does not reach. */
export function joinCalls(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  return joinEdited(withoutCallers(joinSame(diagnostics), book), book);
}

/** An edited procedure is told once for all machines; what runs it says something else as well, which is told where it is. */
function joinEdited(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const edited = diagnostics.filter(({ code }) => code === 'edited-after-verification');
  const machineOf = ({ message }: Diagnostic): string | undefined => /has changed for (`[^`]+`)/.exec(message)?.[1];
  const calleeOf = (diagnostic: Diagnostic): Diagnostic | undefined => {
    const callees = procedureIn(book, diagnostic.at.file)?.steps.flatMap(({ run }) => run?.value ?? []) ?? [];
    const files = callees.flatMap((id) => book.procedures.get(id)?.file ?? []);
    return edited.find((one) => files.includes(one.at.file) && machineOf(one) === machineOf(diagnostic));
  };
  const own = edited.filter((one) => !calleeOf(one));
  return joinTo(diagnostics, (diagnostic) => {
    if (!edited.includes(diagnostic)) return undefined;
    return calleeOf(diagnostic) ?? own.find(({ at }) => at.file === diagnostic.at.file);
  });
}

/** Codes of which the same is said at several places for one reason, and what of the message is then the same. */
const sameWords: Readonly<Record<string, RegExp>> = {
  'requires-not-met-at-run': /runs `[^`]+`, which requires.*$/,
  'missing-parameter': /^`[^`]+` has no parameter/,
  'unknown-key': /in `leaves`, expected `done`.*$/,
  'unknown-step': /^No step or end is called.*$/,
  // one value, each of its entries against several parameters that are called as it is
  'value-differs-elsewhere': /^`[^`]+` of `[^`]+` is/,
  'withdrawn-run': /^`[^`]+` is withdrawn/,
};

/** Of these only what one file says is one fault. */
const inOneFile: ReadonlySet<string> = new Set(['missing-parameter', 'unknown-key', 'unknown-step']);

/** The same of codes whose one reason stands in a shared file, if more than two procedures say it. */
const sameWidely: Readonly<Record<string, RegExp>> = {
  'cannot-move-here': /moves `[^`]+`, which cannot move there.*$/,
  'safety-rule-broken': /the safety rule `[^`]+` is broken.*$/,
  'unused-hazard': /.*/,
};

function joinSame(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const groups = new Map<string, Diagnostic[]>();
  const widely = new Map<string, Diagnostic[]>();
  const put = (where: Map<string, Diagnostic[]>, key: readonly unknown[], one: Diagnostic): void => {
    const text = JSON.stringify(key);
    where.set(text, [...(where.get(text) ?? []), one]);
  };
  for (const diagnostic of diagnostics) {
    const { code, at, message, related } = diagnostic;
    const plain = (words: string): string => words.replaceAll(/\bperson \d|`person`/g, 'person');
    const words = sameWords[code]?.exec(message)?.[0];
    const wide = code === 'start-impossible' ? lawsOf(diagnostic) : sameWidely[code]?.exec(message)?.[0];
    const end = / of what (`[^`]+`) runs\b/.exec(message)?.[1];
    // what cannot be done after one branch that leads to an end is one fault
    if (end !== undefined) put(groups, [at.file, at.start, end], diagnostic);
    // what a machine lacks is lacked by one procedure at a time
    // one number that several procedures wait for
    else if (code === 'waits-exceed-time' && related[0]) put(groups, [code, related[0].at], diagnostic);
    else if (words !== undefined) put(groups, [code, inOneFile.has(code) ? at.file : '', plain(words)], diagnostic);
    else if (wide !== undefined) put(widely, [code, plain(wide)], diagnostic);
  }
  const wide = [...widely.values()].filter((group) => new Set(group.map(({ at }) => at.file)).size > 2);
  const followers = new Map(
    [...groups.values(), ...wide].flatMap(([first, ...others]) => (first ? [[first, others] as const] : [])),
  );
  const gone = new Set([...followers.values()].flat());
  const firsts = new Set(wide.map(([first]) => first));
  return diagnostics
    .filter((one) => !gone.has(one))
    .map((one) => withFollowers(firsts.has(one) ? withShared(one) : one, followers.get(one) ?? []));
}

/** The entries of `physics` that forbid a start: where several procedures meet the same ones, these may be what is wrong. */
function lawsOf({ related }: Diagnostic): string | undefined {
  const laws = related.filter(({ at }) => at.file === 'states.yaml').map(({ at }) => at.start);
  return laws.length > 0 ? laws.join(' ') : undefined;
}

function withShared(diagnostic: Diagnostic): Diagnostic {
  const shared = 'Several procedures have the same fault: look first whether `states.yaml` or `safety.yaml` is wrong.';
  return { ...diagnostic, note: diagnostic.note === undefined ? shared : `${diagnostic.note} ${shared}` };
}

// An end state that a procedure does not reach is missed by whoever runs it as well.
function withoutCallers(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const files = new Set([...book.procedures.values()].map(({ file }) => file));
  const unmet = diagnostics.filter(({ code, at }) => code === 'end-state-not-met' && files.has(at.file));
  const missing = ({ message }: Diagnostic): string => message.slice(message.lastIndexOf(': '));
  return diagnostics.filter(
    (diagnostic) =>
      diagnostic.code !== 'end-state-not-met' ||
      !unmet.some(
        (other) =>
          other.at.file !== diagnostic.at.file &&
          missing(other) === missing(diagnostic) &&
          diagnostic.related.some(({ at }) => at.file === other.at.file),
      ),
  );
}
