// Files of machines and headers into the model.

import type { Header, Machine, MachineOption } from '../../model/book.js';
import type { Figure } from '../../model/procedure.js';
import type { Choice, Text } from '../../model/text.js';
import type { Located } from '../../text/source.js';
import { entryWith } from '../schema-places.js';
import { serialEnds } from './applies.js';
import { checkKebab, checkName } from './names.js';
import { agreementsBehind, parametersBehind } from './numbers.js';
import { childOf, entriesOf, idBehind, idsBehind, idsOf, itemsOf, located, type Part, wordBehind } from './part.js';
import { filled, type Reading } from './reading.js';
import { figureBehind } from './steps.js';
import { isLanguageMap, textBehind, textOf } from './texts.js';
import type { Entry } from './values.js';

/** A machine; missing without a name, which the schema has reported. */
export function machineOf(reading: Reading, id: string, part: Part): Machine | undefined {
  const name = textBehind(reading, part, 'name', 'may-stay');
  const serials = childOf(reading, part, 'serials')?.node;
  const ends = serials?.kind === 'scalar' ? serialEnds(serials.text) : undefined;
  const rest = {
    id,
    file: reading.file.path,
    tell: tellBehind(reading, part),
    headers: idsBehind(reading, part, 'headers'),
    options: entriesOf(reading, childOf(reading, part, 'options')).map((entry) => optionOf(reading, entry)),
    serials: serials && ends?.from ? filled({ from: ends.from.value, to: ends.to?.value, at: serials.at }) : undefined,
    software: entriesOf(reading, childOf(reading, part, 'software')).flatMap((entry) => {
      const module = located(entry.key);
      const versions = entry.node.kind === 'map' ? idsBehind(reading, entry, 'versions') : idsOf(itemsOf(entry));
      return module ? [filled({ module, versions, tell: tellBehind(reading, entry) })] : [];
    }),
    words: wordsOf(reading, childOf(reading, part, 'words')),
    parameters: parametersBehind(reading, part),
    agree: agreementsBehind(reading, part),
    at: part.node.at,
  };
  return name && filled({ name, ...rest });
}

/** A header; missing without a name or type, which the schema has reported. */
export function headerOf(reading: Reading, id: string, part: Part): Header | undefined {
  const name = textBehind(reading, part, 'name');
  const type = idBehind(reading, part, 'type');
  const rest = {
    id,
    file: reading.file.path,
    tell: tellBehind(reading, part),
    parameters: parametersBehind(reading, part),
    agree: agreementsBehind(reading, part),
    at: part.node.at,
  };
  return name && type && filled({ name, type, ...rest });
}

function optionOf(reading: Reading, entry: Entry): MachineOption {
  const id: Located<string> = { value: entry.key.text.value, at: entry.key.at };
  checkKebab(reading, id, 'an option');
  const kinds = ['standard', 'optional'] as const;
  const alone = located(entry.node)?.value;
  const is = kinds.find((kind) => kind === alone) ?? wordBehind(reading, { part: entry, key: 'is' }, kinds)?.value;
  return filled({
    id: id.value,
    is: is ?? 'optional',
    label: textBehind(reading, entry, 'label'),
    tell: tellBehind(reading, entry),
    at: entry.node.at,
  });
}

/** How to tell: a text, or a text with a picture, which is then described by that text. */
function tellBehind(reading: Reading, part: Part): Machine['tell'] {
  const tell = childOf(reading, part, 'tell');
  if (!tell) return undefined;
  const { node } = tell;
  const isMap = node.kind === 'map' && (entryWith(node, 'text') ?? entryWith(node, 'figure')) !== undefined;
  const text = isMap ? textBehind(reading, tell, 'text') : textOf(reading, tell);
  return text && filled({ text, figure: isMap ? tellFigure(reading, tell, text) : undefined });
}

function tellFigure(reading: Reading, tell: Part, alt: Text): Figure | undefined {
  const file = idBehind(reading, tell, 'figure');
  return file ? { file, alt, at: file.at } : figureBehind(reading, tell, 'figure');
}

function wordsOf(reading: Reading, part: Part | undefined): Machine['words'] {
  return new Map(
    entriesOf(reading, part).flatMap((entry) => {
      checkName(reading, entry.key);
      const text = wordChoice(reading, entry);
      return text ? [[entry.key.text.value, { text, at: entry.node.at }] as const] : [];
    }),
  );
}

/** A map by language is one text; any other map is a choice by rig. */
function wordChoice(reading: Reading, part: Part): Choice<Text> | undefined {
  const { node } = part;
  if (node.kind !== 'map' || isLanguageMap(reading, node)) {
    const text = textOf(reading, part, 'may-stay');
    return text && { kind: 'one', value: text, at: node.at };
  }
  const entries = entriesOf(reading, part).flatMap((entry) => {
    const key = located(entry.key);
    const value = wordChoice(reading, entry);
    return key && value ? [{ key, value }] : [];
  });
  return entries.length > 0 ? { kind: 'choice', entries, at: node.at } : undefined;
}
