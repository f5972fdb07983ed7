// The translations of a procedure: what they lack, what they have too much, and whether they follow its revision.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Located, SourceFile } from '../../text/source.js';
import { entryOf, type YamlNode, type YamlScalar } from '../tree.js';
import { isUsed, type Reading, report } from './reading.js';

/** A translation file of a procedure. */
export interface Translation {
  readonly language: string;
  readonly file: SourceFile;
  readonly node: YamlNode;
  /** Missing where it is not said, which the schema has reported. */
  readonly translates?: Located<number>;
}

// these stand in a translation for itself
const ownKeys = new Set(['translates', 'waive']);

/** Reports every key of a translation that the original lacks, the outermost of several; `known` faults are left out. */
export function reportExtras(reading: Reading, translation: Translation, known: readonly Diagnostic[]): void {
  const isKnown = (key: YamlScalar): boolean =>
    known.some(({ at }) => at.start <= key.at.start && key.at.end <= at.end);
  for (const key of extrasIn(reading, translation.node)) {
    if (isKnown(key)) continue;
    report(reading, {
      code: 'extra-translation',
      message: `\`${key.text.value}\` has no original in \`${reading.file.path}\``,
      at: key.at,
      help: 'Mend the key, or take it out. What is translated stands under the same key, step id or state.',
    });
  }
}

function* extrasIn(reading: Reading, node: YamlNode): Iterable<YamlScalar> {
  for (const { key, value } of node.kind === 'map' ? node.entries : []) {
    if (ownKeys.has(key.text.value)) continue;
    if (isUsed(reading, key)) yield* extrasIn(reading, value);
    else yield key;
  }
}

/** Reports a translation of another revision than the one that stands. */
export function reportBehind(reading: Reading, translation: Translation, revision: Located<number>): void {
  const { translates, file } = translation;
  if (!translates || translates.value === revision.value) return;
  const isBehind = translates.value < revision.value;
  reading.diagnostics.push(
    diagnose({
      code: 'translation-behind',
      severity: 'warning',
      message: `This translates revision ${translates.value}, and the original has revision ${revision.value}`,
      at: translates.at,
      related: [{ message: 'The revision of the original', at: revision.at }],
      help: isBehind
        ? `Bring \`${file.path}\` up to the original, then write \`translates: ${revision.value}\`.`
        : `Mend one of the two numbers: a translation cannot be ahead of its original.`,
      note: 'Two languages that say different things about one machine are both in doubt.',
    }),
  );
}

/** Reports steps of a translation that stand in another order than those of the original. */
export function reportOrder(reading: Reading, translation: Translation, original: YamlNode): void {
  const steps = entryOf(original, 'steps')?.value;
  const ids = (steps?.kind === 'list' ? steps.items : []).flatMap((item) => {
    const id = entryOf(item, 'id')?.value;
    return id?.kind === 'scalar' ? [id] : [];
  });
  const places = new Map(ids.map((id, index) => [id.text.value, index]));
  const translated = entryOf(translation.node, 'steps')?.value;
  let last: { readonly key: YamlScalar; readonly place: number } | undefined;
  for (const { key } of translated?.kind === 'map' ? translated.entries : []) {
    const place = places.get(key.text.value);
    if (place === undefined) continue;
    if (last && place < last.place) {
      reading.diagnostics.push(otherOrder(key, last.key, ids[place]));
      return;
    }
    last = { key, place };
  }
}

function otherOrder(key: YamlScalar, before: YamlScalar, original: YamlScalar | undefined): Diagnostic {
  return diagnose({
    code: 'translation-order-differs',
    severity: 'warning',
    message: `\`${key.text.value}\` comes after \`${before.text.value}\` here, and before it in the original`,
    at: key.at,
    related: original ? [{ message: 'Where it stands in the original', at: original.at }] : [],
    help: 'Put the steps into one order: mend the one of the two that is wrong.',
    note: 'The page follows the original. Whoever translated the steps saw them in this order.',
  });
}
