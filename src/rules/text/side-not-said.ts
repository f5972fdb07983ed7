// A step reads or turns something of one side, and does not say which side.

import type { Procedure, Step } from '../../model/procedure.js';
import type { Template } from '../../model/text.js';
import { templatesOf } from '../../model/walk.js';
import { type Span, spanWithin } from '../../text/source.js';
import { numberLanguage } from '../prose/languages/languages.js';
import { rule } from '../rule.js';
import { languageOf } from './languages/languages.js';
import { miscalledSides, sidesOf } from './sides.js';

interface Facts {
  readonly step: string;
  readonly id: string;
  readonly other: string;
  readonly side: string;
  readonly isRepeated: boolean;
}

export default rule({
  id: 'side-not-said',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    // what `for-each` calls wrongly is told where it does
    if (miscalledSides(procedure).length > 0) return;
    const told = new Set<string>();
    const sides = new Set(sidesOf(procedure));
    const ids = new Set([...procedure.values, ...procedure.adjusters].map(({ id }) => id));
    for (const step of procedure.steps) {
      const sided = sidedIn(step, { sides, ids });
      if (!sided) continue;
      for (const code of book.settings.languages) {
        for (const template of [...templatesOf(step.do, code), ...templatesOf(step.ask, code)]) {
          const key = `${template.source.at.file}:${template.source.at.start}`;
          const saying = { step, side: sided.side, code, procedure };
          if (told.has(key) || says(template, saying)) continue;
          told.add(key);
          yield {
            at: placeIn(template, { ...saying, id: sided.id }),
            data: { step: step.id.value, ...sided, isRepeated: step.repeated !== undefined } satisfies Facts,
          };
        }
      }
    }
  },
  say: ({ step, id, other, side, isRepeated }: Facts) => ({
    message: `Step \`${step}\` is for \`${id}\` alone, there is \`${other}\` as well, and its words do not say \`${side}\``,
    help: isRepeated
      ? 'Write `{side}` where the thing is named: each copy of the step then says its own side.'
      : `Say the side where the thing is named, as in \`the ${side} one\`.`,
    note: 'Read by itself, the step is done on the side where one stands: one side is then read twice and the other never.',
  }),
});

interface Known {
  readonly sides: ReadonlySet<string>;
  readonly ids: ReadonlySet<string>;
}

/** What of one side alone a step reads or turns, and what there is for the other side. */
function sidedIn({ measure, adjust }: Step, known: Known): Pick<Facts, 'id' | 'other' | 'side'> | undefined {
  const found = [...measure, ...adjust].flatMap(({ value: id }) => {
    const side = sideOf(id, known);
    return side ? [{ id, ...side }] : [];
  });
  const [first] = found;
  return first && found.every(({ side }) => side === first.side) ? first : undefined;
}

function sideOf(id: string, { sides, ids }: Known): { readonly side: string; readonly other: string } | undefined {
  const parts = id.split(/([_-])/);
  for (const [at, side] of parts.entries()) {
    if (!sides.has(side)) continue;
    const others = [...sides].filter((one) => one !== side).map((one) => parts.toSpliced(at, 1, one).join(''));
    const other = others.find((one) => ids.has(one));
    if (other !== undefined) return { side, other };
  }
  return undefined;
}

interface Saying {
  readonly step: Step;
  readonly side: string;
  readonly code: string;
  readonly procedure: Procedure;
}

/** Whether words name a side: they differ from those of the other copy of the step, or have the word itself. */
function says({ source }: Template, { step, side, code, procedure }: Saying): boolean {
  if (isSide(source.value, side, code)) return true;
  // what a side is called in a language stands filled in, and is another word in each copy
  return copiesOf(step, procedure).some((other) =>
    [...templatesOf(other.do, code), ...templatesOf(other.ask, code)].some(
      (one) => one.source.at.start === source.at.start && one.source.value !== source.value,
    ),
  );
}

function isSide(text: string, side: string, code: string): boolean {
  const language = languageOf(code);
  const word = side === 'left' ? language?.left : side === 'right' ? language?.right : undefined;
  return word?.test(text) === true || text.toLowerCase().includes(side.toLowerCase());
}

function copiesOf(step: Step, { steps }: Procedure): readonly Step[] {
  if (!step.repeated) return [];
  const { file, start } = step.at;
  return steps.filter((one) => one !== step && one.at.file === file && one.at.start === start);
}

/** The word that lacks its side: what the label says it of, where the text names it; else the whole text. */
function placeIn({ source }: Template, { id, side, code, procedure }: Saying & { readonly id: string }): Span {
  const labelled = [...procedure.values, ...procedure.adjusters].find((one) => one.id === id);
  const label = [...templatesOf(labelled?.label, code)][0]?.source.value ?? '';
  const words: readonly string[] = label.match(/\p{L}+/gu) ?? [];
  const at = words.findIndex((word) => isSide(word, side, code));
  const { filling } = numberLanguage(code);
  const nearest = words
    .filter((word, i) => i !== at && !filling.has(word.toLowerCase()))
    .sort((a, b) => Math.abs(words.indexOf(a) - at - 0.1) - Math.abs(words.indexOf(b) - at - 0.1));
  for (const word of nearest) {
    const found = new RegExp(`(?<!\\p{L})${word}(?!\\p{L})`, 'iu').exec(source.value);
    if (found) return spanWithin(source, found.index, found.index + found[0].length);
  }
  return source.at;
}
