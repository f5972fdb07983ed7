// Check values, adjusters and worksheets as they stand at a step. The limits in use are the largest type on the page.

import { formatLimits } from '../../calc/display.js';
import type { Expr } from '../../calc/expression/ast.js';
import { exactDecimals, formatDecimals, sign } from '../../calc/rational.js';
import type { ResolvedAdjuster, ResolvedProcedure, ResolvedValue, ResolvedWorksheet } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';
import { drawWay } from './drawn-pictures.js';
import { drawGauge } from './gauge.js';

/** A value to read: its limits, what it is read with, the picture, and for technicians the book limit. */
export function drawValue(value: ResolvedValue, procedure: ResolvedProcedure, voice: Voice): Html {
  const { shown } = value;
  const limits = shown.acceptance ?? shown.tolerance;
  const guarded =
    shown.acceptance !== undefined && shown.tolerance !== undefined && shown.acceptance !== shown.tolerance;
  return html`<div class="value" data-value="${value.id}">
<p class="value-label">${voice.say(value.label)}</p>
${limits === undefined ? html`<p>${voice.ui('record-only')}</p>` : html`<p class="limits">${voice.number(limits)}</p>`}
<p class="with">${howRead(value, procedure, voice)}</p>
${drawGauge(value, voice, voice.plain(value.label))}
${drawWay(value, procedure, voice)}${shown.nominal !== undefined && html`<p class="aside">${voice.ui('aim', { nominal: voice.number(shown.nominal) })}.</p>`}
${shown.other !== undefined && html`<p class="aside">${voice.ui('other-units', { limits: voice.number(shown.other) })}.</p>`}
${shown.inside !== undefined && html`<p class="aside">${voice.ui('band', { inside: voice.number(shown.inside) })}.</p>`}
${guarded && html`<p class="aside">${voice.ui('drawn-in')} ${voice.ui('book-limit', { limits: voice.number(shown.tolerance ?? '') })}.</p>`}
${value.failing && html`<p class="aside">${voice.ui('between-limits', { limits: voice.number(formatLimits(value.failing)) })}.</p>`}
${value.origin && html`<p class="aside">${voice.ui('source', { source: voice.say(value.origin) })}.</p>`}
</div>
`;
}

function howRead(value: ResolvedValue, procedure: ResolvedProcedure, voice: Voice): Html {
  if (value.derived) {
    const formula = writeFormula(value.derived.expr, (name) => labelOf(name, procedure, voice), voice);
    return voice.ui('worked-out', { formula });
  }
  if (value.instrument) return voice.ui('read-with', { instrument: voice.say(value.instrument.label) });
  return value.tolerance ? voice.ui('read-plain') : html``;
}

function labelOf(name: string, procedure: ResolvedProcedure, voice: Voice): string {
  const value = procedure.values.find(({ id }) => id === name);
  if (value) return voice.plain(value.label);
  return (name.split('.').at(-1) ?? name).replaceAll('_', ' ');
}

const operators: Readonly<Record<string, string>> = { '+': ' + ', '-': ' \u2212 ', '*': ' × ', '/': ' / ', '^': '^' };
const strength: Readonly<Record<string, number>> = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 3 };

/** An expression in the words of the page; `name` says what a name is called. */
export function writeFormula(expr: Expr, name: (path: string) => string, voice: Voice): string {
  const write = (node: Expr): string => writeFormula(node, name, voice);
  switch (expr.kind) {
    case 'number': {
      const digits = formatDecimals(expr.value, exactDecimals(expr.value) ?? 4);
      return expr.unit && expr.unit.symbol !== '' ? `${digits}\u00a0${expr.unit.symbol}` : digits;
    }
    case 'name':
      return name(expr.path);
    case 'pi':
      return 'π';
    case 'negate':
      return `\u2212${inParens(expr.of, 3, write)}`;
    case 'binary': {
      const own = strength[expr.op] ?? 0;
      return `${inParens(expr.left, own, write)}${operators[expr.op] ?? expr.op}${inParens(expr.right, own + 1, write)}`;
    }
    case 'call':
      return `${expr.name} (${expr.args.map(write).join(', ')})`;
    case 'around':
      return `(${write(expr.middle)} ± ${write(expr.plus)}${expr.percent ? '\u00a0%' : ''})`;
    case 'range':
      return `(${voice.number(`${write(expr.low)} to ${write(expr.high)}`)})`;
    case 'in-unit':
      return `(${write(expr.of)})\u00a0${expr.unit.symbol}`;
  }
}

function inParens(expr: Expr, least: number, write: (node: Expr) => string): string {
  const weak = expr.kind === 'binary' && (strength[expr.op] ?? 0) < least;
  return weak || expr.kind === 'negate' ? `(${write(expr)})` : write(expr);
}

