// What words say again of a number or a step that is wrong itself: prose against a value with a fault, a translation against a
// text with a fault. It stands beside the fault.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { Procedure, Step } from '../../model/procedure.js';
import type { Span } from '../../text/source.js';
import { joinTo } from './followers.js';
import { findLostSteps } from './lost-steps.js';
import { orderFaults, translationFile } from './order-codes.js';

const contradiction = 'prose-contradicts-number';
const contraryAct = 'act-against-effect';

/** Faults of an order that a step which was taken out leaves behind. */
const orderCodes: ReadonlySet<string> = new Set([...orderFaults, 'never-done']);

/** Names that a step gives, and that are wrong: it then lacks what the like of it have. */
const unknownInStep: ReadonlySet<string> = new Set([
  'unknown-hazard',
  'unknown-place',
  'unknown-state',
  'unknown-state-value',
]);

/** Faults of one translated text, by which it is unlike others. */
const translationCodes: ReadonlySet<string> = new Set(['translation-differs', 'translation-says-opposite']);

/** Joins what prose and translations say of a fault to that fault. */
export function joinWords(diagnostics: readonly Diagnostic[], book: Book): readonly Diagnostic[] {
  const procedures = [...book.procedures.values()];
  const contradictions = diagnostics.filter(({ code }) => code === contradiction);
  const contrary = diagnostics.filter(({ code }) => code === contraryAct);
  const errors = diagnostics.filter(({ severity }) => severity === 'error');
  const places = placesOfValues(procedures);
  const lost = findLostSteps(diagnostics, book);
  return joinTo(diagnostics, (diagnostic) => {
    const cause = lost(diagnostic);
    if (cause) return cause;
    switch (diagnostic.code) {
      case contradiction:
        return (
          errors.find((error) => isAboutSame(error, diagnostic, places)) ??
          contradictions.find((other) => other !== diagnostic && saysAgain(other, diagnostic))
        );
      case 'translation-differs':
        return (
          differenceFrom(diagnostic, [...contradictions, ...errors]) ??
          diagnostics.find(({ code, at }) => code === 'heading-like-step' && at.file === originalOf(diagnostic.at.file))
        );
      case 'translated-alike':
      case 'translated-two-ways':
        return diagnostics.find(
          ({ code, at }) =>
            translationCodes.has(code) &&
            [diagnostic, ...diagnostic.related].some((place) => holds(place.at, at) || holds(at, place.at)),
        );
      case 'name-contradicts-parameter':
        return errors.find((error) => isAboutSame(error, diagnostic, places));
      case 'act-against-effect':
        return errors.find((error) => orderCodes.has(error.code) && isOfState(error, diagnostic));
      case 'translation-says-opposite':
      case 'sets-nothing-new':
        return contrary.find((act) =>
          [diagnostic.at, ...diagnostic.related.map(({ at }) => at)].some((at) => isSameStep(procedures, at, act.at)),
        );
      case 'same-words-other-effect':
        return [...contrary.filter((act) => isSameStep(procedures, diagnostic.at, act.at)), ...errors].find(
          (error) =>
            error.code === contraryAct ||
            (orderCodes.has(error.code) && isOfState(error, diagnostic)) ||
            (unknownInStep.has(error.code) && stepAt(procedures, error.at) === stepAt(procedures, diagnostic.at)),
        );
      case 'tool-not-listed':
        return errors.find(
          ({ code, at, help }) =>
            code === 'unknown-tool' && at.file === diagnostic.at.file && help?.includes(toolIn(diagnostic)),
        );
      case 'watch-not-moved':
        return diagnostics.find(
          ({ code, at, message }) =>
            code === 'sent-to-wrong-adjuster' &&
            at.file === diagnostic.at.file &&
            message.includes(quotedLast(diagnostic)),
        );
      case 'translation-order-differs':
      case 'extra-translation':
        return causeInOriginal(diagnostic, errors, procedures);
      default:
        return undefined;
    }
  });
}

/** Each value with the place of its name and of all that it says. */
function placesOfValues(procedures: readonly Procedure[]): readonly (readonly [name: Span, said: Span])[] {
  return procedures.flatMap(({ values }) => values.map(({ idAt, at }) => [idAt, at] as const));
}

// The number that the prose names is wrong in itself, or parts of it are, or it must agree with others and does not.
function isAboutSame(
  error: Diagnostic,
  { related }: Diagnostic,
  values: readonly (readonly [name: Span, said: Span])[],
): boolean {
  const typed = related.map(({ at }) => at);
  const told = [error.at, ...(error.code === 'numbers-disagree' ? error.related.map(({ at }) => at) : [])];
  return typed.some((place) => {
    const value = values.find((parts) => parts.some((part) => holds(part, place)));
    return told.some((at) => holds(place, at) || value?.some((part) => holds(part, at)));
  });
}

