// The prose of a procedure in each language, its step headings found; the detail of a repeated step stands with each copy.

import type { ProseSection } from '../../model/procedure.js';
import type { Template } from '../../model/text.js';
import type { SourceFile } from '../../text/source.js';
import type { Range } from '../front-matter.js';
import { readProse } from '../markdown.js';
import { entryWith } from '../schema-places.js';
import type { Repeated } from './for-each.js';
import { located } from './part.js';
import type { Reading } from './reading.js';
import type { StepPart } from './repeat.js';

/** Where the prose of one language stands. */
export interface ProsePart {
  readonly file: SourceFile;
  readonly body: Range;
}

/** By language, the sections of the prose. */
export function proseOf(
  reading: Reading,
  prose: ReadonlyMap<string, ProsePart>,
  steps: readonly StepPart[],
): ReadonlyMap<string, readonly ProseSection[]> {
  const ids = new Set(steps.flatMap((step) => [step.written, idOf(step)]));
  ids.delete('');
  return new Map(
    [...prose].map(([language, { file, body }]) => {
      const { value, diagnostics } = readProse(file, body, ids);
      reading.diagnostics.push(...diagnostics);
      return [language, value.flatMap((section) => copiesOf(section, steps, language))] as const;
    }),
  );
}

function idOf({ part }: StepPart): string {
  return (part.node.kind === 'map' && located(entryWith(part.node, 'id')?.value)?.value) || '';
}

function copiesOf(section: ProseSection, steps: readonly StepPart[], language: string): readonly ProseSection[] {
  const copies = steps.filter((step) => step.repeated && step.written === section.step && idOf(step) !== section.step);
  if (copies.length === 0) return [section];
  return copies.flatMap((step) =>
    step.repeated ? [{ ...section, step: idOf(step), body: fillTemplate(section.body, step.repeated, language) }] : [],
  );
}

function fillTemplate(template: Template, repeated: Repeated, language: string): Template {
  const parts = template.parts.map((part) => {
    if (part.kind === 'words') return part;
    if (part.path === repeated.variable) {
      return { kind: 'words' as const, text: repeated.words.get(language)?.get(repeated.value) ?? repeated.value };
    }
    const [name = '', ...rest] = part.path.split('.');
    const renamed = repeated.renamed.get(name);
    return renamed === undefined ? part : { ...part, path: [renamed, ...rest].join('.') };
  });
  return { ...template, parts };
}
