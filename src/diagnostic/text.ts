// Diagnostics for people at a terminal: what is wrong, the line with the exact place underlined, why, and how to mend it.

import type { Span } from '../text/source.js';
import { printable } from './cells.js';
import type { Diagnostic, Severity } from './diagnostic.js';
import { frame } from './frame.js';
import { type Locate, locator, type Sources } from './locate.js';

export interface TextOptions {
  /** Whether to colour with ANSI codes. */
  readonly color: boolean;
}

/** More places than this are a path: they are listed by number, without a frame each. */
const mostFrames = 2;
/** Rigs named in full; of more only the count is said. */
const mostRigs = 4;

type Style = 'bold' | 'dim' | Severity;
type Paint = (style: Style, text: string) => string;

const codes: Readonly<Record<Style, string>> = { bold: '1', dim: '2', error: '1;31', warning: '1;33', hint: '1;36' };

function painter(color: boolean): Paint {
  return (style, text) => (color && text !== '' ? `\u001b[${codes[style]}m${text}\u001b[0m` : text);
}

/** All diagnostics in the order given, an empty line behind each; nothing for none. */
export function renderText(diagnostics: readonly Diagnostic[], sources: Sources, options: TextOptions): string {
  const printer: Printer = { sources, locate: locator(sources), paint: painter(options.color) };
  return diagnostics.map((diagnostic) => `${renderOne(printer, diagnostic)}\n\n`).join('');
}

interface Printer {
  readonly sources: Sources;
  readonly locate: Locate;
  readonly paint: Paint;
}

function renderOne(printer: Printer, diagnostic: Diagnostic): string {
  const { paint } = printer;
  const { severity, code, related } = diagnostic;
  const lines = [
    `${paint(severity, severity)} ${paint('bold', printable(diagnostic.message))} ${paint('dim', `[${code}]`)}`,
    ...place(printer, diagnostic.at, { mark: '^', style: severity }),
  ];
  if (related.length > mostFrames) lines.push(...path(printer, diagnostic));
  else {
    for (const { message, at } of related) {
      lines.push(`  ${printable(message)}:`, ...place(printer, at, { mark: '-', style: 'dim' }));
    }
  }
  if (diagnostic.rigs.length > 0) lines.push(`  ${paint('bold', 'rigs:')} ${rigsOf(diagnostic.rigs)}`);
  if (diagnostic.note) lines.push(`  ${paint('bold', 'why:')} ${printable(diagnostic.note)}`);
  if (diagnostic.help) lines.push(`  ${paint('bold', 'help:')} ${printable(diagnostic.help)}`);
  return lines.join('\n');
}

function rigsOf(rigs: readonly string[]): string {
  if (rigs.length <= mostRigs) return rigs.join(', ');
  return `${rigs.slice(0, mostRigs - 1).join(', ')} and ${rigs.length - mostRigs + 1} more`;
}

function place(printer: Printer, at: Span, look: { mark: string; style: Style }): readonly string[] {
  const { paint } = printer;
  const source = printer.sources.get(at.file);
  if (!source) return [`  ${paint('dim', '-->')} ${printable(at.file)}`];
  const region = printer.locate(at);
  const lines = frame(source, region, look.mark);
  const gutter = Math.max(...lines.map((line) => String(line.number ?? '').length));
  return [
    `  ${paint('dim', '-->')} ${printable(at.file)}:${region.start.line}:${region.start.column}`,
    ...lines.map((line) => {
      const number = String(line.number ?? '').padStart(gutter);
      const text = line.kind === 'mark' ? paint(look.style, line.text) : line.text;
      return `  ${paint('dim', `${number} |`)} ${text}`.trimEnd();
    }),
  ];
}

/** A path through steps: each place by number, in its order. */
function path(printer: Printer, diagnostic: Diagnostic): readonly string[] {
  const { related } = diagnostic;
  const places = related.map(({ at }) => {
    if (!printer.sources.has(at.file)) return at.file;
    const { start } = printer.locate(at);
    return at.file === diagnostic.at.file ? `line ${start.line}` : `${printable(at.file)}:${start.line}`;
  });
  const width = Math.max(...places.map((text) => text.length));
  const digits = String(related.length).length;
  return related.map(({ message }, index) => {
    const number = `${index + 1}.`.padStart(digits + 1);
    return `  ${printer.paint('dim', number)} ${(places[index] ?? '').padEnd(width)}  ${printable(message)}`;
  });
}

/** One line: `2 errors, 1 warning`; hints are counted apart. */
export function renderSummary(diagnostics: readonly Diagnostic[], options: TextOptions): string {
  const paint = painter(options.color);
  const count = (severity: Severity): number => diagnostics.filter((one) => one.severity === severity).length;
  const said = (number: number, word: Severity): string =>
    paint(number > 0 ? word : 'bold', `${number === 0 ? 'no' : number} ${word}${number === 1 ? '' : 's'}`);
  const hints = count('hint');
  const files = new Set(diagnostics.filter((one) => one.severity !== 'hint').map((one) => one.at.file)).size;
  const where = files > 1 ? ` in ${files} files` : '';
  const advice = hints > 0 ? `; ${said(hints, 'hint')}` : '';
  return `${said(count('error'), 'error')}, ${said(count('warning'), 'warning')}${where}${advice}`;
}
