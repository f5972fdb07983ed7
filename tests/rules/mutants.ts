// Slips made in the Good examples of the rule pages, in the lines that the example itself wrote: each makes a book that is
// wrong, and that some rule should notice.

import type { Example } from './page.js';

/** One slip: which kind, in which file, the line before and after. */
export interface Mutant {
  readonly operator: Operator;
  readonly path: string;
  readonly before: string;
  readonly after: string;
  readonly files: ReadonlyMap<string, string>;
}

export type Operator = keyof typeof operators | 'swap two steps';

/** What a slip makes of a line; nothing where it does not fit. An empty text takes the line out. */
type Slip = (line: string) => string | undefined;

function replaced(line: string, find: RegExp, by: (...parts: string[]) => string): string | undefined {
  const after = line.replace(find, (...parts) =>
    by(...parts.filter((part): part is string => typeof part === 'string')),
  );
  return after === line ? undefined : after;
}

/** A number with its decimals kept: `3.40` and 1 make `4.40`. */
function plus(number: string, by: number): string {
  return (Number(number) + by).toFixed((number.split('.')[1] ?? '').length);
}

const otherUnits: Readonly<Record<string, string>> = {
  V: 'A',
  in: 'lb',
  ft: 'V',
  lb: 'in',
  s: 'in',
  min: 'mm',
  mm: 'kg',
  degF: 'in',
};

/** The slips, by what they are. */
export const operators = {
  'widen a limit': (line) =>
    replaced(
      line,
      /(\d+(?:\.\d+)?) to (\d+(?:\.\d+)?)/,
      (_, low, high) => `${plus(low, -Number(low) / 2)} to ${plus(high, Number(high))}`,
    ) ?? replaced(line, /± (\d+(?:\.\d+)?)/, (_, by) => `± ${plus(by, 4 * Number(by))}`),
  'drop a digit': (line) =>
    /(?:on|next|revision|code|serial|id): /.test(line)
      ? undefined
      : replaced(line, /(?<![\w.-])(\d)(\d[\d.]*)(?= ?[a-z%A-Z])/, (_, _first, rest) => rest.replace(/^\./, '0.')),
  'delete a prerequisite': (line) =>
    /^\s*- \{ state: /.test(line) ? '' : replaced(line, /,? *needs: (?:[\w-]+|\{[^}]*\})/, () => ''),
  'rename a reference': (line) =>
    replaced(
      line,
      /\b(measure|adjust|run|go|read-with|hazard|watch): (\[?)([a-z][\w-]*)/,
      (_, key, open, name) => `${key}: ${open}${name}x`,
    ),
  'change a unit': (line) =>
    replaced(
      line,
      /(\d) (V|in|ft|lb|s|min|mm|degF)(?![\w/])/,
      (_, digit, unit) => `${digit} ${otherUnits[unit] ?? unit}`,
    ),
  'pick a coarser instrument': (line) =>
    replaced(line, /resolution: (\d+(?:\.\d+)?)/, (_, step) => `resolution: ${Number(step) * 100}`),
  'remove a hazard statement': (line) =>
    replaced(line, /^(\s+)hazard: \[[\w, -]+\]\s*$/, () => '') ??
    replaced(line, /,? *hazard: (?:\[[\w, -]+\]|[\w-]+)/, () => ''),
} as const satisfies Readonly<Record<string, Slip>>;

/** Every slip in the lines that an example writes, each kind once in each line; and each two steps of it exchanged. */
export function* mutantsOf(files: ReadonlyMap<string, string>, example: Example): Iterable<Mutant> {
  for (const { path, language, text } of example.changes) {
    const whole = files.get(path);
    if (whole === undefined || !['diff', 'yaml', 'markdown'].includes(language)) continue;
    const lines = text.split('\n');
    const own = language === 'diff' ? lines.filter((line) => line.startsWith('+')).map((line) => line.slice(1)) : lines;
    for (const [i, before] of own.entries()) {
      const next = own[i + 1] ?? '';
      const isStep = (line: string): boolean => /^\s+- \{ id: .*\b(?:sets|needs|at|measure|adjust): /.test(line);
      if (isStep(before) && isStep(next) && whole.split(`${before}\n${next}`).length === 2) {
        const swapped = whole.replace(`${before}\n${next}`, () => `${next}\n${before}`);
        yield { operator: 'swap two steps', path, before, after: next, files: new Map(files).set(path, swapped) };
      }
    }
    for (const before of new Set(own)) {
      for (const [operator, slip] of Object.entries(operators) as [keyof typeof operators, Slip][]) {
        const after = /^\s*#/.test(before) ? undefined : slip(before);
        if (after === undefined) continue;
        const from = `\n${before}\n`;
        if (whole.split(from).length !== 2) continue;
        yield {
          operator,
          path,
          before,
          after,
          files: new Map(files).set(
            path,
            whole.replace(from, () => (after === '' ? '\n' : `\n${after}\n`)),
          ),
        };
      }
    }
  }
}
