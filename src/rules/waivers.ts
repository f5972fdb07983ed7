// Waivers: a warning that its author has given a reason for. An error is never waived.

import { compareText, type Diagnostic, diagnose, type Severity } from '../diagnostic/diagnostic.js';
import { askWhetherMeant, nearestNames } from '../diagnostic/nearest.js';
import type { Book } from '../model/book.js';
import type { Waiver } from '../model/procedure.js';
import type { Span } from '../text/source.js';
import { catalogue } from './catalogue.js';

/**
 * Takes out the warnings that a waiver covers: the same code, and a place inside the map that the waiver stands in.
 * A waiver that names an error, or that covers nothing any more, is itself reported.
 */
export function sortOutWaived(
  diagnostics: readonly Diagnostic[],
  book: Book,
): { readonly kept: readonly Diagnostic[]; readonly waived: readonly Diagnostic[] } {
  const waivers = waiversIn(book);
  const used = new Set<Waiver>();
  let kept: Diagnostic[] = [];
  const waived: Diagnostic[] = [];
  for (const diagnostic of diagnostics) {
    const cover = diagnostic.severity === 'warning' ? waivers.filter((waiver) => covers(waiver, diagnostic)) : [];
    for (const waiver of cover) used.add(waiver);
    const [first] = cover;
    if (first) waived.push(withReason(diagnostic, first));
    else kept.push(diagnostic);
  }
  for (const waiver of waivers) {
    if (used.has(waiver)) continue;
    if (catalogue.has(waiver.code.value)) kept.push(idleWaiver(waiver));
    else kept = [...kept.filter((one) => !wasMeant(waiver, one)), unknownCode(waiver, kept)];
  }
  return { kept: kept.sort((a, b) => compareText(a.at.file, b.at.file)), waived };
}

/** A warning that is covered, with the waiver and the reason that it gives. */
function withReason(diagnostic: Diagnostic, { because, at }: Waiver): Diagnostic {
  const message = `waived here: ${because.value.trim()}`;
  return { ...diagnostic, related: [...diagnostic.related, { message, at }] };
}

/** Whether a waiver of the book covers a diagnostic. */
export function isWaived(book: Book): (diagnostic: Diagnostic) => boolean {
  const waivers = waiversIn(book);
  return (diagnostic) => diagnostic.severity === 'warning' && waivers.some((waiver) => covers(waiver, diagnostic));
}

function waiversIn(book: Book): readonly Waiver[] {
  return [...book.waivers, ...[...book.procedures.values()].flatMap((procedure) => procedure.waivers)];
}

// What a waiver would cover if its code were spelt right: told with that.
function wasMeant({ code, within }: Waiver, diagnostic: Diagnostic): boolean {
  if (diagnostic.severity !== 'warning' || !isInside(diagnostic.at, within)) return false;
  return nearestNames(code.value, catalogue.keys()).includes(diagnostic.code);
}

function unknownCode(waiver: Waiver, kept: readonly Diagnostic[]): Diagnostic {
  const { code } = waiver;
  const meant = kept.filter((one) => wasMeant(waiver, one));
  return diagnose({
    code: 'unknown-code',
    severity: 'error',
    message: `No diagnostic has the code \`${code.value}\``,
    at: code.at,
    related: meant.map(({ message, at }) => ({ message, at })),
    help: askWhetherMeant(nearestNames(code.value, catalogue.keys())) ?? 'Take the waiver out, or mend its code.',
    note: 'A waiver covers the diagnostics of its code: what was to be covered is reported all the same.',
  });
}

/** What is wrong with a waiver that covers nothing. */
function idleWaiver(waiver: Waiver): Diagnostic {
  const severity = catalogue.get(waiver.code.value);
  return severity === 'error' ? errorWaived(waiver) : unneeded(waiver, severity);
}

function covers(waiver: Waiver, diagnostic: Diagnostic): boolean {
  return waiver.code.value === diagnostic.code && isInside(diagnostic.at, waiver.within);
}

function isInside(inner: Span, outer: Span): boolean {
  return inner.file === outer.file && inner.start >= outer.start && inner.end <= outer.end;
}

function errorWaived(waiver: Waiver): Diagnostic {
  return diagnose({
    code: 'waived-error',
    severity: 'error',
    message: `\`${waiver.code.value}\` is an error, and an error is never waived`,
    at: waiver.code.at,
    help: 'Mend the fault and take the waiver out.',
    note: 'A waiver is for a warning that is right in general and wrong here. An error is wrong however it is read.',
  });
}

function unneeded({ code }: Waiver, severity: Severity | undefined): Diagnostic {
  return diagnose({
    code: 'unneeded-waiver',
    severity: 'hint',
    message:
      severity === 'hint'
        ? `\`${code.value}\` is a hint, which never counts and needs no waiver`
        : `Nothing here is reported as \`${code.value}\``,
    at: code.at,
    help: 'Take the waiver out, or mend its code.',
    note: 'A waiver that covers nothing would hide the next fault of that kind.',
  });
}