// Of texts in several languages that contradict one typed number in the same way the original speaks.
function saysAgain(first: Diagnostic, other: Diagnostic): boolean {
  const [typed] = first.related;
  return (
    first.at.file === originalOf(other.at.file) &&
    other.related.some(({ at }) => at.file === typed?.at.file && at.start === typed.at.start)
  );
}

// A number or placeholder in which two languages differ, where it is told of one of them that it is wrong.
function differenceFrom({ at, message }: Diagnostic, told: readonly Diagnostic[]): Diagnostic | undefined {
  const original = originalOf(at.file);
  const parts = [...message.matchAll(/`([^`]+)`/g)].map(([, part = '']) => part).slice(1);
  return told.find((one) => {
    if (one.at.file === at.file && one.code === contradiction) return holds(one.at, at) || holds(at, one.at);
    if (one.at.file !== original || (one.code !== contradiction && one.code !== 'unknown-placeholder')) return false;
    const written = /`([^`]+)`/.exec(one.message)?.[1] ?? '';
    return parts.some((part) => new RegExp(`(?<![\\d.,])${escaped(part)}(?![\\d.,])`).test(written));
  });
}

// A step without an effect that the like of it have: what then does not hold is told where it is missed.
function isOfState(error: Diagnostic, { at, message }: Diagnostic): boolean {
  const state = /\{ ([\w-]+):/.exec(message)?.[1];
  return state !== undefined && error.at.file === at.file && new RegExp(`\`${state}[\`:]`).test(error.message);
}

function stepAt(procedures: readonly Procedure[], place: Span): Step | undefined {
  return procedures.find(({ file }) => file === place.file)?.steps.find(({ at }) => holds(at, place));
}

function isSameStep(procedures: readonly Procedure[], one: Span, other: Span): boolean {
  const step = stepAt(procedures, one);
  return step !== undefined && step === stepAt(procedures, other);
}

function toolIn({ message }: Diagnostic): string {
  return /takes the tool (`[^`]+`)/.exec(message)?.[1] ?? message;
}

function quotedLast({ message }: Diagnostic): string {
  return /`[^`]+`(?=[^`]*$)/.exec(message)?.[0] ?? message;
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

// What a translation has besides its original, or in another order, where the original is wrong: a key or id in it that is
// misspelt or stands twice, or a step that was taken out or moved, after which the order is broken.
function causeInOriginal(
  { code, message, at }: Diagnostic,
  errors: readonly Diagnostic[],
  procedures: readonly Procedure[],
): Diagnostic | undefined {
  const original = originalOf(at.file);
  const own = errors.filter((error) => error.at.file === original);
  const key = /^`([^`]+)` has no original/.exec(message)?.[1];
  const wrongKey = own.find(
    (error) =>
      (error.code === 'unknown-key' && error.message.endsWith(`expected \`${key}\``)) ||
      error.code === 'duplicate-key' ||
      error.code === 'duplicate-id',
  );
  if (wrongKey) return wrongKey;
  const unread = key !== undefined && own.find((error) => takesAway(error, key));
  if (unread) return unread;
  const steps = procedures.find(({ file }) => file === original)?.steps ?? [];
  const isOfStep = code === 'translation-order-differs' || (key !== undefined && key.length === at.end - at.start);
  const isKnown = steps.some(({ id }) => id.value === key);
  return isOfStep && steps.length > 0 && !isKnown ? own.find((error) => orderCodes.has(error.code)) : undefined;
}

/** Keys of branches. */
const branchKeys: ReadonlySet<string> = new Set([
  'answers',
  'fault',
  'high',
  'low',
  'otherwise',
  'outside',
  'then',
  'unsure',
  'when',
]);

/** Whether an error is why the original lacks a key: a list that could not be read, a branch that is gone. */
function takesAway({ code, message }: Diagnostic, key: string): boolean {
  if (code === 'unknown-key') return message.startsWith(`Unexpected key \`${key}\``);
  if (code === 'wrong-type') return /for `(?:requires|steps|values|adjusters|worksheets)`/.test(message);
  return branchKeys.has(key) && /^(?:failing-reading-without-branch|unreachable-step|never-done)$/.test(code);
}

function originalOf(file: string): string | undefined {
  return translationFile.test(file) ? file.replace(translationFile, '.md') : undefined;
}

function holds(outer: Span, inner: Span): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}
