// Names in numbers and expressions: parameters of machines, headers and crops, values and columns of the procedure.

import { joinHyphens } from '../../calc/expression/hyphens.js';
import { firstNamesIn } from '../../calc/expression/names.js';
import { digitsFor } from '../../calc/expression/slips.js';
import { askWhetherMeant, nearestNames } from '../../diagnostic/nearest.js';
import type { NumberChoice, WrittenExpr, WrittenLimits } from '../../model/numbers.js';
import { type Span, spanWithin } from '../../text/source.js';
import { isParameter, type Owner, parameterNames } from '../parameter-names.js';
import { type Checker, checkChoice } from './checker.js';
import { fixFor } from './unknown.js';

export interface NameScope {
  /** Whose file it stands in: its own parameters need no prefix there. */
  readonly owner?: Owner;
  /** Values or columns that may be named. */
  readonly locals?: ReadonlySet<string>;
}

/** Checks the keys of a choice of numbers and all names in them. */
export function checkNumber(checker: Checker, choice: NumberChoice | undefined, scope: NameScope = {}): void {
  for (const written of checkChoice(checker, choice)) checkExpression(checker, written, scope);
}

/** Checks all names in an expression or in limits. */
export function checkExpression(
  checker: Checker,
  written: WrittenExpr | WrittenLimits | undefined,
  { owner, locals = new Set() }: NameScope = {},
): void {
  if (!written) return;
  const isName = (path: string): boolean => locals.has(path) || isParameter(checker.vocabulary, path, owner);
  for (const { path, start, end } of firstNamesIn(joinHyphens(written.expr, { isName, unknownToo: true }))) {
    if (!isName(path))
      reportName(
        checker,
        { path, at: spanWithin(written.source, start, end) },
        { locals, ...(owner ? { owner } : {}) },
      );
  }
}

function reportName(
  checker: Checker,
  { path, at }: { readonly path: string; readonly at: Span },
  scope: NameScope,
): void {
  const { book, vocabulary } = checker;
  const prefix = /^(machine|header)\./.exec(path)?.[1];
  if (prefix !== 'header' && [...book.unread].some((file) => file.startsWith('machines/'))) return;
  if (prefix !== 'machine' && [...book.unread].some((file) => file.startsWith('headers/'))) return;
  const { owner, locals = new Set<string>() } = scope;
  const names = [...locals, ...parameterNames(vocabulary, owner)];
  const near = meantNames(path, names);
  const isLocal = prefix === undefined && locals.size > 0;
  checker.report({
    code: isLocal ? 'unknown-value' : 'unknown-parameter',
    message: prefix
      ? `No ${prefix} has a parameter \`${path.slice(prefix.length + 1)}\``
      : `No ${isLocal ? 'value or parameter' : 'parameter'} is called \`${path}\``,
    at,
    help:
      askWhetherMeant(near) ??
      askForDigits(path) ??
      (isLocal
        ? 'Write the id of a value, `machine.` or `header.` and a parameter.'
        : `Declare it in \`parameters\` of the ${prefix ?? 'machine or header'}, or write a number.`),
    ...fixFor({ value: path, at }, near),
  });
}

/** `l2`, with the letter for the digit. */
function askForDigits(path: string): string | undefined {
  if (!/^[OoIl][\dOoIl.]*\d[\dOoIl.]*$/.test(path)) return undefined;
  return `Did you mean the number \`${digitsFor(path)}\`? There is a letter where a digit belongs.`;
}

/** Near names; one that differs by a forgotten or a wrong prefix alone comes first. */
export function meantNames(path: string, names: readonly string[]): readonly string[] {
  const tail = path.slice(path.indexOf('.') + 1);
  const sameTail = names.filter((name) => name !== path && name.slice(name.indexOf('.') + 1) === tail);
  return sameTail.length > 0 ? [...new Set(sameTail)].sort().slice(0, 3) : nearestNames(path, names);
}
