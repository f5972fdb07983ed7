// Texts of the book to words in each of its languages, with the places in them filled for one rig.

import { formatBoth } from '../calc/display.js';
import type { Limits } from '../calc/limits.js';
import type { ResolvedValue } from '../model/resolved.js';
import type { Choice, Template, TemplatePart, Text, Words } from '../model/text.js';
import { pickEntry } from './choice.js';
import { reportMisspelt } from './misspelt-parameter.js';
import { sayLimits } from './number-words.js';
import { parameterLimits, withoutRecorder } from './numbers.js';
import { machineOf, remember, reportDependence, type Scene } from './scene.js';

/** What the places of a text may stand for, besides the machine's and the header's. */
export interface Places {
  /** The value of that id, where the rig has one. */
  readonly value?: (scene: Scene, id: string) => ResolvedValue | undefined;
  readonly hold?: Limits;
  readonly wait?: Limits;
}

/** A text in every language of the book; a language that it lacks has the words of the first. */
export function wordsFor(scene: Scene, text: Text, places: Places = {}): Words {
  const words: Record<string, string> = {};
  for (const language of scene.book.settings.languages) {
    const choice = languageOf(scene, text, language);
    const template = choice && pickEntry(scene, choice)?.value;
    words[language] = template ? fillTemplate(scene, template, { places, language }) : '';
  }
  return words;
}

function languageOf(scene: Scene, text: Text, language: string): Choice<Template> | undefined {
  const [first = ''] = scene.book.settings.languages;
  return text.languages.get(language) ?? text.languages.get(first);
}

interface Filling {
  readonly places: Places;
  readonly language: string;
}

/** One template with its places filled. A place that cannot be filled is reported and stays as it is written. */
export function fillTemplate(scene: Scene, template: Template, filling: Filling): string {
  return template.parts
    .map((part) => (part.kind === 'words' ? part.text : (placeText(scene, part, filling) ?? `{${part.path}}`)))
    .join('');
}

type Place = Extract<TemplatePart, { kind: 'place' }>;

function placeText(scene: Scene, place: Place, filling: Filling): string | undefined {
  const { places, language } = filling;
  const { path } = place;
  if (path === 'hold' || path === 'wait') return limitsText(scene, places[path], language);
  if (path.startsWith('machine.')) return machineText(scene, place, filling);
  if (path.startsWith('header.')) return parameterText(scene, place, language);
  return valueText(scene, place, filling);
}

function limitsText(scene: Scene, limits: Limits | undefined, language: string): string | undefined {
  return limits && sayLimits(formatBoth(limits, scene.book.settings.units), language);
}

function parameterText(scene: Scene, place: Place, language: string): string | undefined {
  return limitsText(scene, parameterLimits(withoutRecorder(scene), place.path, { at: place.at }), language);
}

function machineText(scene: Scene, place: Place, { language }: Filling): string | undefined {
  const id = place.path.slice('machine.'.length);
  if (scene.rigless) {
    reportDependence(scene, place.at);
    return undefined;
  }
  const machine = machineOf(scene);
  const word = machine.words.get(id);
  if (!word) {
    if (machine.parameters.has(id)) return parameterText(scene, place, language);
    if (!scene.book.unread.has(machine.file)) reportMissingWord(scene, place, { id, machine: machine.id });
    return undefined;
  }
  return remember(withoutRecorder(scene), `word ${machine.id} ${id} ${language}`, (inner) => {
    const text = pickEntry(inner, word.text)?.value;
    const choice = text && languageOf(inner, text, language);
    const template = choice && pickEntry(inner, choice)?.value;
    return template && fillTemplate(inner, template, { places: {}, language });
  });
}

function reportMissingWord(scene: Scene, place: Place, { id, machine }: { id: string; machine: string }): void {
  const { words, machineParameters } = scene.vocabulary;
  // what no machine has is a wrong name, which the check of names reports
  if (!words.has(id) && !machineParameters.has(id)) return;
  const holder = machineOf(scene);
  if (machineParameters.has(id) && reportMisspelt(scene, { owner: 'machine', holder, id, at: place.at })) return;
  scene.report({
    code: 'missing-word',
    message: `{about} has no word or parameter \`${id}\``,
    about: machine,
    at: place.at,
    help: `Add \`${id}\` to \`words\` in the file of the machine.`,
    note: 'Without it the page would show a gap where the name of a key or a page of the display belongs.',
  });
}

function valueText(scene: Scene, place: Place, { places, language }: Filling): string | undefined {
  const [name = '', part] = place.path.split('.');
  const value = places.value?.(scene, name) ?? places.value?.(scene, name.replaceAll('-', '_'));
  if (!value || (part !== undefined && part !== 'tolerance')) return undefined;
  const limits = part === 'tolerance' ? value.tolerance : (value.acceptance ?? value.nominal);
  if (!limits) {
    const hasLimits = value.source.limits ?? (part === undefined ? value.source.nominal : undefined);
    if (hasLimits) return undefined;
    scene.report({
      code: 'placeholder-without-value',
      message: `\`{${place.path}}\` has nothing to show: the value \`${value.id}\` has no limits`,
      at: place.at,
      help: `Give \`${value.id}\` limits, or take the placeholder out.`,
    });
    return undefined;
  }
  const { acceptance, other } = value.shown;
  const read = part === undefined && value.instrument && acceptance !== undefined;
  if (!read) return limitsText(scene, limits, language);
  return sayLimits(other === undefined ? acceptance : `${acceptance} (${other})`, language);
}
