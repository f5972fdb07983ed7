// The typed numbers that words of a procedure may name: its values, holds and waits, results, and the parameters of the rigs
// that it applies to. Each with every number that it has on any of these rigs.

import type { Limits } from '../../calc/limits.js';
import { formatLimits } from '../../calc/quantity-text.js';
import { equals } from '../../calc/rational.js';
import { resolveLimits } from '../../calc/resolve-limits.js';
import type { Book, Header, Machine } from '../../model/book.js';
import type { NumberChoice, Parameter } from '../../model/numbers.js';
import type { ResolvedProcedure, Rig, Variant } from '../../model/resolved.js';
import type { Text } from '../../model/text.js';
import { leavesOf, templatesOf } from '../../model/walk.js';
import { remembering } from '../../text/remember.js';
import type { Span } from '../../text/source.js';
import type { Context } from '../rule.js';
import { english } from './languages/english.js';
import { numberLanguage } from './languages/languages.js';
import type { NamedRig } from './named-rigs.js';
import { headOf, namedIn } from './naming.js';

/** A typed number, and what it is called. */
export interface Stated {
  readonly kind: 'value' | 'parameter' | 'hold' | 'wait' | 'result' | 'state';
  /** As a text refers to it: `on_ground`, `header.working_width`, `hold`. */
  readonly path: string;
  /** What its id names. */
  readonly id: ReadonlySet<string>;
  /** By language, what its label names, and the thing itself in it. */
  readonly labels: ReadonlyMap<string, { readonly words: ReadonlySet<string>; readonly head?: string }>;
  /** As it is typed, for messages. */
  readonly typed: ReadonlySet<string>;
  /** What it is, rig by rig. */
  readonly limits: readonly Limits[];
  /** Other numbers that belong to it: nominals, ends of the band it is read in. Only their ends fit. */
  readonly besides: readonly Limits[];
  readonly at: Span;
  /** The steps that measure, hold or wait it. */
  readonly steps: ReadonlySet<string>;
  /** Whether `{path}` may stand in a text of the procedure. */
  readonly refers: boolean;
}

/** The typed numbers of one procedure. */
export interface Numbers {
  /** On all rigs. */
  readonly all: readonly Stated[];
  /** On those of one machine, of one header, or of both; none where the procedure has no such rig. */
  readonly on: (rig: NamedRig) => readonly Stated[];
}

/** The typed numbers of each procedure, by its id. */
export function statedIn({ resolved, book }: Context): ReadonlyMap<string, Numbers> {
  const byProcedure = new Map<string, Variant[]>();
  for (const variant of resolved.variants) {
    const { id } = variant.procedure;
    byProcedure.set(id, [...(byProcedure.get(id) ?? []), variant]);
  }
  return new Map(
    [...byProcedure].map(([id, variants]) => {
      const [machines, headers] = ownersOf(variants, book);
      const parts = [...variants, ...machines, ...headers];
      return [id, remember(variants[0] ?? variants, parts, () => numbersIn(variants, book))] as const;
    }),
  );
}

function numbersIn(variants: readonly Variant[], book: Book): Numbers {
  const known = new Map<string, readonly Stated[]>();
  return {
    all: statedOf(variants, book, {}),
    on: (rig) => {
      const key = `${rig.machine ?? ''} ${rig.header ?? ''}`;
      const found = known.get(key) ?? statedOf(variants, book, rig);
      known.set(key, found);
      return found;
    },
  };
}

function statedOf(variants: readonly Variant[], book: Book, named: NamedRig): readonly Stated[] {
  const own = variants.filter(({ rigs }) => rigs.some((rig) => isNamed(rig, named)));
  const [machines, headers] = ownersOf(own, book, named);
  const numbers = numbersOf(own);
  const parameters = [...parametersOf('machine', machines), ...parametersOf('header', headers)];
  return [...numbers, ...parameters.filter((one) => !isBand(one, numbers))];
}

/** The machines and headers of the rigs, as far as they are named. */
function ownersOf(
  variants: readonly Variant[],
  book: Book,
  named: NamedRig = {},
): readonly [readonly Machine[], readonly Header[]] {
  const rigs = variants.flatMap((variant) => variant.rigs).filter((rig) => isNamed(rig, named));
  return [
    [...new Set(rigs.map(({ machine }) => machine))].flatMap((one) => book.machines.get(one) ?? []),
    [...new Set(rigs.map(({ header }) => header))].flatMap((one) => book.headers.get(one) ?? []),
  ];
}

function isNamed({ machine, header }: Rig, named: NamedRig): boolean {
  return machine === (named.machine ?? machine) && header === (named.header ?? header);
}

// what an edit does not touch says what it said
const remember = remembering<Numbers>();
const rememberParameter = remembering<TypedParameter>();

/** What one parameter of one machine or header is called and says, however many procedures may name it. */
interface TypedParameter extends Pick<Stated, 'id' | 'labels' | 'limits'> {
  readonly typed: readonly string[];
}

function typedParameter({ id, label, value }: Parameter): TypedParameter {
  const limits = literals(value);
  return { id: idWords(id), labels: labelsOf(label), limits, typed: limits.map(formatLimits) };
}

