// The prose of a procedure, cut at its headings, with its placeholders, links and pictures found and what must not reach
// a page reported. Renders nothing.

import type { Nodes } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table';
import { gfmTable } from 'micromark-extension-gfm-table';
import { type Diagnostic, diagnose, type Findings } from '../diagnostic/diagnostic.js';
import type { ProseSection } from '../model/procedure.js';
import { plainHeadings } from '../text/plain-prose.js';
import type { Located, SourceFile, Span } from '../text/source.js';
import { withoutFlood } from './flood.js';
import type { Range } from './front-matter.js';
import { readTemplate } from './template.js';

/** Quotes and lists inside each other, more than which nobody writes; the parser's time grows with them. */
const deepest = 30;

/** Characters of prose at most: a small book. The parser's time may grow with the square of it. */
const longest = 200_000;

/**
 * Cuts the part `body` of a file at its headings (those of quotes and lists are no cuts). What stands before the first
 * heading is a section without one, left out where it is empty. A heading that is one of `stepIds` marks that step.
 */
export function readProse(
  file: SourceFile,
  body: Range,
  stepIds: ReadonlySet<string>,
): Findings<readonly ProseSection[]> {
  const text = file.text.slice(body.start, body.end);
  if (text.length > longest) return { value: [], diagnostics: [tooLong(file, body)] };
  const deep = deepLine(text);
  if (deep !== undefined) return { value: [], diagnostics: [tooDeep(file, body.start + deep)] };
  const reader: Reader = { file, base: body.start, diagnostics: [], links: [], images: [] };
  const headings = plainHeadingsOf(reader, text) ?? parsedHeadings(reader, text);
  const sections = cuts(reader, headings, body).map((cut) => sectionOf(reader, cut, stepIds));
  return { value: sections, diagnostics: withoutFlood(reader.diagnostics) };
}

interface Reader {
  readonly file: SourceFile;
  readonly base: number;
  readonly diagnostics: Diagnostic[];
  readonly links: Located<string>[];
  readonly images: Located<string>[];
}

type Heading = NonNullable<ProseSection['heading']>;

interface Cut {
  readonly heading?: Heading;
  readonly body: Range;
}

function spanOf(reader: Reader, node: Nodes): Span {
  const start = reader.base + (node.position?.start.offset ?? 0);
  return { file: reader.file.path, start, end: reader.base + (node.position?.end.offset ?? 0) };
}

/** The headings of prose that has nothing else to be found in it. */
function plainHeadingsOf({ file, base }: Reader, prose: string): readonly Heading[] | undefined {
  return plainHeadings(prose)?.map(({ text, depth, start, end }) => ({
    text,
    depth,
    at: { file: file.path, start: base + start, end: base + end },
  }));
}

/** The headings that are no part of a quote or list. Notes on the way what else the prose has. */
function parsedHeadings(reader: Reader, prose: string): readonly Heading[] {
  const root = fromMarkdown(prose, { extensions: [gfmTable()], mdastExtensions: [gfmTableFromMarkdown()] });
  lookThrough(reader, root);
  return root.children.flatMap((node) =>
    node.type === 'heading' ? [{ text: wordsOf(node).trim(), depth: node.depth, at: spanOf(reader, node) }] : [],
  );
}

function cuts(reader: Reader, headings: readonly Heading[], body: Range): readonly Cut[] {
  const found: Cut[] = [];
  const first = headings[0]?.at.start ?? body.end;
  if (reader.file.text.slice(body.start, first).trim() !== '') found.push({ body: { start: body.start, end: first } });
  for (const [index, heading] of headings.entries()) {
    found.push({ heading, body: { start: heading.at.end, end: headings[index + 1]?.at.start ?? body.end } });
  }
  return found;
}

function sectionOf(reader: Reader, cut: Cut, stepIds: ReadonlySet<string>): ProseSection {
  const { file } = reader;
  const raw = file.text.slice(cut.body.start, cut.body.end);
  const blank = /^(?:[ \t]*(?:\r\n|\r|\n))*/.exec(raw)?.[0].length ?? 0;
  const value = raw.slice(blank).trimEnd();
  const start = cut.body.start + blank;
  const at = { file: file.path, start: Math.min(start, cut.body.end), end: start + value.length };
  const body = readTemplate({ value, at });
  reader.diagnostics.push(...body.diagnostics);
  const { heading } = cut;
  const inside = (one: Located<string>): boolean => one.at.start >= cut.body.start && one.at.end <= cut.body.end;
  return {
    ...(heading ? { heading } : {}),
    ...(heading && stepIds.has(heading.text) ? { step: heading.text } : {}),
    body: body.value,
    links: reader.links.filter(inside),
    images: reader.images.filter(inside),
    at: { file: file.path, start: heading?.at.start ?? at.start, end: Math.max(at.end, heading?.at.end ?? 0) },
  };
}

function wordsOf(node: Nodes): string {
  if ('value' in node) return node.type === 'html' ? '' : node.value;
  return 'children' in node ? node.children.map(wordsOf).join('') : '';
}

