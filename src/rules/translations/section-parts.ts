// The parts of a section of prose that every language has alike: points of lists, rows of tables, links, pictures.

import type { ProseSection } from '../../model/procedure.js';

export type PartKind = 'point' | 'row' | 'link' | 'picture';

const fence = /^ {0,3}(`{3,}|~{3,})/;
const point = /^\s*(?:[-*+]|\d+[.)])\s+\S/;
const rule = /^\s*(?:[-*_]\s*){3,}$/;

/** The parts of each kind, in their order: lines of lists and tables, and where links and pictures lead. */
export function partsOf({ body, links, images }: ProseSection): Readonly<Record<PartKind, readonly string[]>> {
  const lines = linesOf(body.source.value);
  return {
    point: lines.filter((line) => point.test(line) && !rule.test(line)),
    row: lines.filter((line) => line.trimStart().startsWith('|')),
    link: links.map(({ value }) => value.replace(/#.*$/, '')).filter((value) => value !== ''),
    picture: images.map(({ value }) => value),
  };
}

/** The lines of a text but those of code and comments. */
function linesOf(text: string): readonly string[] {
  const found: string[] = [];
  let shut: string | undefined;
  for (const line of text.replace(/<!--[\s\S]*?(?:-->|$)/g, '').split('\n')) {
    const mark = fence.exec(line)?.[1];
    if (shut !== undefined) {
      if (mark?.startsWith(shut)) shut = undefined;
    } else if (mark) shut = mark;
    else found.push(line);
  }
  return found;
}
