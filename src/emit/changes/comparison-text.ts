// What changed as plain text for a terminal: what must be looked at first, then the book, then procedure by procedure.

import type { Change, Comparison, ProcedureChange, Weight } from '../../model/comparison.js';
import type { Voice } from '../voice.js';
import { changeWord } from '../words/changes.js';
import { sayChange, sayRevision } from './say-change.js';

/** Columns of the terminal that lines are broken at. */
const width = 110;

/** The whole comparison; `title` says what is compared with what. */
export function writeComparison(comparison: Comparison, title: string, voice: Voice): string {
  const { shared, procedures, unchanged } = comparison;
  const word = (key: string, parts?: Readonly<Record<string, string | number>>): string =>
    changeWord(voice.language, key, parts);
  if (shared.length === 0 && procedures.length === 0) return `${title}\n\n${word('nothing')}\n`;
  const blocks = [
    [title],
    ...(shared.length > 0 ? [[word('shared'), ...writeChanges(shared, voice)]] : []),
    ...procedures.map((procedure) => writeProcedure(procedure, voice)),
    ...(unchanged > 0
      ? [[unchanged === 1 ? word('unchanged-one') : word('unchanged-count', { count: unchanged })]]
      : []),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function writeProcedure(procedure: ProcedureChange, voice: Voice): readonly string[] {
  const { id, title, alert, changes } = procedure;
  const head = `${voice.plain(title)} (${id}), ${sayRevision(procedure, voice)}`;
  const warning = alert ? broken(`  ! ${changeWord(voice.language, `alert-${alert}`)}`, '    ') : [];
  return [head, ...warning, ...writeChanges(changes, voice)];
}

/** Changes by weight, each on a line or a few. */
export function writeChanges(changes: readonly Change[], voice: Voice): readonly string[] {
  return (['safety', 'technical', 'text'] as const).flatMap((weight: Weight) => {
    const own = changes.filter((change) => change.weight === weight);
    return own.length === 0
      ? []
      : [`  ${changeWord(voice.language, weight)}`, ...own.flatMap((change) => writeChange(change, voice))];
  });
}

function writeChange(change: Change, voice: Voice): readonly string[] {
  const { head, how, rigs, before, after, note } = sayChange(change, voice);
  const where = rigs === '' ? '' : ` [${rigs}]`;
  const first = `${head}${where}${how === '' ? '' : `: ${how}`}`;
  const both = [before, after].filter((part) => part !== undefined && part !== '');
  const arrow = both.join(' → ');
  const line = both.length === 0 ? `    ${first}` : `    ${first}: ${arrow}`;
  const short = line.length <= width;
  const long = [
    ...broken(`    ${first}:`, '      '),
    ...(before ? broken(`      - ${before}`, '        ') : []),
    ...(after ? broken(`      + ${after}`, '        ') : []),
  ];
  return [...(short ? [line] : long), ...(note ? broken(`      ${note}`, '      ') : [])];
}

/** A line broken between words; those that follow are set in. */
function broken(line: string, indent: string): readonly string[] {
  const lines: string[] = [];
  let rest = line;
  while (rest.length > width) {
    const at = rest.lastIndexOf(' ', width);
    if (at <= indent.length) break;
    lines.push(rest.slice(0, at));
    rest = indent + rest.slice(at + 1);
  }
  return [...lines, rest];
}