/** What a person turns: how far, which way is plus, what it moves and what to watch. */
export function drawAdjuster(adjuster: ResolvedAdjuster, procedure: ResolvedProcedure, voice: Voice): Html {
  const watched = procedure.values.find(({ id }) => id === adjuster.watch);
  const until = watched?.shown.acceptance ?? watched?.shown.tolerance;
  return html`<div class="adjuster">
<p class="value-label">${voice.ui('turn', { label: voice.say(adjuster.label) })}</p>
${watched && html`<p class="watch">${voice.ui('turn-watch')}: ${voice.say(watched.label)}${until !== undefined && html`, ${voice.ui('turn-until', { limits: html`<b class="limits-inline">${voice.number(until)}</b>` })}`}.</p>`}
<dl class="pairs">
${adjuster.positive && pair(voice.ui('turn-positive'), voice.say(adjuster.positive))}
${effects(adjuster, procedure, voice)}
${pair(voice.ui('turn-range'), voice.ui('turn-from', { range: voice.number(adjuster.shown.range) }))}
${adjuster.shown.smallest !== undefined && pair(voice.ui('turn-smallest'), html`${voice.number(adjuster.shown.smallest)}`)}
</dl>
</div>
`;
}

// which way a turn to plus moves each value, as far as that is certain
function effects(adjuster: ResolvedAdjuster, procedure: ResolvedProcedure, voice: Voice): readonly Html[] {
  const ways = { 'plus-raises': [] as Html[], 'plus-lowers': [] as Html[], 'plus-moves': [] as Html[] };
  for (const { id, label } of procedure.values) {
    const effect = adjuster.moves.get(id);
    if (!effect) continue;
    const way = sign(effect.low) > 0 ? 'plus-raises' : sign(effect.high) < 0 ? 'plus-lowers' : 'plus-moves';
    ways[way].push(voice.say(label));
  }
  return (['plus-raises', 'plus-lowers', 'plus-moves'] as const)
    .filter((way) => ways[way].length > 0)
    .map((way) => pair(voice.ui(way), html`${ways[way].map((label, i) => html`${i > 0 && '; '}${label}`)}`));
}

/** One line of a list of pairs. */
export function pair(term: Html, words: Html): Html {
  return html`<div><dt>${term}</dt><dd>${words}</dd></div>`;
}

/** A table to fill in: what goes in each column, the empty rows for paper, and what is worked out. */
export function drawWorksheet(worksheet: ResolvedWorksheet, voice: Voice): Html {
  const rows = Array.from({ length: Math.min(worksheet.rows.min, 40) }, (_, i) => i + 1);
  return html`<div class="worksheet" data-value="${worksheet.id}">
<p class="value-label">${worksheet.label ? voice.say(worksheet.label) : voice.ui('worksheet')} <span class="aside">(${rowCount(worksheet, voice)})</span></p>
<dl class="pairs">${worksheet.columns.map((column) => pair(voice.say(column.label), html`${columnNotes(column, voice).join(', ')}`))}</dl>
<div class="scroll" tabindex="0" role="group" aria-label="${worksheet.label ? voice.plain(worksheet.label) : voice.text('worksheet')}"><table>
<thead><tr><th scope="col">${voice.ui('row')}</th>${worksheet.columns.map((column) => html`<th scope="col">${voice.say(column.label)}${column.unit && column.unit.symbol !== '' && `, ${column.unit.symbol}`}</th>`)}</tr></thead>
<tbody>${rows.map((row) => html`<tr><th scope="row">${row}</th>${worksheet.columns.map(() => html`<td></td>`)}</tr>`)}</tbody>
</table></div>
${worksheet.results.length > 0 && html`<dl class="pairs results">${worksheet.results.map((result) => pair(voice.say(result.label), html`<b class="limits-inline">${result.shown === undefined ? result.unit.symbol : voice.number(result.shown)}</b>`))}</dl>`}
</div>
`;
}

// what goes into a column: unit, what there is to choose from, what it is read with
function columnNotes(column: ResolvedWorksheet['columns'][number], voice: Voice): readonly string[] {
  const { unit, choices, from, instrument } = column;
  return [
    choices?.map(({ label }) => voice.plain(label)).join(` ${voice.text('or')} `),
    unit && unit.symbol !== '' && unit.symbol,
    instrument && voice.plain(instrument.label),
    from && voice.text('column-worked-out'),
  ].filter((part): part is string => typeof part === 'string');
}

function rowCount({ rows }: ResolvedWorksheet, voice: Voice): Html {
  if (rows.max === undefined) return voice.ui('rows-least', { min: rows.min });
  if (rows.max === rows.min) return voice.ui('rows-exact', { count: rows.min });
  return voice.ui('rows-between', { min: rows.min, max: rows.max });
}
