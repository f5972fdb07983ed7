// A table in prose that the page cannot show as one, or that lacks a cell: markdown says nothing of either.

import type { Procedure } from '../../model/procedure.js';
import { type SourceText, spanWithin } from '../../text/source.js';
import { type Finding, rule } from '../rule.js';

interface Facts {
  readonly kind: 'no-line' | 'line' | 'row';
  /** How many cells it has, and how many the head of the table has. */
  readonly cells: number;
  readonly wanted: number;
}

export default rule({
  id: 'broken-table',
  severity: 'warning',
  needs: 'procedure',
  *run(procedure) {
    const told = new Set<string>();
    for (const source of bodiesOf(procedure)) {
      for (const table of tablesIn(source)) {
        const finding = judge(table, source);
        const key = finding && `${finding.at.file}:${finding.at.start}`;
        if (!finding || key === undefined || told.has(key)) continue;
        told.add(key);
        yield finding;
      }
    }
  },
  say: (facts: Facts) => ({ message: messageOf(facts), help: helpOf(facts), note: noteOf(facts) }),
});

function messageOf({ kind, cells, wanted }: Facts): string {
  if (kind === 'no-line') return 'Lines with `|` without a line of dashes below the first: this is no table';
  const what = kind === 'line' ? 'The line below the head of this table' : 'This row of the table';
  return `${what} has ${count(cells)}, and the head has ${count(wanted)}`;
}

function helpOf({ kind, cells, wanted }: Facts): string {
  const dashes = `\`|${' --- |'.repeat(wanted)}\``;
  if (kind === 'no-line') return `Below the first of them, write a line ${dashes}.`;
  if (kind === 'line') return `Write ${dashes}.`;
  return cells < wanted
    ? 'Put the missing cell back; one that is empty is written with its `|` as well.'
    : 'Take out the `|` that is too many; one that belongs to the text is written `\\|`.';
}

function noteOf({ kind }: Facts): string {
  return kind === 'row'
    ? 'Cells that are missing shift the others under a wrong head, and those too many are not shown at all.'
    : 'The page shows the lines as they stand, with every `|`, in one paragraph.';
}

function count(cells: number): string {
  return cells === 1 ? '1 cell' : `${cells} cells`;
}

function bodiesOf({ prose }: Procedure): readonly SourceText[] {
  return [...prose.values()].flatMap((sections) => sections.map(({ body }) => body.source));
}

interface Line {
  readonly text: string;
  readonly start: number;
}

/** Runs of lines that begin with `|`, outside code. */
function* tablesIn({ value }: SourceText): Iterable<readonly Line[]> {
  let run: Line[] = [];
  let start = 0;
  let fence = '';
  for (const text of value.split('\n')) {
    const mark = /^ {0,3}(```+|~~~+)/.exec(text)?.[1] ?? '';
    if (mark !== '') fence = fence === '' ? mark : mark.startsWith(fence) ? '' : fence;
    if (fence === '' && /^ {0,3}\|/.test(text)) run.push({ text, start });
    else {
      if (run.length > 0) yield run;
      run = [];
    }
    start += text.length + 1;
  }
  if (run.length > 0) yield run;
}

function judge([head, line, ...rows]: readonly Line[], source: SourceText): Finding<Facts> | undefined {
  if (!head) return undefined;
  const wanted = cellsIn(head).length;
  const fault = (at: Line, kind: Facts['kind']): Finding<Facts> => {
    const text = at.text.trim();
    const start = at.start + at.text.indexOf(text);
    const related = kind === 'row' ? [{ message: 'the head', at: spanOf(head, source) }] : [];
    const data = { kind, cells: cellsIn(at).length, wanted };
    return { at: spanWithin(source, start, start + text.length), related, data };
  };
  if (!line || !cellsIn(line).every((cell) => /^\s*:?-+:?\s*$/.test(cell))) return fault(head, 'no-line');
  if (cellsIn(line).length !== wanted) return fault(line, 'line');
  const odd = rows.find((row) => cellsIn(row).length !== wanted);
  return odd && fault(odd, 'row');
}

function spanOf({ text, start }: Line, source: SourceText) {
  const from = start + text.length - text.trimStart().length;
  return spanWithin(source, from, start + text.trimEnd().length);
}

/** What stands between the signs; `\|` and what stands in backticks belong to the text. */
function cellsIn({ text }: Line): readonly string[] {
  const plain = text
    .trim()
    .replaceAll(/\\\|/g, '  ')
    .replaceAll(/^\||\|$/g, '');
  return plain.split('|');
}
