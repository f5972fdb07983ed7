// `stepgauge guard`: which slips of a typing hand the book's checks would not notice.

import { renderSummary, renderText } from '../diagnostic/text.js';
import type { GuardCount, GuardResult, Survivor } from '../model/guard-result.js';
import { guardInParts } from './guard-parts.js';
import { loadBook } from './load.js';
import { Misuse } from './misuse.js';
import { todayOf } from './options.js';
import type { Terminal } from './terminal.js';

export interface GuardOptions {
  readonly format: 'text' | 'json';
  readonly sample?: string;
  readonly seed: string;
  readonly min?: string;
  readonly show: string;
  readonly today?: string;
}

/** Gives the exit code: 0, or 1 where the book has errors or fewer slips are noticed than `--min` asks for. */
export async function runGuard(path: string | undefined, options: GuardOptions, terminal: Terminal): Promise<number> {
  const min = options.min === undefined ? 0 : percentOf(options.min);
  const size = options.sample === undefined ? undefined : wholeNumber('--sample', options.sample);
  const seed = wholeNumber('--seed', options.seed);
  const most = wholeNumber('--show', options.show);
  const loaded = loadBook(path, { format: 'text', strict: false, ...(options.today ? { today: options.today } : {}) });
  if (!loaded.holds) {
    const errors = loaded.diagnostics.filter(({ severity }) => severity === 'error');
    terminal.err(renderText(errors, loaded.sources, { color: terminal.color }));
    terminal.err(`${renderSummary(errors, { color: terminal.color })}\nNo slips were tried: mend these first.\n`);
    return 1;
  }
  const sample = size === undefined ? {} : { sample: { size, seed } };
  const result = await guardInParts({ folder: loaded.folder, today: todayOf(options.today), ...sample }, terminal);
  terminal.out(options.format === 'json' ? `${JSON.stringify(result, null, 2)}\n` : renderGuard(result, most));
  const isUnder = result.total.percent < min;
  if (isUnder) terminal.err(`${result.total.percent} % is under the ${min} % asked for by --min\n`);
  return isUnder ? 1 : 0;
}

function percentOf(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= 0 && value <= 100)) {
    throw new Misuse(`Unexpected \`--min ${text}\`, expected a percentage from 0 to 100`);
  }
  return value;
}

function wholeNumber(name: string, text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new Misuse(`Unexpected \`${name} ${text}\`, expected a whole number`);
  return Number(text);
}

/** The result in words: the figure, by kind, by file, and at most `most` survivors with what would guard against them. */
export function renderGuard(result: GuardResult, most: number): string {
  const { total, sample, possible, survivors } = result;
  const tried = sample
    ? `${Math.min(sample.size, possible)} of ${possible} slips, drawn with seed ${sample.seed}`
    : `${possible} slips`;
  const apart = `${total.small} smaller than the tolerance and ${total.same} without a change of meaning do not count`;
  const lines = [
    `${total.percent} % of what counts is noticed: ${total.noticed} of ${total.counted}`,
    `${tried}; ${apart}`,
    '',
    ...tableOf('By kind', result.kinds),
    '',
    ...tableOf('By file', result.files),
  ];
  const shown = survivors.slice(0, most);
  if (shown.length > 0)
    lines.push(
      '',
      `What nothing would notice${shown.length < survivors.length ? ` (${shown.length} of ${survivors.length}, see --show)` : ''}`,
    );
  return `${[...lines, ...shown.flatMap(describe)].join('\n')}\n`;
}

function tableOf(title: string, counts: readonly GuardCount[]): readonly string[] {
  const width = Math.max(...counts.map(({ of }) => of.length), title.length);
  return [
    `${title.padEnd(width)}  noticed        of      %`,
    ...counts.map(({ of, noticed, counted, percent }) => {
      const numbers = [String(noticed).padStart(9), String(counted).padStart(9), percent.toFixed(1).padStart(7)];
      return `${of.padEnd(width)}${numbers.join('')}`;
    }),
  ];
}

function describe({ file, line, column, kind, path, before, after, suggestion }: Survivor): readonly string[] {
  const change = after === '' ? `\`${short(before)}\` left out` : `\`${short(before)}\` written as \`${short(after)}\``;
  return [`  ${file}:${line}:${column} ${path}: ${change} (${kind})`, `    ${suggestion}`];
}

function short(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
