// A step, a value or an adjuster of one side, whose words name the other one alone.

import type { Procedure, Step } from '../../model/procedure.js';
import type { Text } from '../../model/text.js';
import { templatesOf } from '../../model/walk.js';
import { spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';
import { miscalledSides, otherSideIn, sideIn, sidesOf } from './sides.js';

interface Facts {
  readonly id: string;
  readonly side: string;
  readonly other: string;
  readonly how: 'lone' | 'repeated' | 'for-each';
}

const helps: Readonly<Record<Facts['how'], string>> = {
  lone: 'Mend the word, or the id: people go by the words, branches and records by the id.',
  repeated: 'Write `{side}` there: each copy then says its own side.',
  'for-each': 'Mend what it is called: whatever is repeated for it names the wrong side.',
};

export default rule({
  id: 'other-side-said',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure, { book }) {
    const miscalled = miscalledSides(procedure);
    for (const { side, other, at } of miscalled) {
      const data: Facts = { id: side, side, other, how: 'for-each' };
      yield { at, data };
    }
    if (miscalled.length > 0) return;
    const told = new Set<string>();
    for (const one of [...sidedSteps(procedure), ...sidedLabels(procedure)]) {
      for (const finding of findIn(one, book.settings.languages)) {
        const key = `${finding.at.file}:${finding.at.start}`;
        if (!told.has(key)) yield finding;
        told.add(key);
      }
    }
  },
  say: ({ id, side, other, how }: Facts) => ({
    message:
      how === 'for-each'
        ? `\`for-each\` calls \`${side}\` what \`${other}\` is called`
        : `\`${id}\` is for \`${side}\`, and its words say \`${other}\``,
    help: helps[how],
    note: 'Read by itself, it is done on the wrong side: one side is then done twice and the other never.',
  }),
});

/** Something of one side, and its words. */
interface Sided {
  readonly id: string;
  readonly side: string;
  readonly sides: readonly string[];
  readonly texts: readonly (Text | undefined)[];
  readonly how: 'lone' | 'repeated';
}

// What a step reads or turns may stand on a side of its own; `side-not-said` looks at those.
function sidedSteps(procedure: Procedure): readonly Sided[] {
  const sides = sidesOf(procedure);
  return procedure.steps.flatMap((step): readonly Sided[] => {
    const { id, repeated, measure, adjust } = step;
    const side = repeated?.value ?? sideIn(id.value, sides);
    if (side === undefined || measure.length + adjust.length > 0) return [];
    const copies = repeated ? procedure.steps.filter((one) => one !== step && one.at.start === step.at.start) : [];
    const texts = textsIn(step).filter((text, i) => copies.every((copy) => isSame(text, textsIn(copy)[i])));
    return [{ id: id.value, side, sides, texts, how: repeated ? 'repeated' : 'lone' }];
  });
}

function textsIn({ do: act, ask, card }: Step): readonly (Text | undefined)[] {
  return [act, ask, card];
}

function sidedLabels(procedure: Procedure): readonly Sided[] {
  const sides = sidesOf(procedure);
  const things = [...procedure.values, ...procedure.adjusters];
  return things.flatMap(({ id, idAt, label }): readonly Sided[] => {
    const side = sideIn(id, sides);
    const copies = things.filter((one) => one.id !== id && one.idAt.start === idAt.start);
    if (side === undefined || !copies.every((copy) => isSame(label, copy.label))) return [];
    return [{ id, side, sides, texts: [label], how: copies.length > 0 ? 'repeated' : 'lone' }];
  });
}

/** Whether two copies of a text read the same: where they do not, `{side}` stands in it. */
function isSame(one: Text | undefined, two: Text | undefined): boolean {
  const words = (text: Text | undefined): string =>
    JSON.stringify([...templatesOf(text)].map(({ source }) => source.value));
  return words(one) === words(two);
}

function* findIn({ texts, id, side, sides, how }: Sided, languages: readonly string[]): Iterable<Finding<Facts>> {
  for (const language of languages) {
    for (const { source } of texts.flatMap((text) => [...templatesOf(text, language)])) {
      const found = otherSideIn(source.value, { side, sides, language });
      if (found) yield { at: spanWithin(source, found.start, found.end), data: { id, side, other: found.other, how } };
    }
  }
}
