// A procedure file cut in two: the YAML between its `---` lines and the markdown below. Reads neither.

import { type Diagnostic, diagnose, type Findings } from '../diagnostic/diagnostic.js';
import type { SourceFile } from '../text/source.js';

/** Offsets in a file's text; `end` exclusive. */
export interface Range {
  readonly start: number;
  readonly end: number;
}

/** `front` is what stands between the two `---` lines, `body` all after the second. */
export interface FrontMatter {
  readonly front: Range;
  readonly body: Range;
}

const fence = /^---[ \t]*$/;

/** Cuts a file at its `---` lines; missing, with one diagnostic, where it does not start with one or the second never comes. */
export function splitFrontMatter(file: SourceFile): Findings<FrontMatter | undefined> {
  const first = lineAt(file.text, 0);
  if (!fence.test(first.text)) return { value: undefined, diagnostics: [missingFront(file)] };
  for (let line = first; line.next < file.text.length; ) {
    line = lineAt(file.text, line.next);
    if (!fence.test(line.text)) continue;
    const front = { start: first.next, end: line.start };
    return { value: { front, body: { start: line.next, end: file.text.length } }, diagnostics: [] };
  }
  return { value: undefined, diagnostics: [unclosedFront(file, first)] };
}

interface Line {
  readonly start: number;
  readonly text: string;
  readonly next: number;
}

function lineAt(text: string, start: number): Line {
  const ending = /\r\n|\r|\n/g;
  ending.lastIndex = start;
  const found = ending.exec(text);
  if (!found) return { start, text: text.slice(start), next: text.length };
  return { start, text: text.slice(start, found.index), next: found.index + found[0].length };
}

function missingFront(file: SourceFile): Diagnostic {
  const first = lineAt(file.text, 0);
  const late = /^---[ \t]*$/m.exec(file.text);
  const onlyBlank = late !== null && file.text.slice(0, late.index).trim() === '';
  const at = late && onlyBlank ? { start: late.index, end: late.index + 3 } : { start: 0, end: first.text.length };
  return diagnose({
    code: 'missing-front-matter',
    severity: 'error',
    message: onlyBlank
      ? 'Unexpected empty line before the opening `---`, expected `---` on the first line'
      : 'Unexpected text on the first line, expected `---`, the line that opens the typed part of a procedure',
    at: { file: file.path, ...at },
    help: onlyBlank
      ? 'Delete what stands before the `---`.'
      : 'Put a line `---` first, then the typed part (`title:`, `kind:`, …), then another line `---`. A text that is no procedure does not belong into the book as a `.md` file.',
  });
}

function unclosedFront(file: SourceFile, first: Line): Diagnostic {
  const near = /^[ \t]*(?:-{2}|-{4,}|-(?: -){2,}|\u2014|[ \t]+---)[ \t]*$/m.exec(file.text.slice(first.next));
  const start = first.next + (near?.index ?? 0);
  return diagnose({
    code: 'unclosed-front-matter',
    severity: 'error',
    message: 'The typed part that this `---` opens is never closed by a second line `---`',
    at: { file: file.path, start: first.start, end: first.start + 3 },
    related: near
      ? [{ message: 'This line is nearly one', at: { file: file.path, start, end: start + near[0].trimEnd().length } }]
      : [],
    help: 'Put a line that holds three dashes and nothing else below the last typed line (below `leaves:`), before the prose.',
  });
}
