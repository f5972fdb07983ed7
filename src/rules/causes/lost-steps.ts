// A step that was lost leaves its translation behind, and the heading of its detail; what it read or turned is then unused, and
// whatever counted on it goes wrong. That is one fault: told where the order breaks, else by what was left behind.

import type { Diagnostic } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import { orderFaults, translationFile } from './order-codes.js';

/** Errors that a step which is gone leaves in its procedure, where nothing says which step it was. */
const broken: ReadonlySet<string> = new Set([
  ...orderFaults,
  'adjust-without-reading',
  'derived-from-stale',
  'never-done',
  'stale-value-at-done',
  'unreachable-step',
  'wrong-place-at-run',
]);

/** What is said of what nothing reads, turns or changes any more. */
const idle: ReadonlySet<string> = new Set([
  'back-into-step',
  'hazard-not-listed',
  'read-again-alike',
  'sets-nothing-new',
  'tool-not-listed',
  'unreachable-step',
  'unused-adjuster',
  'unused-hazard',
  'unused-value',
  'unused-worksheet',
]);

/** The fault that another one follows from because a step was lost; undefined where none was. */
export function findLostSteps(
  diagnostics: readonly Diagnostic[],
  { procedures }: Book,
): (diagnostic: Diagnostic) => Diagnostic | undefined {
  const causes = new Map<Diagnostic, Diagnostic>();
  for (const { file } of procedures.values()) {
    const own = diagnostics.filter(({ at }) => originalOf(at.file) === file);
    const left = own.flatMap((diagnostic) => {
      const step = stepOf(diagnostic);
      return step === undefined ? [] : [{ diagnostic, step }];
    });
    for (const { step } of left.filter(({ diagnostic }) => saysLost(diagnostic))) {
      const traces = left.filter((one) => isSameStep(one.step, step)).map(({ diagnostic }) => diagnostic);
      const main = mainOf(own, traces, step);
      if (!main) continue;
      for (const one of traces) if (one !== main) causes.set(one, main);
      for (const one of own) if (idle.has(one.code) && one !== main && isAtMost(one, main)) causes.set(one, main);
    }
  }
  return (diagnostic) => causes.get(diagnostic);
}

/** The id of the step that a diagnostic misses. */
function stepOf({ code, message, help = '' }: Diagnostic): string | undefined {
  if (code === 'extra-translation') return /has lost the step `([^`]+)`/.exec(help)?.[1];
  if (code === 'unknown-step-in-text') return /`([^`]+)`/.exec(message)?.[1];
  return code === 'heading-like-step' ? /^No step has the id `([^`]+)`/.exec(message)?.[1] : undefined;
}

/** Whether it was lost, and is not another step misspelt. */
function saysLost({ help = '' }: Diagnostic): boolean {
  return help.startsWith('If the ');
}

/** `turn-left` is one of `turn-{side}`. */
function isSameStep(one: string, other: string): boolean {
  const isOf = (id: string, pattern: string): boolean => {
    const parts = pattern.split(/\{[^}]*\}/);
    return parts.length > 1 && id.startsWith(parts[0] ?? '') && id.endsWith(parts.at(-1) ?? '');
  };
  return one === other || isOf(one, other) || isOf(other, one);
}

// What names the step, then what breaks without it, then what was left behind: an error never behind less than an error.
function mainOf(own: readonly Diagnostic[], traces: readonly Diagnostic[], step: string): Diagnostic | undefined {
  const errors = own.filter(({ severity, at }) => severity === 'error' && !translationFile.test(at.file));
  const named = errors.find(
    ({ code, message }) => code === 'unknown-step' && isSameStep(/`([^`]+)`/.exec(message)?.[1] ?? '', step),
  );
  return (
    named ??
    errors.find(({ code }) => broken.has(code)) ??
    traces.find(({ severity }) => severity === 'error') ??
    traces.find(({ at }) => !translationFile.test(at.file)) ??
    traces[0]
  );
}

function isAtMost(one: Diagnostic, main: Diagnostic): boolean {
  return main.severity === 'error' || one.severity !== 'error';
}

function originalOf(file: string): string {
  return file.replace(translationFile, '.md');
}
