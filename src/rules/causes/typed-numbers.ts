// A fault of limits that only name a parameter: the number itself stands in the file of a machine or header, and whoever
// mends it has to go there. Adds these places to what is related.

import { namesIn } from '../../calc/expression/names.js';
import type { Diagnostic, Related } from '../../diagnostic/diagnostic.js';
import type { Book } from '../../model/book.js';
import type { WrittenExpr, WrittenLimits } from '../../model/numbers.js';
import type { Procedure } from '../../model/procedure.js';
import type { Choice } from '../../model/text.js';
import { leavesOf } from '../../model/walk.js';
import type { RigsOf } from './followers.js';

/** More places than these help nobody. */
const most = 4;

/** Diagnostics of numbers in procedures, each with the places where the parameters that it names are typed. */
export function showTyped(diagnostics: readonly Diagnostic[], book: Book, rigsOf: RigsOf): readonly Diagnostic[] {
  const byFile = new Map([...book.procedures.values()].map((procedure) => [procedure.file, procedure]));
  return diagnostics.map((diagnostic) => {
    const procedure = diagnostic.severity === 'hint' ? undefined : byFile.get(diagnostic.at.file);
    // a band that a sensor reads in is typed there, too
    const places =
      diagnostic.code === 'limits-outside-sensor-band' ? [diagnostic, ...diagnostic.related] : [diagnostic];
    const names = procedure ? [...new Set(places.flatMap((place) => namesAt(procedure, place)))] : [];
    if (names.length === 0) return diagnostic;
    const holders = new Set([...rigsOf(diagnostic)].flatMap((rig) => rig.split(/[+~@#]/).slice(0, 2)));
    const typed = names
      .flatMap((path) => placesOf(path, book, holders))
      .filter(({ at }) => diagnostic.related.every((one) => one.at.file !== at.file || one.at.start !== at.start));
    return typed.length === 0
      ? diagnostic
      : { ...diagnostic, related: [...diagnostic.related, ...typed.slice(0, most)] };
  });
}

/** The names in the number of a procedure that a place lies in. */
export function namesAt(procedure: Procedure, { at }: Pick<Related, 'at'>): readonly string[] {
  const leaf = numbersOf(procedure).find(
    ({ source }) => source.at.start <= at.start && at.end <= source.at.end && source.at.file === at.file,
  );
  return leaf ? [...new Set(namesIn(leaf.expr).map(({ path }) => path))] : [];
}

function numbersOf({ values, adjusters, worksheets, steps }: Procedure): readonly (WrittenExpr | WrittenLimits)[] {
  const choices: readonly (Choice<WrittenExpr | WrittenLimits> | undefined)[] = [
    ...values.flatMap(({ limits, nominal, inside }) => [limits, nominal, inside]),
    ...adjusters.flatMap(({ range, smallest, moves }) => [range, smallest, ...moves.map(({ effect }) => effect)]),
    ...worksheets.flatMap(({ columns, results }) => [...columns, ...results].map(({ limits }) => limits)),
    ...steps.flatMap(({ hold, wait }) => [hold, wait]),
  ];
  return choices.flatMap((choice) => (choice ? [...leavesOf(choice)] : []));
}

/** Where the machines or headers of some rigs have a parameter, each number once. */
function placesOf(path: string, { machines, headers }: Book, holders: ReadonlySet<string>): readonly Related[] {
  const [owner = '', id = ''] = path.split('.');
  const all = owner === 'machine' ? machines : owner === 'header' ? headers : new Map<string, never>();
  return [...all.values()].flatMap((holder): readonly Related[] => {
    const parameter = holders.has(holder.id) ? holder.parameters.get(id) : undefined;
    return parameter ? [{ message: `\`${id}\` of \`${holder.id}\` is typed here`, at: parameter.value.at }] : [];
  });
}
