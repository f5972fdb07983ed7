// Prose of a translation that has other parts than its original: a section, a point of a list, a row of a table, a link.

import type { Procedure, ProseSection } from '../../model/procedure.js';
import { type Span, spanWithin } from '../../text/source.js';
import { looksLikeStep } from '../prose/heading-like-step.js';
import { type Finding, rule } from '../rule.js';
import { freeSections, proseDifferences, saysOtherwise, sectionPairs } from './differences.js';
import { type PartKind, partsOf } from './section-parts.js';

interface Facts {
  readonly language: string;
  readonly what: 'detail' | 'sections' | PartKind;
  /** The step of a detail, or the link or picture; empty for what is counted. */
  readonly name: string;
  readonly own: number;
  readonly wanted: number;
}

const nouns: Readonly<Record<Facts['what'], readonly [one: string, several: string]>> = {
  detail: ['detail', 'details'],
  sections: ['section that belongs to no step', 'sections that belong to no step'],
  point: ['point in its lists', 'points in its lists'],
  row: ['row in its tables', 'rows in its tables'],
  link: ['link', 'links'],
  picture: ['picture', 'pictures'],
};

export default rule({
  id: 'translation-lacks-part',
  severity: 'warning',
  needs: 'book',
  *run(book) {
    const [first = 'en', ...others] = book.settings.languages;
    for (const procedure of book.procedures.values()) {
      // a draft is still being written
      if (procedure.status.value === 'draft') continue;
      for (const language of others) yield* findingsIn(procedure, first, language);
    }
  },
  say: ({ language, what, name, own, wanted }: Facts) => ({
    message: messageOf({ language, what, name, own, wanted }),
    help:
      own < wanted
        ? 'Translate what is missing, or take it out of the original if it is there by mistake.'
        : 'Say it in the original as well, or take it out here.',
    note: 'The prose of a page is shown in one language: what is missing in it is missing on the page, and nobody sees that.',
  }),
});

function messageOf({ language, what, name, own, wanted }: Facts): string {
  if (what === 'detail') {
    return own < wanted
      ? `The \`${language}\` prose has no detail of \`${name}\`, and the original has`
      : `The \`${language}\` prose has a detail of \`${name}\`, and the original has none`;
  }
  const [one, several] = nouns[what];
  if (name !== '') {
    return own < wanted
      ? `This \`${language}\` section lacks the ${one} \`${name}\` of the original`
      : `This \`${language}\` section has the ${one} \`${name}\`, which the original has not`;
  }
  const where = what === 'sections' ? `The \`${language}\` prose` : `This \`${language}\` section`;
  return `${where} has ${own === 0 ? 'no' : own} ${own === 1 ? one : several}, and the original ${wanted === 0 ? 'none' : wanted}`;
}

function* findingsIn(procedure: Procedure, first: string, language: string): Iterable<Finding<Facts>> {
  const [own = [], other = []] = [procedure.prose.get(first), procedure.prose.get(language)];
  const top = other[0];
  // a translation without any prose shows that of the original
  if (own.length === 0 || !top || !other.some(({ body }) => /\S/.test(body.source.value))) return;
  // a heading that was to be the id of a step is mended first
  if ([...own, ...other].some((section) => looksLikeStep(section, procedure))) return;
  yield* detailsIn(own, other, language);
  const [wanted, found] = [freeSections(own), freeSections(other)];
  if (wanted.length !== found.length && [...proseDifferences(procedure, first, language)].length === 0) {
    const [section, original] = [found.at(-1) ?? top, wanted.at(-1) ?? own[0]];
    const related = original ? [{ message: 'the original', at: placeOf(original) }] : [];
    const data = { language, what: 'sections' as const, name: '', own: found.length, wanted: wanted.length };
    yield { at: placeOf(section), related, data };
  }
  for (const pair of sectionPairs(own, other)) {
    if (!saysOtherwise(pair, [first, language])) yield* partsIn(pair, language);
  }
}

/** Details of steps that one language has and the other not. */
function* detailsIn(
  own: readonly ProseSection[],
  other: readonly ProseSection[],
  language: string,
): Iterable<Finding<Facts>> {
  const lacking = (from: readonly ProseSection[], of: readonly ProseSection[]): readonly ProseSection[] =>
    from.filter(({ step }) => step !== undefined && of.every((one) => one.step !== step));
  const last = other.at(-1);
  for (const section of last ? lacking(own, other) : []) {
    const data = { language, what: 'detail' as const, name: section.step ?? '', own: 0, wanted: 1 };
    yield { at: last ? placeOf(last) : section.at, related: [{ message: 'the original', at: placeOf(section) }], data };
  }
  for (const section of lacking(other, own)) {
    const data = { language, what: 'detail' as const, name: section.step ?? '', own: 1, wanted: 0 };
    yield { at: placeOf(section), data };
  }
}

/** What is counted in both sections: the first kind of which they have not the same. */
function* partsIn(
  [original, translated]: readonly [ProseSection, ProseSection],
  language: string,
): Iterable<Finding<Facts>> {
  const related = [{ message: 'the original', at: placeOf(original) }];
  const [wanted, found] = [partsOf(original), partsOf(translated)];
  for (const kind of ['point', 'row'] as const) {
    const [own, all] = [found[kind].length, wanted[kind].length];
    if (own === all) continue;
    yield { at: placeOf(translated), related, data: { language, what: kind, name: '', own, wanted: all } };
    return;
  }
  for (const kind of ['link', 'picture'] as const) {
    const missing = wanted[kind].find((name) => !found[kind].includes(name));
    const extra = found[kind].find((name) => !wanted[kind].includes(name));
    if (missing === undefined && extra === undefined) continue;
    const counts = missing === undefined ? { own: 1, wanted: 0 } : { own: 0, wanted: 1 };
    yield { at: placeOf(translated), related, data: { language, what: kind, name: missing ?? extra ?? '', ...counts } };
    return;
  }
}

/** The heading, or the first line of what stands before the first one. */
function placeOf({ heading, body, at }: ProseSection): Span {
  if (heading) return heading.at;
  const line = /\S[^\n]*/.exec(body.source.value);
  return line ? spanWithin(body.source, line.index, line.index + line[0].trimEnd().length) : at;
}
