// terms.yaml and fleet.yaml into the model.

import type { FleetUnit, Term, TermWord } from '../../model/book.js';
import type { Located } from '../../text/source.js';
import { checkTwice } from './names.js';
import { childOf, entriesOf, idBehind, idsBehind, itemsOf, located, type Part, partOf } from './part.js';
import { filled, type Reading } from './reading.js';
import { mainLanguage, reportUnknownLanguage } from './texts.js';

/** The terms of terms.yaml. */
export function termsOf(reading: Reading, part: Part): readonly Term[] {
  return itemsOf(childOf(reading, part, 'terms')).flatMap((node) => termOf(reading, partOf(node)) ?? []);
}

function termOf(reading: Reading, part: Part): Term | undefined {
  const main = idBehind(reading, part, 'use');
  if (!main) return undefined;
  const use = new Map<string, Located<string>>([[mainLanguage(reading), main]]);
  for (const language of reading.languages.slice(1)) {
    const word = idBehind(reading, part, language);
    if (word) use.set(language, word);
  }
  reportOtherLanguages(reading, part);
  const [also, never] = [termWords(reading, part, 'also'), termWords(reading, part, 'never')];
  return { use, also, never, at: part.node.at };
}

/** Words behind a key: those of the first language, or a map from languages to them. */
function termWords(reading: Reading, part: Part, key: string): readonly TermWord[] {
  const child = childOf(reading, part, key);
  if (child?.node.kind !== 'map') {
    return idsBehind(reading, part, key).map((word) => ({ ...word, language: mainLanguage(reading) }));
  }
  for (const entry of child.node.entries) reportUnknownLanguage(reading, entry.key);
  return reading.languages.flatMap((language) =>
    idsBehind(reading, child, language).map((word) => ({ ...word, language })),
  );
}

const termKeys = ['use', 'also', 'never', 'waive'];

function reportOtherLanguages(reading: Reading, part: Part): void {
  for (const { key } of part.node.kind === 'map' ? part.node.entries : []) {
    const isLanguage = /^[a-z]{2,3}(?:-|$)/.test(key.text.value) && !termKeys.includes(key.text.value);
    if (isLanguage) reportUnknownLanguage(reading, key);
  }
}

/** The units of fleet.yaml. */
export function fleetOf(reading: Reading, part: Part): readonly FleetUnit[] {
  const units = itemsOf(childOf(reading, part, 'units')).flatMap((node) => unitOf(reading, partOf(node)) ?? []);
  checkTwice(
    reading,
    units.map(({ id }) => id),
    'units',
  );
  return units;
}

function unitOf(reading: Reading, part: Part): FleetUnit | undefined {
  const id = idBehind(reading, part, 'id');
  const machine = idBehind(reading, part, 'machine');
  const rest = {
    customer: idBehind(reading, part, 'customer'),
    serial: idBehind(reading, part, 'serial'),
    software: softwareOf(reading, childOf(reading, part, 'software')),
    options: idsBehind(reading, part, 'options'),
    optionsSaid: childOf(reading, part, 'options') !== undefined,
    headers: itemsOf(childOf(reading, part, 'headers')).flatMap((node) => {
      const header = located(node) ?? idBehind(reading, partOf(node), 'header');
      return header ? [filled({ header, serial: idBehind(reading, partOf(node), 'serial') })] : [];
    }),
    at: part.node.at,
  };
  return id && machine && filled({ id, machine, ...rest });
}

function softwareOf(reading: Reading, part: Part | undefined): FleetUnit['software'] {
  const version = located(part?.node);
  if (version) return [{ version }];
  return entriesOf(reading, part).flatMap((entry) => {
    const module = located(entry.key);
    const own = located(entry.node);
    return module && own ? [{ module, version: own }] : [];
  });
}
