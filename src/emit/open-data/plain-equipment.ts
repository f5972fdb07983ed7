// Machines, headers, instruments and crops as plain data: numbers as they were written, with their exact ends where they
// need no others.

import { resolveLimits } from '../../calc/resolve-limits.js';
import type { Crop, Header, Instrument, Machine } from '../../model/book.js';
import type {
  CompiledBook,
  PlainHeader,
  PlainInstrument,
  PlainMachine,
  PlainParameter,
  PlainTell,
  PlainWord,
  PlainWritten,
} from '../../model/compiled-book.js';
import type { NumberChoice, Parameter, WrittenLimits } from '../../model/numbers.js';
import type { Figure } from '../../model/procedure.js';
import type { Choice, Template, Text, Words } from '../../model/text.js';
import { wordsOf } from '../book-text.js';
import { plainEnds } from './plain-numbers.js';
import { withoutMissing } from './without-missing.js';

export function plainMachine(machine: Machine): PlainMachine {
  const { serials } = machine;
  return withoutMissing({
    id: machine.id,
    name: wordsOf(machine.name),
    tell: plainTell(machine.tell),
    headers: machine.headers.map(({ value }) => value),
    options: machine.options.map(({ id, is, label, tell }) =>
      withoutMissing({ id, is, label: label && wordsOf(label), tell: plainTell(tell) }),
    ),
    serials: serials && withoutMissing({ from: serials.from, to: serials.to }),
    software: Object.fromEntries(
      machine.software.map(({ module, versions }) => [module.value, versions.map(({ value }) => value)]),
    ),
    softwareTells: softwareTells(machine),
    words: [...machine.words].map(([id, { text }]) => ({ id, words: entriesOf(text).flatMap(plainWords) })),
    parameters: [...machine.parameters.values()].map(plainParameter),
  });
}

function softwareTells({ software }: Machine): PlainMachine['softwareTells'] {
  const told = software.flatMap(({ module, tell }) => {
    const plain = plainTell(tell);
    return plain ? [[module.value, plain] as const] : [];
  });
  return told.length > 0 ? Object.fromEntries(told) : undefined;
}

export function plainHeader({ id, name, type, tell, parameters }: Header): PlainHeader {
  return withoutMissing({
    id,
    name: wordsOf(name),
    type: type.value,
    tell: plainTell(tell),
    parameters: [...parameters.values()].map(plainParameter),
  });
}

export function plainInstrument(instrument: Instrument): PlainInstrument {
  const { id, label, quantity, range, resolution, accuracy, counts, builtIn, readAt } = instrument;
  return withoutMissing({
    id,
    label: wordsOf(label),
    quantity: quantity.value,
    range: range ? plainNumbers(range) : [],
    resolution: resolution ? plainNumbers(resolution) : [],
    accuracy: accuracy ? entriesOf(accuracy).map(({ keys, value }) => ({ keys, text: tidy(value.value) })) : [],
    counts: counts?.value,
    builtIn,
    readAt: readAt?.value,
  });
}

export function plainCrop({ id, label, mass, baseMoisture, origin }: Crop): CompiledBook['crops'][number] {
  return withoutMissing({
    id,
    label: wordsOf(label),
    mass: mass && tidy(mass.source.value),
    baseMoisture: baseMoisture && tidy(baseMoisture.source.value),
    source: plainText(origin),
  });
}

function plainParameter({ id, label, origin, value }: Parameter): PlainParameter {
  return withoutMissing({ id, label: plainText(label), source: plainText(origin), values: plainNumbers(value) });
}

// labels of parameters may differ by rig: then each is told by its choices, and here there is none for all
function plainText(text: Text | undefined): Words | undefined {
  return text && [...text.languages.values()].every(({ kind }) => kind === 'one')
    ? Object.fromEntries(plainWords({ keys: [], value: text }).map(({ language, text: words }) => [language, words]))
    : undefined;
}

function plainNumbers(number: NumberChoice): readonly PlainWritten[] {
  return entriesOf(number).map(({ keys, value }) => ({ keys, text: tidy(value.source.value), ...exactOf(value) }));
}

function exactOf({ expr }: WrittenLimits): Pick<PlainWritten, 'exact'> {
  const found = resolveLimits(expr, () => undefined);
  return found.ok ? { exact: plainEnds(found.value) } : {};
}

function plainTell(tell: { readonly text: Text; readonly figure?: Figure } | undefined): PlainTell | undefined {
  return tell && withoutMissing({ text: plainWords({ keys: [], value: tell.text }), figure: tell.figure?.file.value });
}

interface Entry<T> {
  readonly keys: readonly string[];
  readonly value: T;
}

/** The entries at the ends of a choice, with the keys that lead to them. */
function entriesOf<T>(choice: Choice<T>, keys: readonly string[] = []): readonly Entry<T>[] {
  if (choice.kind === 'one') return [{ keys, value: choice.value }];
  return choice.entries.flatMap(({ key, value }) => entriesOf(value, [...keys, key.value]));
}

function plainWords({ keys, value }: Entry<Text>): PlainWord['words'] {
  return [...value.languages].flatMap(([language, choice]) =>
    entriesOf(choice, keys).map((entry) => ({ keys: entry.keys, language, text: templateText(entry.value) })),
  );
}

function templateText({ parts }: Template): string {
  return parts.map((part) => (part.kind === 'words' ? part.text : `{${part.path}}`)).join('');
}

function tidy(text: string): string {
  return text.trim().replaceAll(/\s+/g, ' ');
}
