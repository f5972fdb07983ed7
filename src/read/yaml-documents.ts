// What stands around the one document of a YAML file: directives and the `---` and `...` lines. Finds where the document
// starts and ends, and refuses what is more than one, or another YAML than 1.2.

import { type Diagnostic, diagnose, type Findings } from '../diagnostic/diagnostic.js';
import type { SourceFile } from '../text/source.js';
import type { Range } from './front-matter.js';
import { lineEnd, nextLine } from './trap-signs.js';

/** The part of `range` that holds the document itself. */
export function findDocument(file: SourceFile, range: Range): Findings<Range> {
  const text = file.text.slice(0, range.end);
  const diagnostics: Diagnostic[] = [];
  const head = pastHead(file, { text, start: range.start }, diagnostics);
  const end = findEnd(text, head);
  if (end !== undefined) {
    const rest = text.slice(nextLine(text, end), text.length);
    const isLast = text.startsWith('...', end) && /^(?:[ \t]*(?:#.*)?(?:\r?\n|$))*$/.test(rest);
    if (!isLast) diagnostics.push(severalDocuments(file, end));
  }
  return { value: { start: head, end: end ?? range.end }, diagnostics };
}

/** Past directives and the first `---`, where there is one before the first words. */
function pastHead(file: SourceFile, from: { text: string; start: number }, diagnostics: Diagnostic[]): number {
  const { text } = from;
  for (let line = from.start; line < text.length; line = nextLine(text, line)) {
    const written = text.slice(line, lineEnd(text, line));
    if (/^---[ \t]*(?:#.*)?$/.test(written)) return nextLine(text, line);
    if (written.startsWith('%')) {
      if (!/^%YAML[ \t]+1\.2[ \t]*(?:#.*)?$/.test(written)) diagnostics.push(directive(file, line, written));
    } else if (!/^[ \t]*(?:#|$)/.test(written)) return diagnostics.length > 0 ? line : from.start;
  }
  return diagnostics.length > 0 ? text.length : from.start;
}

function findEnd(text: string, start: number): number | undefined {
  const marker = /^(?:---|\.\.\.)(?=[ \t\r\n]|$)/gm;
  marker.lastIndex = start;
  return marker.exec(text)?.index;
}

function directive(file: SourceFile, start: number, written: string): Diagnostic {
  const version = /^%YAML[ \t]+(\S+)/.exec(written)?.[1];
  return diagnose({
    code: version ? 'yaml-version' : 'yaml-directive',
    severity: 'error',
    message: version
      ? `Unexpected YAML version \`${version}\`, expected \`1.2\`: in other versions words like \`off\` are no words`
      : `Unexpected \`${written.split(/\s/)[0]}\` at the start of a line: \`%\` there gives YAML an order, and a book takes none`,
    at: { file: file.path, start, end: start + written.trimEnd().length },
    help: version ? 'Delete this line.' : 'Delete this line, or begin it with `#` if it is a comment.',
  });
}

function severalDocuments(file: SourceFile, start: number): Diagnostic {
  const written = file.text.slice(start, start + 3);
  return diagnose({
    code: 'several-documents',
    severity: 'error',
    message: `Unexpected \`${written}\` in the middle of the file: it ends the file for YAML, and what stands below is not read`,
    at: { file: file.path, start, end: start + 3 },
    help: `Delete this line, or move what stands below it into a file of its own.`,
  });
}
