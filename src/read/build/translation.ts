// The translations of a procedure: what they lack, what they have too much, and whether they follow its revision.

import { type Diagnostic, diagnose } from '../../diagnostic/diagnostic.js';
import { askWhetherMeant, nearestNames } from '../../diagnostic/nearest.js';
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

/**
 * Reports every key of a translation that the original lacks, the outermost of several; `known` faults are left out. What
 * somebody translated was there once: it is asked first whether the original has lost it.
 */
export function reportExtras(
  reading: Reading,
  translation: Translation,
  { known, original }: { readonly known: readonly Diagnostic[]; readonly original: YamlNode },
): void {
  const isKnown = (key: YamlScalar): boolean =>
    known.some(({ at }) => at.start <= key.at.start && key.at.end <= at.end);
  const steps = stepIdsOf(original);
  for (const { key, siblings, inside } of extrasIn(reading, translation.node, '')) {
    if (isKnown(key)) continue;
    report(reading, {
      code: 'extra-translation',
      message: `\`${key.text.value}\` has no original in \`${reading.file.path}\``,
      at: key.at,
      help: inside === 'steps' ? helpForStep(key, siblings, steps) : helpForText(key),
    });
  }
}

interface Extra {
  readonly key: YamlScalar;
  /** The keys that it stands among. */
  readonly siblings: readonly YamlScalar[];
  /** The key that it stands under; empty at the top. */
  readonly inside: string;
}

function* extrasIn(reading: Reading, node: YamlNode, inside: string): Iterable<Extra> {
  const entries = node.kind === 'map' ? node.entries : [];
  const siblings = entries.map(({ key }) => key);
  for (const { key, value } of entries) {
    if (ownKeys.has(key.text.value)) continue;
    if (isUsed(reading, key)) yield* extrasIn(reading, value, key.text.value);
    else yield { key, siblings, inside };
  }
}

/** The step that is meant, if it has no translation yet; else where the one that is lost stood. */
function helpForStep(key: YamlScalar, siblings: readonly YamlScalar[], steps: readonly YamlScalar[]): string {
  const id = key.text.value;
  const translated = new Set(siblings.map((one) => one.text.value));
  const ids = steps.map((step) => step.text.value);
  const free = ids.filter((one) => !translated.has(one));
  const meant = askWhetherMeant(nearestNames(id, free));
  const before = siblings.slice(0, siblings.indexOf(key)).findLast((one) => ids.includes(one.text.value));
  if (meant !== undefined) return `${meant} A step is translated under its id.`;
  const where = before ? ` behind \`${before.text.value}\`` : '';
  return `If the original has lost the step \`${id}\`, put it back there${where}. If its id was changed, write the new one here. Take the translation out only if the step is meant to be gone.`;
}

function helpForText({ text: { value: key } }: YamlScalar): string {
  return `If the original has lost \`${key}\`, put it back there. If the key is spelt wrong, mend it: what is translated stands under the same key, step id or state. Take the translation out only if that text is meant to be gone.`;
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
  const ids = stepIdsOf(original);
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

/** The ids of the steps as they are written. */
function stepIdsOf(original: YamlNode): readonly YamlScalar[] {
  const steps = entryOf(original, 'steps')?.value;
  return (steps?.kind === 'list' ? steps.items : []).flatMap((item) => {
    const id = entryOf(item, 'id')?.value;
    return id?.kind === 'scalar' ? [id] : [];
  });
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
