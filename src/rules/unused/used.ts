// What a procedure makes use of: the names that its steps, expressions and texts hold.

import { joinHyphens } from '../../calc/expression/hyphens.js';
import { namesIn } from '../../calc/expression/names.js';
import type { WrittenExpr, WrittenLimits } from '../../model/numbers.js';
import type { Procedure } from '../../model/procedure.js';
import { leavesOf, placesOf } from '../../model/walk.js';
import { remembering } from '../../text/remember.js';

/** Every name in an expression or in limits. `on-ground` is the one name `on_ground` where `isName` knows that. */
export function namesOf(
  written: WrittenExpr | WrittenLimits | undefined,
  isName: (path: string) => boolean,
): readonly string[] {
  return written ? namesIn(joinHyphens(written.expr, { isName })).map(({ path }) => path) : [];
}

/** Values, worksheets, adjusters, columns and results: whatever a procedure declares for expressions, steps and texts. */
function declaredIn({ values, worksheets, adjusters }: Procedure): ReadonlySet<string> {
  const parts = worksheets.flatMap((sheet) => [...sheet.columns, ...sheet.results]);
  return new Set([...values, ...worksheets, ...adjusters, ...parts].map(({ id }) => id));
}

/** Every name in an expression or in limits anywhere in a procedure. */
export function namesInNumbers(procedure: Procedure): ReadonlySet<string> {
  return remember(procedure, [], () => findNames(procedure));
}

const remember = remembering<ReadonlySet<string>>();

function findNames(procedure: Procedure): ReadonlySet<string> {
  const limits = [
    ...procedure.values.flatMap((value) => [value.limits, value.nominal, value.inside]),
    ...procedure.adjusters.flatMap((adjuster) => [adjuster.range, adjuster.smallest]),
    ...procedure.worksheets.flatMap((sheet) => [...sheet.columns, ...sheet.results].map((part) => part.limits)),
    ...procedure.steps.flatMap((step) => [step.hold, step.wait]),
  ].flatMap((choice) => (choice ? [...leavesOf(choice)] : []));
  const expressions = [
    ...procedure.values.map((value) => value.from),
    ...procedure.adjusters.flatMap((adjuster) => adjuster.moves.flatMap(({ effect }) => [...leavesOf(effect)])),
    ...procedure.worksheets.flatMap((sheet) => [...sheet.columns, ...sheet.results].map((part) => part.from)),
  ];
  const declared = declaredIn(procedure);
  // what has a dot is a parameter of a machine, a header or a crop
  const isName = (path: string): boolean => declared.has(path) || path.includes('.');
  return new Set([...limits, ...expressions].flatMap((written) => namesOf(written, isName)));
}

/** Values and worksheets that a step measures, an expression names, or an adjuster watches. */
export function readingsInWork(procedure: Procedure): ReadonlySet<string> {
  return new Set([
    ...procedure.steps.flatMap((step) => step.measure.map(({ value }) => value)),
    ...procedure.adjusters.flatMap(({ watch }) => watch?.value ?? []),
    ...namesInNumbers(procedure),
  ]);
}

/** Those, and what a text names. */
export function usedReadings(procedure: Procedure): ReadonlySet<string> {
  return new Set([
    ...readingsInWork(procedure),
    ...[...placesOf(procedure)]
      .map((path) => path.split('.')[0] ?? path)
      .flatMap((id) => [id, id.replaceAll('-', '_')]),
  ]);
}

/**
 * Whether a name in the procedure leads to no value, worksheet or adjuster of it. What is then unused may be what was meant:
 * the wrong name is the one fault to report.
 */
export function hasWrongName(procedure: Procedure): boolean {
  const declared = declaredIn(procedure);
  const named = [
    ...procedure.steps.flatMap((step) => [...step.measure, ...step.write, ...step.adjust].map(({ value }) => value)),
    ...[...namesInNumbers(procedure)].filter((path) => !path.includes('.')),
  ];
  return named.some((name) => !declared.has(name));
}
