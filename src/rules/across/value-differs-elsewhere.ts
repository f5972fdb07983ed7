// The same number typed in two places with different limits: two values of one label, a value and a parameter of one name, or
// a parameter of a machine and one of a header that it carries.

import { sameDimension } from '../../calc/dimension.js';
import { formatLimits } from '../../calc/display.js';
import type { Limits } from '../../calc/limits.js';
import { compare, type Rational, toNumber } from '../../calc/rational.js';
import type { Book, Header, Machine } from '../../model/book.js';
import type { ResolvedBook, Rig, Variant } from '../../model/resolved.js';
import type { Text } from '../../model/text.js';
import { leavesOf, templatesOf } from '../../model/walk.js';
import { remembering } from '../../text/remember.js';
import type { Span } from '../../text/source.js';
import { rule } from '../rule.js';
import { plainLimits } from './siblings.js';

/** A number of the book, and the rigs that it holds for. */
interface Typed {
  /** `raised` of `learn-height-range`, `raised` of `tarn-40`. */
  readonly name: string;
  readonly id: string;
  readonly label: string | undefined;
  /** The procedure, machine or header. */
  readonly of: string;
  /** How an expression names it: `machine.raised`. */
  readonly reference: string | undefined;
  readonly limits: Limits;
  /** Whether the number itself stands there, not a name for it. */
  readonly isPlain: boolean;
  readonly at: Span;
  readonly isFor: (rig: Rig) => boolean;
}

interface Facts {
  readonly here: string;
  readonly limits: string;
  readonly there: string;
  readonly theirs: string;
  /** `machine.raised`, where the other place is a parameter. */
  readonly reference: string | undefined;
}

export default rule({
  id: 'value-differs-elsewhere',
  severity: 'warning',
  needs: 'book',
  *run(book, { resolved }) {
    const values = valuesOf(resolved, book);
    const parameters = parametersOf(book);
    const rigs = [...resolved.variants.flatMap((variant) => variant.rigs), ...resolved.rigs.map(plainRig)];
    const told = new Set<string>();
    for (const [here, there] of [...pairsOf(values, parameters), ...parameterPairs(parameters)]) {
      // a parameter of a machine is told once, whatever number of headers has it
      const key = [here.at.file, here.at.start, ...(here.reference ? [] : [there.at.file, there.at.start])].join();
      if (told.has(key) || agree(here.limits, there.limits)) continue;
      if (!rigs.some((rig) => here.isFor(rig) && there.isFor(rig))) continue;
      told.add(key);
      const [limits, theirs] = [formatLimits(here.limits), formatLimits(there.limits)];
      const reference = here.reference ? undefined : there.reference;
      const data: Facts = { here: here.name, limits, there: there.name, theirs, reference };
      yield { at: here.at, related: [{ message: `${there.name} is ${theirs}`, at: there.at }], data };
    }
  },
  say: ({ here, limits, there, theirs, reference }: Facts) => ({
    message: `${here} is ${limits}, and ${there}, which is called the same, is ${theirs}`,
    help: reference
      ? `Write \`${reference}\` here, so that the number is typed once; or give one of the two another name, if they are not the same thing.`
      : 'Make it one parameter, of the machine or of the header, that both places name; or give one of the two another name, if they are not the same thing.',
    note: 'Of a number that is typed twice, one is sooner or later the one that was not mended.',
  }),
});

/** Numbers that are called the same, of which the first at least is typed out. */
function* pairsOf(values: readonly Typed[], parameters: readonly Typed[]): Iterable<readonly [Typed, Typed]> {
  // of hundreds of values few are called the same
  const byLabel = new Map<string | undefined, Typed[]>();
  for (const value of values) byLabel.set(value.label, [...(byLabel.get(value.label) ?? []), value]);
  for (const value of values) {
    for (const parameter of parameters) {
      if (value.isPlain && (value.id === parameter.id || sameLabel(value, parameter))) yield [value, parameter];
    }
    for (const other of byLabel.get(value.label) ?? []) {
      if (value.of === other.of || !sameLabel(value, other)) continue;
      // of two that are typed, the later speaks
      if (value.isPlain && (!other.isPlain || isLater(value, other))) yield [value, other];
    }
  }
}

/** A parameter of a machine and one of a header that are called the same and are of one size: a `mass` may be of either. */
function* parameterPairs(parameters: readonly Typed[]): Iterable<readonly [Typed, Typed]> {
  for (const here of parameters) {
    if (here.reference?.startsWith('header.')) continue;
    for (const there of parameters) {
      if (!there.reference?.startsWith('header.')) continue;
      const isCalledSame = (here.id === there.id && here.id.includes('_')) || sameLabel(here, there);
      if (isCalledSame && isOneSize(here.limits, there.limits)) yield [here, there];
    }
  }
}

