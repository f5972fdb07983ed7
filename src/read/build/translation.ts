// The translations of a procedure: what they lack, what they have too much, and whether they follow its revision.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import type { Located, SourceFile } from '../../text/source.js';
import type { YamlNode, YamlScalar } from '../tree.js';
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
