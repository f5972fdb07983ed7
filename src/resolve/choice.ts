// The one entry of a choice that a rig is meant by.

import type { Choice } from '../model/text.js';
import type { Located, Span } from '../text/source.js';
import { joinNames } from './faults.js';
import { hasOption, headerOf, headerTypeOf, machineOf, reportDependence, type Scene } from './scene.js';
import type { Vocabulary } from './vocabulary.js';

export type ChoiceKind = 'machine' | 'header' | 'header-type' | 'option' | 'software';

/** What the keys of each kind are, in words. */
export const kindWords: Readonly<Record<ChoiceKind, string>> = {
  machine: 'machines',
  header: 'headers',
  'header-type': 'header types',
  option: 'options',
  software: 'software versions',
};

const kinds = Object.keys(kindWords) as readonly ChoiceKind[];

/** The names that keys of a kind may be. */
export function namesOfKind(vocabulary: Vocabulary, kind: ChoiceKind): ReadonlySet<string> {
  const names = {
    machine: vocabulary.machines,
    header: vocabulary.headers,
    'header-type': vocabulary.headerTypes,
    option: vocabulary.options,
    software: vocabulary.versions,
  };
  return names[kind];
}

/** The kinds of name that one key may be; none for a name that the book has not. */
export function kindsOfKey(vocabulary: Vocabulary, key: string): readonly ChoiceKind[] {
  return kinds.filter((kind) => namesOfKind(vocabulary, kind).has(key));
}

/** The kind that all keys of a choice have in common, `other` apart; undefined where there is none. */
export function kindOfChoice(vocabulary: Vocabulary, keys: readonly string[]): ChoiceKind | undefined {
  const named = keys.filter((key) => key !== 'other');
  return kinds.find((kind) => named.every((key) => namesOfKind(vocabulary, kind).has(key)));
}

/** What was picked, and where it is written. */
export interface Picked<T> {
  readonly value: T;
  readonly at: Span;
}

type Entries<T> = Extract<Choice<T>, { kind: 'choice' }>['entries'];

/**
 * The entry that fits the rig, through all levels. Undefined where none fits, where several do (both are reported), or where
 * the keys are not of one kind (which the check of names reports).
 */
export function pickEntry<T>(scene: Scene, choice: Choice<T>): Picked<T> | undefined {
  if (choice.kind === 'one') return { value: choice.value, at: choice.at };
  if (scene.rigless) {
    reportDependence(scene, choice.at);
    return undefined;
  }
  noteMet(scene, choice);
  const kind = kindOfChoice(
    scene.vocabulary,
    choice.entries.map(({ key }) => key.value),
  );
  if (!kind) return undefined;
  const fitting = choice.entries.filter(({ key }) => key.value !== 'other' && fits(scene, kind, key));
  const entry = fitting[0] ?? choice.entries.find(({ key }) => key.value === 'other');
  if (!entry) {
    reportUncovered(scene, choice, kind);
    return undefined;
  }
  for (const picked of fitting.length > 0 ? fitting : [entry]) scene.choices.picked.add(picked);
  if (fitting.length > 1) {
    reportAmbiguous(scene, fitting);
    return undefined;
  }
  return pickEntry(scene, entry.value);
}

function noteMet(scene: Scene, choice: Choice<unknown>): void {
  const { met } = scene.choices;
  const { file } = choice.at;
  const ofFile = met.get(file) ?? new Set<object>();
  met.set(file, ofFile.add(choice));
}

function fits(scene: Scene, kind: ChoiceKind, key: Located<string>): boolean {
  switch (kind) {
    case 'machine':
      return machineOf(scene).id === key.value;
    case 'header':
      return headerOf(scene).id === key.value;
    case 'header-type':
      return headerTypeOf(scene) === key.value;
    case 'option':
      return hasOption(scene, key.value);
    case 'software':
      return machineOf(scene).software.some(
        ({ module, versions }) =>
          versions.some(({ value }) => value === key.value) &&
          scene.ask({ about: 'software', module: module.value, versions: [key.value] }) === true,
      );
  }
}

function reportUncovered<T>(scene: Scene, choice: Choice<T> & { kind: 'choice' }, kind: ChoiceKind): void {
  const missing: Readonly<Record<ChoiceKind, () => string>> = {
    machine: () => machineOf(scene).id,
    header: () => headerOf(scene).id,
    'header-type': () => headerTypeOf(scene),
    option: () => choice.entries.map(({ key }) => `~${key.value}`).join(''),
    software: () => machineOf(scene).id,
  };
  const said: Readonly<Record<ChoiceKind, string>> = {
    machine: 'This choice has no entry for {about}',
    header: 'This choice has no entry for {about}',
    'header-type': 'This choice has no entry for headers of type {about}',
    option: `This choice has no entry for a rig without ${joinNames(
      choice.entries.map(({ key }) => key.value),
      'and',
    )}`,
    software: 'This choice has no entry for every software version of {about}',
  };
  scene.report({
    code: 'choice-not-covered',
    message: said[kind],
    about: missing[kind](),
    at: choice.at,
    help: 'Add the missing entry, or an entry `other:` that holds for all the rest.',
    note: 'Each rig that uses a choice needs exactly one entry that fits it.',
  });
}

function reportAmbiguous<T>(scene: Scene, fitting: Entries<T>): void {
  const keys = fitting.map(({ key }) => key);
  const last = keys.at(-1);
  if (!last) return;
  const names = joinNames(
    keys.map(({ value }) => value),
    'and',
  );
  const others = joinNames(
    keys.slice(1).map(({ value }) => value),
    'and',
  );
  scene.report({
    code: 'choice-ambiguous',
    message: `${keys.length === 2 ? 'Two' : 'Several'} entries of this choice fit the same rig: ${names}`,
    at: last.at,
    related: keys.slice(0, -1).map(({ value, at }) => ({ message: `\`${value}\` fits it too`, at })),
    help: `Choose here between \`${keys[0]?.value}\` and \`other\` alone, and put a choice by ${others} inside each of the two.`,
    note: 'Each rig that uses a choice needs exactly one entry that fits it.',
  });
}
