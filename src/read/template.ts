// Texts with places where values go in: `{raised}` is a place, `{{` and `}}` are plain braces.

import { type Diagnostic, diagnose, type Findings } from '../diagnostic/diagnostic.js';
import type { Template, TemplatePart } from '../model/text.js';
import { type SourceText, type Span, spanWithin } from '../text/source.js';

/** What may stand between braces: a name, or names joined by dots. */
const pathShape = /^[\p{L}_][\p{L}\p{N}_-]*(?:\.[\p{L}\p{N}_-]+)*$/u;

/**
 * Finds the places of a text. A brace that opens or closes nothing, or holds no name, is reported and stands in the
 * words as it was written.
 */
export function readTemplate(source: SourceText): Findings<Template> {
  const { value } = source;
  if (!/[{}]/.test(value)) return { value: { source, parts: wordsOnly(value) }, diagnostics: [] };
  const reader: Reader = { source, parts: [], diagnostics: [], words: '', late: undefined };
  for (let at = 0; at < value.length; ) at = readPart(reader, at);
  endWords(reader);
  return { value: { source, parts: reader.parts }, diagnostics: reader.diagnostics };
}

interface Reader {
  readonly source: SourceText;
  readonly parts: TemplatePart[];
  readonly diagnostics: Diagnostic[];
  /** Words read since the last place. */
  words: string;
  /** Where a `}` stands that closes its `{` too late, which was reported there. */
  late: number | undefined;
}

function wordsOnly(text: string): readonly TemplatePart[] {
  return text === '' ? [] : [{ kind: 'words', text }];
}

function endWords(reader: Reader): void {
  reader.parts.push(...wordsOnly(reader.words));
  reader.words = '';
}

/** Reads what starts at `at`; gives where the next part starts. */
function readPart(reader: Reader, at: number): number {
  const { value } = reader.source;
  const sign = value[at] ?? '';
  if (sign !== '{' && sign !== '}') {
    const end = value.slice(at).search(/[{}]/);
    const next = end < 0 ? value.length : at + end;
    reader.words += value.slice(at, next);
    return next;
  }
  if (value[at + 1] === sign) {
    reader.words += sign;
    return at + 2;
  }
  if (at === reader.late) {
    reader.words += sign;
    return at + 1;
  }
  if (sign === '}') return keepWritten(reader, { start: at, end: at + 1 }, 'unopened-brace');
  const end = closingBrace(value, at);
  if (end === undefined) {
    const late = /^\{[^{}]*\}(?!\})/.exec(value.slice(at))?.[0].length;
    reader.late = late === undefined ? undefined : at + late - 1;
    return keepWritten(reader, { start: at, end: at + 1 }, 'unclosed-brace');
  }
  const path = value.slice(at + 1, end).trim();
  if (path === '') return keepWritten(reader, { start: at, end: end + 1 }, 'empty-placeholder');
  if (!pathShape.test(path)) return keepWritten(reader, { start: at, end: end + 1 }, 'odd-placeholder');
  endWords(reader);
  reader.parts.push({ kind: 'place', path, at: spanWithin(reader.source, at, end + 1) });
  return end + 1;
}

/** The `}` that closes the `{` at `start`, before another `{` and on the same line. */
function closingBrace(text: string, start: number): number | undefined {
  const found = /^\{[^{}\r\n]*\}/.exec(text.slice(start));
  return found ? start + found[0].length - 1 : undefined;
}

type Code = 'unopened-brace' | 'unclosed-brace' | 'empty-placeholder' | 'odd-placeholder';

const messages: Readonly<Record<Code, (written: string) => string>> = {
  'unopened-brace': () => 'Unexpected `}`: no `{` opens before it',
  'unclosed-brace': () =>
    'The `{` that opens here is never closed: a `{name}` stands for a value and ends with `}` on the same line',
  'empty-placeholder': (written) =>
    `Unexpected \`${written}\` without a name: \`{name}\` stands for the value of that name`,
  'odd-placeholder': (written) =>
    `Unexpected \`${written}\`: between the braces stands one name, such as \`raised\` or \`machine.learn_key\``,
};

const helps: Readonly<Record<Code, string>> = {
  'unopened-brace':
    'Put a `{` before the name that it closes, delete it, or write `}}` for a brace that is part of the text.',
  'unclosed-brace': 'Put the `}` behind the name, or write `{{` for a brace that is part of the text.',
  'empty-placeholder': 'Put the name of a value between the braces, or take them away.',
  'odd-placeholder':
    'Write the name alone between the braces, or write `{{` and `}}` for braces that are part of the text.',
};

function lateIn({ source, late }: Reader): Span | undefined {
  return late === undefined ? undefined : spanWithin(source, late, late + 1);
}

function keepWritten(reader: Reader, part: { start: number; end: number }, code: Code): number {
  const { source } = reader;
  const written = source.value.slice(part.start, part.end);
  const first = spanWithin(source, part.start, part.start + 1);
  const last = spanWithin(source, part.end - 1, part.end);
  const closing = code === 'odd-placeholder' ? last : code === 'unclosed-brace' ? lateIn(reader) : undefined;
  const edits = closing ? [first, closing] : [first];
  const doubled = edits.map((at) => ({ at, text: at === first ? `${written[0]}${written[0]}` : '}}' }));
  reader.words += written;
  reader.diagnostics.push(
    diagnose({
      code,
      severity: 'error',
      message: messages[code](written),
      at: spanWithin(source, part.start, part.end),
      help: helps[code],
      ...(code === 'empty-placeholder'
        ? {}
        : { fixes: [{ title: 'Write a brace that is part of the text', edits: doubled, safe: false }] }),
    }),
  );
  return part.end;
}
