// Ways through the model: every text of a procedure, every leaf of a choice.

import { remembering } from '../text/remember.js';
import type { CheckValue, Procedure, Step } from './procedure.js';
import type { Choice, Template, Text } from './text.js';

/** The entries at the ends of a choice, in the order written. */
export function* leavesOf<T>(choice: Choice<T>): Iterable<T> {
  if (choice.kind === 'one') yield choice.value;
  else for (const { value } of choice.entries) yield* leavesOf(value);
}

/** The templates of a text, in one language or in all. */
export function* templatesOf(text: Text | undefined, language?: string): Iterable<Template> {
  for (const [key, choice] of text?.languages ?? []) {
    if (language === undefined || key === language) yield* leavesOf(choice);
  }
}

/** A text of a procedure, and what it is there for. */
export interface TextUse {
  readonly text: Text;
  readonly role:
    | 'title'
    | 'summary'
    | 'step'
    | 'question'
    | 'expectation'
    | 'condition'
    | 'label'
    | 'note'
    | 'card'
    | 'reason';
  readonly step?: Step;
  readonly value?: CheckValue;
}

/** Every text in the front matter of a procedure. Prose is apart: see `Procedure.prose`. */
export function textsOf(procedure: Procedure): readonly TextUse[] {
  return rememberTexts(procedure, [], () => [...eachText(procedure)]);
}

// rules ask for the texts and places of a procedure again and again
const rememberTexts = remembering<readonly TextUse[]>();
const rememberPlaces = remembering<ReadonlySet<string>>();

function* eachText(procedure: Procedure): Iterable<TextUse> {
  yield { text: procedure.title, role: 'title' };
  yield { text: procedure.summary, role: 'summary' };
  for (const text of procedure.supplies) yield { text, role: 'label' };
  for (const requirement of procedure.requires) {
    if (requirement.shownBy) yield { text: requirement.shownBy, role: 'condition' };
    if (requirement.ifMissed) yield { text: requirement.ifMissed, role: 'condition' };
  }
  for (const value of procedure.values) {
    yield { text: value.label, role: 'label', value };
    if (value.origin) yield { text: value.origin, role: 'note', value };
  }
  for (const adjuster of procedure.adjusters) {
    yield { text: adjuster.label, role: 'label' };
    if (adjuster.positive) yield { text: adjuster.positive, role: 'note' };
  }
  for (const worksheet of procedure.worksheets) {
    if (worksheet.label) yield { text: worksheet.label, role: 'label' };
    const choices = worksheet.columns.flatMap((column) => column.choices ?? []);
    for (const { label } of [...worksheet.columns, ...choices, ...worksheet.results])
      yield { text: label, role: 'label' };
  }
  for (const step of procedure.steps) yield* textsOfStep(step);
}

function* textsOfStep(step: Step): Iterable<TextUse> {
  const parts: readonly (readonly [Text | undefined, TextUse['role']])[] = [
    [step.do, 'step'],
    [step.ask, 'question'],
    [step.card, 'card'],
    [step.note, 'note'],
    [step.expect, 'expectation'],
    [step.figure?.alt, 'note'],
    [step.otherwise?.because, 'reason'],
    [step.energized?.why, 'reason'],
    [step.energized?.keepAway, 'note'],
    [step.energized?.secondPerson, 'note'],
    ...step.answers.map(({ label }) => [label, 'label'] as const),
    ...[...step.when.values()].map(({ because }) => [because, 'reason'] as const),
  ];
  for (const [text, role] of parts) if (text) yield { text, role, step };
}

/** What stands between braces anywhere in a procedure, prose included: `raised`, `machine.learn_key`. */
export function placesOf(procedure: Procedure): ReadonlySet<string> {
  return rememberPlaces(procedure, [], () => placesIn(procedure));
}

function placesIn(procedure: Procedure): ReadonlySet<string> {
  const templates = [
    ...textsOf(procedure).flatMap(({ text }) => [...templatesOf(text)]),
    ...[...procedure.prose.values()].flatMap((sections) => sections.map(({ body }) => body)),
  ];
  return new Set(templates.flatMap(({ parts }) => parts.flatMap((part) => (part.kind === 'place' ? [part.path] : []))));
}
