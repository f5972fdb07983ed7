// Placeholders in texts, and the keys of texts that differ by rig.

import { askWhetherMeant } from '../../diagnostic/nearest.js';
import type { Template, TemplatePart, Text } from '../../model/text.js';
import { type Checker, checkChoice } from './checker.js';
import { meantNames } from './expressions.js';

/** What the placeholders of a text may name, besides `machine.` and `header.`. */
export interface TextPlaces {
  readonly values?: ReadonlySet<string>;
  readonly hold?: boolean;
  readonly wait?: boolean;
}

/** Checks a text in all its languages. */
export function checkText(checker: Checker, text: Text | undefined, places: TextPlaces = {}): void {
  for (const choice of text?.languages.values() ?? []) {
    for (const template of checkChoice(checker, choice)) checkTemplate(checker, template, places);
  }
}

/** Checks a text that is the same on every page: no choice, and no placeholder. */
export function checkSameText(checker: Checker, text: Text | undefined): void {
  for (const choice of text?.languages.values() ?? []) {
    const places = choice.kind === 'choice' ? [choice.at] : choice.value.parts.flatMap(placeIn);
    for (const at of places) {
      checker.report({
        code: 'depends-on-rig',
        message: 'This holds for all rigs alike, so it can be no choice and have nothing of a rig in it',
        at,
        help: 'Write what holds for every machine here, and put what differs into the procedures.',
      });
    }
  }
}

function placeIn(part: TemplatePart): readonly Place['at'][] {
  return part.kind === 'place' ? [part.at] : [];
}

/** Checks the placeholders of one template. */
export function checkTemplate(checker: Checker, template: Template, places: TextPlaces): void {
  for (const part of template.parts) if (part.kind === 'place') checkPlace(checker, part, places);
}

type Place = Extract<TemplatePart, { kind: 'place' }>;

function checkPlace(checker: Checker, { path, at }: Place, places: TextPlaces): void {
  const { book } = checker;
  const known = new Set(placeNames(checker, places));
  if (known.has(path) || known.has(path.replaceAll('-', '_'))) return;
  const isOfFile = /^(machine|header)\./.test(path);
  if (isOfFile && [...book.unread].some((file) => /^(machines|headers)\//.test(file))) return;
  const isTime = path === 'hold' || path === 'wait';
  // the time may be what could not be read
  if (isTime && book.unread.has(at.file)) return;
  const near = isTime ? [] : meantNames(path, [...known]);
  const [only, ...others] = near;
  const inBraces = at.end - at.start > path.length;
  checker.report({
    code: 'unknown-placeholder',
    message: isTime
      ? `\`{${path}}\` stands here and this step has no \`${path}\``
      : `Nothing is called \`{${path}}\` here`,
    at,
    help: isTime
      ? `Give the step a \`${path}:\` with its time, or take the placeholder out.`
      : (askWhetherMeant(near.map((name) => `{${name}}`)) ??
        'Write a value of this procedure, or `machine.` or `header.` and a word or parameter; a brace that is meant as such is doubled: `{{`.'),
    ...(only !== undefined && others.length === 0
      ? { fixes: [{ title: `Write \`{${only}}\``, safe: false, edits: [{ at, text: inBraces ? `{${only}}` : only }] }] }
      : {}),
  });
}

function* placeNames({ vocabulary }: Checker, places: TextPlaces): Iterable<string> {
  for (const id of places.values ?? []) {
    yield id;
    yield `${id}.tolerance`;
  }
  if (places.hold) yield 'hold';
  if (places.wait) yield 'wait';
  for (const id of [...vocabulary.words, ...vocabulary.machineParameters]) yield `machine.${id}`;
  for (const id of vocabulary.headerParameters) yield `header.${id}`;
}