/** The parameters of machines or headers, those of one name together. */
export function parametersOf(owner: 'machine' | 'header', holders: readonly (Machine | Header)[]): readonly Stated[] {
  const found = new Map<string, Parameter[]>();
  for (const { parameters } of holders) {
    for (const parameter of parameters.values()) {
      found.set(parameter.id, [...(found.get(parameter.id) ?? []), parameter]);
    }
  }
  return [...found].flatMap(([id, parameters]) => {
    const all = parameters.map((parameter) => rememberParameter(parameter, [], () => typedParameter(parameter)));
    const limits = all.flatMap((one) => one.limits);
    const [[first], [named]] = [parameters, all];
    if (!first || !named || limits.length === 0) return [];
    return [
      {
        kind: 'parameter' as const,
        path: `${owner}.${id}`,
        id: named.id,
        labels: named.labels,
        typed: new Set(all.flatMap(({ typed }) => typed)),
        limits,
        besides: [],
        at: first.at,
        steps: new Set<string>(),
        refers: parameters.length === holders.length,
      },
    ];
  });
}

/** The numbers of a parameter that are written out; what is worked out from others says nothing here. */
function literals(value: NumberChoice): readonly Limits[] {
  return [...leavesOf(value)].flatMap(({ expr }) => {
    const found = resolveLimits(expr, () => undefined);
    return found.ok ? [found.value] : [];
  });
}

type Draft = Omit<Stated, 'typed' | 'limits' | 'besides' | 'steps'>;

interface Gathered extends Stated {
  readonly typed: Set<string>;
  readonly limits: Limits[];
  readonly besides: Limits[];
  readonly steps: Set<string>;
}

interface Gathering {
  readonly found: Map<string, Gathered>;
}

function gather({ found }: Gathering, key: string, draft: Draft): Gathered {
  const known = found.get(key) ?? {
    ...draft,
    typed: new Set<string>(),
    limits: [],
    besides: [],
    steps: new Set<string>(),
  };
  found.set(key, known);
  return known;
}

function numbersOf(variants: readonly Variant[]): readonly Stated[] {
  const gathering: Gathering = { found: new Map() };
  for (const { procedure } of variants) {
    gatherValues(gathering, procedure);
    gatherResults(gathering, procedure);
    gatherSteps(gathering, procedure);
    for (const { condition } of procedure.requires) {
      if (condition.test.kind !== 'limits') continue;
      const { state, at } = condition;
      const draft = { kind: 'state', path: state, id: idWords(state), labels: new Map(), at, refers: false } as const;
      put(gather(gathering, `state ${state}`, draft), condition.test.limits);
    }
  }
  return [...gathering.found.values()].filter(({ limits }) => limits.length > 0);
}

function idWords(id: string): ReadonlySet<string> {
  return namedIn(id.replaceAll(/[_-]/g, ' '), english);
}

function put(one: Gathered, limits: Limits): void {
  one.limits.push(limits);
  one.typed.add(formatLimits(limits));
}

function gatherValues(gathering: Gathering, procedure: ResolvedProcedure): void {
  for (const value of procedure.values) {
    const names = { id: idWords(value.id), labels: labelsOf(value.source.label) };
    const draft = { kind: 'value', path: value.id, ...names, at: value.limitsAt, refers: true } as const;
    const one = gather(gathering, value.id, draft);
    if (value.tolerance) put(one, value.tolerance);
    for (const limits of [value.acceptance, value.failing]) if (limits) one.limits.push(limits);
    for (const limits of [value.nominal, value.inside]) if (limits) one.besides.push(limits);
    for (const { measure, source } of procedure.steps) if (measure.includes(value.id)) one.steps.add(source.id.value);
  }
}

function gatherResults(gathering: Gathering, { worksheets, steps, source: procedure }: ResolvedProcedure): void {
  for (const worksheet of worksheets) {
    const written = procedure.worksheets.find(({ id }) => id === worksheet.id);
    for (const { id, limits } of worksheet.results) {
      const result = written?.results.find((one) => one.id === id);
      if (!result || !limits) continue;
      const names = { id: idWords(id), labels: labelsOf(result.label) };
      const draft = { kind: 'result', path: id, ...names, at: result.at, refers: false } as const;
      const one = gather(gathering, `${worksheet.id}.${id}`, draft);
      put(one, limits);
      for (const { measure, source } of steps) if (measure.includes(worksheet.id)) one.steps.add(source.id.value);
    }
  }
}

function gatherSteps(gathering: Gathering, { steps }: ResolvedProcedure): void {
  for (const step of steps) {
    for (const kind of ['hold', 'wait'] as const) {
      const [number, at] = [step[kind], step.source[kind]?.at];
      if (!number || !at) continue;
      const draft = { kind, path: kind, id: new Set([kind]), labels: new Map(), at, refers: true };
      const one = gather(gathering, `${kind} of ${step.id}`, draft);
      put(one, number.limits);
      one.steps.add(step.source.id.value);
    }
  }
}

function labelsOf(label: Text | undefined): Stated['labels'] {
  return new Map(
    [...(label?.languages ?? [])].map(([language]) => {
      const own = numberLanguage(language);
      const texts = [...templatesOf(label, language)].map(({ source }) => source.value);
      const head = texts[0] === undefined ? undefined : headOf(texts[0], own);
      const words = new Set(texts.flatMap((text) => [...namedIn(text, own)]));
      return [language, head === undefined ? { words } : { words, head }] as const;
    }),
  );
}

/** Whether a parameter is the band that values are read in: not all that lies within it fits a sentence about a value. */
function isBand({ limits }: Stated, own: readonly Stated[]): boolean {
  return limits.every((one) => own.some(({ besides }) => besides.some((band) => isSameRange(one, band))));
}

function isSameRange(a: Limits, b: Limits): boolean {
  return !!a.low && !!a.high && !!b.low && !!b.high && equals(a.low, b.low) && equals(a.high, b.high);
}