/** Whether one of two numbers may be the other before it was mended: they differ by less than half. */
function isOneSize(a: Limits, b: Limits): boolean {
  return [a.low && b.low ? [a.low, b.low] : [], a.high && b.high ? [a.high, b.high] : []].some(
    ([one, other]) => one && other && isNear(one, other),
  );
}

function isNear(one: Rational, other: Rational): boolean {
  const [left, right] = [toNumber(one), toNumber(other)];
  return Math.abs(left - right) < 0.5 * Math.max(Math.abs(left), Math.abs(right));
}

function isLater(a: Typed, b: Typed): boolean {
  return a.at.file > b.at.file || (a.at.file === b.at.file && a.at.start > b.at.start);
}

/** Whether two limits are equal, or of different things. */
function agree(a: Limits, b: Limits): boolean {
  if (!sameDimension(a.unit.dimension, b.unit.dimension)) return true;
  return sameEnd(a.low, b.low) && sameEnd(a.high, b.high);
}

function plainRig({ machine, header }: { readonly machine: string; readonly header: string }): Rig {
  return { machine, header, options: new Map(), software: new Map() };
}

/** A label of one word, `Gap`, may be that of two things. */
function sameLabel(a: Typed, b: Typed): boolean {
  return a.label !== undefined && a.label === b.label && a.label.includes(' ');
}

function sameEnd(a: Rational | undefined, b: Rational | undefined): boolean {
  return a === undefined || b === undefined ? a === b : compare(a, b) === 0;
}

// an edit leaves most variants and machines what they were
const rememberValues = remembering<readonly Typed[]>();
const rememberParameters = remembering<readonly Typed[]>();

function valuesOf({ variants }: ResolvedBook, book: Book): readonly Typed[] {
  const { settings } = book;
  return variants.flatMap((variant) => rememberValues(variant, [settings], () => valuesOfVariant(variant, settings)));
}

function valuesOfVariant(variant: Variant, settings: Book['settings']): readonly Typed[] {
  return variant.procedure.values.flatMap(({ id, source, tolerance, limitsAt }): readonly Typed[] => {
    if (!tolerance || !source.limits) return [];
    const written = [...leavesOf(source.limits)].find((leaf) => leaf.source.at.start === limitsAt.start);
    return [
      {
        name: `\`${id}\` of \`${variant.procedure.id}\``,
        id,
        label: labelOf(source.label, settings),
        of: variant.procedure.id,
        reference: undefined,
        limits: tolerance,
        isPlain: written !== undefined && plainLimits(written) !== undefined,
        at: limitsAt,
        isFor: (rig) => isAmong(variant, rig),
      },
    ];
  });
}

function isAmong({ rigs }: Variant, rig: Rig): boolean {
  return rigs.some(({ machine, header }) => machine === rig.machine && header === rig.header);
}

function parametersOf({ machines, headers, settings }: Book): readonly Typed[] {
  const all = [
    ...[...machines.values()].map((holder) => ({ kind: 'machine' as const, holder })),
    ...[...headers.values()].map((holder) => ({ kind: 'header' as const, holder })),
  ];
  return all.flatMap(({ kind, holder }) =>
    rememberParameters(holder, [settings], () => parametersOfHolder(kind, holder, settings)),
  );
}

function parametersOfHolder(
  kind: 'machine' | 'header',
  holder: Machine | Header,
  settings: Book['settings'],
): readonly Typed[] {
  return [...holder.parameters.values()].flatMap(({ id, value, label }): readonly Typed[] => {
    if (value.kind !== 'one') return [];
    const limits = plainLimits(value.value);
    if (!limits) return [];
    return [
      {
        name: `\`${id}\` of \`${holder.id}\``,
        id,
        label: label && labelOf(label, settings),
        of: holder.id,
        reference: `${kind}.${id}`,
        limits,
        isPlain: true,
        at: value.value.source.at,
        isFor: (rig) => rig[kind] === holder.id,
      },
    ];
  });
}

/** The words in the book's first language, in small letters and without what stands between braces. */
function labelOf(label: Text, { languages }: Book['settings']): string | undefined {
  const [template] = templatesOf(label, languages[0]);
  if (!template || template.parts.some(({ kind }) => kind === 'place')) return undefined;
  return template.source.value.trim().toLowerCase().replaceAll(/\s+/g, ' ');
}