function lookThrough(reader: Reader, node: Nodes): void {
  if (node.type === 'html') reader.diagnostics.push(...rawHtml(reader, node.value, spanOf(reader, node)));
  if (node.type === 'link' || node.type === 'definition') noteLink(reader, node.url, spanOf(reader, node));
  if (node.type === 'image') noteImage(reader, node.url, spanOf(reader, node));
  if ('children' in node) for (const child of node.children) lookThrough(reader, child);
}

/** A comment never reaches a page and is no fault. */
function rawHtml(reader: Reader, html: string, at: Span): readonly Diagnostic[] {
  const bare = html.replace(/<!--[\s\S]*?(?:-->|$)/g, (comment) => ' '.repeat(comment.length));
  const tag = /<[^>\r\n]*>?/.exec(bare);
  // A closing tag is no second fault.
  if (!tag || (tag[0].startsWith('</') && reader.diagnostics.some(({ code }) => code === 'raw-html'))) return [];
  const start = at.start + tag.index;
  const end = Math.min(at.end, start + tag[0].length);
  const written = reader.file.text.slice(start, end);
  const edit = { at: { ...at, start, end: start }, text: '\\' };
  return [
    diagnose({
      code: 'raw-html',
      severity: 'error',
      message: `Unexpected \`${written}\`, which is read as HTML and never reaches a page`,
      at: { ...at, start, end },
      help: `Write it in markdown, or, if it is part of the text, put a \`\\\` before the \`<\`: \`\\${written}\`.`,
      fixes: [{ title: 'Show the sign as it is', edits: [edit], safe: false }],
    }),
  ];
}

/** The place of an address inside the markdown of its link, or all of the link where it is written otherwise there. */
function addressAt(reader: Reader, url: string, at: Span): Span {
  const inside = reader.file.text.slice(at.start, at.end).lastIndexOf(url);
  return url === '' || inside < 0 ? at : { ...at, start: at.start + inside, end: at.start + inside + url.length };
}

function noteLink(reader: Reader, url: string, link: Span): void {
  const at = addressAt(reader, url, link);
  const scheme = /^([a-z][a-z0-9+.-]*):/i.exec(url.trim())?.[1]?.toLowerCase();
  if (scheme === undefined && !url.trim().startsWith('//')) {
    reader.links.push({ value: url, at });
    return;
  }
  if (scheme !== undefined && ['http', 'https', 'mailto', 'tel'].includes(scheme)) return;
  reader.diagnostics.push(
    diagnose({
      code: 'unsafe-link',
      severity: 'error',
      message: `Unexpected address \`${url}\`, expected one that starts with \`https:\`, \`http:\`, \`mailto:\` or \`tel:\`, or a file of the book`,
      at,
      help: 'Write the whole address, or take the link away and leave its words.',
    }),
  );
}

function noteImage(reader: Reader, url: string, image: Span): void {
  const at = addressAt(reader, url, image);
  if (/^(?!.*\/\.\.?(?:\/|$))figures\/[^\\:]+$/.test(url)) {
    reader.images.push({ value: url, at });
    return;
  }
  // the path as other programs want it, from the file that it stands in
  const meant = /^(?:[\w-]+\/|\.{0,2}\/)+(figures\/(?!.*\.\.)[^\\:]+)$/.exec(url)?.[1];
  reader.diagnostics.push(
    diagnose({
      code: 'picture-outside-figures',
      severity: 'error',
      message: `Unexpected picture \`${url}\`, expected a file below \`figures/\` of the book`,
      at,
      help:
        meant === undefined
          ? 'Put the picture into `figures/` and name it from there, such as `figures/arm.svg`: a page must show it without signal.'
          : `Write \`${meant}\`: pictures are named from the folder of the book, wherever the text stands.`,
      ...(meant === undefined
        ? {}
        : { fixes: [{ title: `Write \`${meant}\``, safe: false, edits: [{ at, text: meant }] }] }),
    }),
  );
}

/** Where a line starts that opens more quotes and lists inside each other than the parser should be given. */
function deepLine(text: string): number | undefined {
  const line = new RegExp(`^(?:[ \\t]*(?:>|[-*+]|\\d{1,9}[.)])){${deepest},}`, 'm').exec(text);
  return line?.index;
}

function tooDeep(file: SourceFile, start: number): Diagnostic {
  return diagnose({
    code: 'nested-too-deep',
    severity: 'error',
    message: 'Too many quotes or lists stand inside each other here: the prose is not read',
    at: { file: file.path, start, end: start + 1 },
    help: 'Take away the signs at the start of the line that are too many.',
  });
}

function tooLong(file: SourceFile, body: Range): Diagnostic {
  return diagnose({
    code: 'prose-too-long',
    severity: 'error',
    message: `The prose has ${body.end - body.start} characters, expected at most ${longest}; it is not read`,
    at: { file: file.path, ...firstLine(file.text, body) },
    help: 'Cut the procedure into several, or take out what nobody reads beside a machine.',
  });
}

/** The first line of a part that is not empty. */
function firstLine(text: string, { start, end }: Range): Range {
  const words = /\S[^\r\n]*/.exec(text.slice(start, end));
  return words ? { start: start + words.index, end: start + words.index + words[0].trimEnd().length } : { start, end };
}
