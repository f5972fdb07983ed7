// Fixes of diagnostics made in the texts. Only safe ones: they change no digit, no unit and no word, and have one reading.

import type { SourceFile } from '../text/source.js';
import { compareText, type Diagnostic, type Edit, type Fix } from './diagnostic.js';

/** A fix that was made, and the diagnostic that it mends. */
export interface Applied {
  readonly diagnostic: Diagnostic;
  readonly fix: Fix;
}

export interface FixedSources {
  readonly sources: ReadonlyMap<string, SourceFile>;
  readonly applied: readonly Applied[];
}

/**
 * Makes the first safe fix of each diagnostic. A fix is made whole or not at all: one that touches what another has changed
 * already waits for the next round, when its place is known anew. What no edit covers stays letter by letter.
 */
export function applySafeFixes(
  sources: ReadonlyMap<string, SourceFile>,
  diagnostics: readonly Diagnostic[],
): FixedSources {
  const applied: Applied[] = [];
  const taken = new Map<string, Edit[]>();
  for (const diagnostic of diagnostics) {
    const fix = diagnostic.fixes?.find(({ safe, edits }) => safe && edits.length > 0);
    if (!fix || !fits(fix.edits, sources, taken)) continue;
    for (const edit of fix.edits) taken.set(edit.at.file, [...(taken.get(edit.at.file) ?? []), edit]);
    applied.push({ diagnostic, fix });
  }
  const changed = [...taken].flatMap(([path, edits]): readonly (readonly [string, SourceFile])[] => {
    const file = sources.get(path);
    return file ? [[path, { ...file, text: edited(file.text, edits) }]] : [];
  });
  return { sources: new Map([...sources, ...changed].sort(([a], [b]) => compareText(a, b))), applied };
}

function fits(
  edits: readonly Edit[],
  sources: ReadonlyMap<string, SourceFile>,
  taken: ReadonlyMap<string, readonly Edit[]>,
): boolean {
  const isFree = ({ at }: Edit, others: readonly Edit[]): boolean =>
    others.every((other) => at.end < other.at.start || at.start > other.at.end);
  return edits.every((edit, i) => {
    const { file, start, end } = edit.at;
    const length = sources.get(file)?.text.length ?? -1;
    const before = edits.slice(0, i).filter(({ at }) => at.file === file);
    return start <= end && end <= length && isFree(edit, before) && isFree(edit, taken.get(file) ?? []);
  });
}

function edited(text: string, edits: readonly Edit[]): string {
  const sorted = [...edits].sort((a, b) => b.at.start - a.at.start);
  return sorted.reduce((now, { at, text: written }) => now.slice(0, at.start) + written + now.slice(at.end), text);
}
