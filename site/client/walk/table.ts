// A worksheet that is filled in on the phone: cells kept one by one, computed columns and results at once.

import type { Rational } from '../../../src/calc/rational.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import type { Entry, SheetColumn } from '../../../src/calc/worksheet/sheet.js';
import { type Worked, type WorkedSheet, workOutSheet } from '../../../src/calc/worksheet/work-out.js';
import type { WalkStep, WalkWorksheet } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import type { Act } from '../job/journal.js';
import type { Judgement } from './judge.js';
import { tablePicture } from './pictures.js';
import { button, verdictMark } from './screen.js';
import { performNow, type Session } from './session.js';
import type { WalkState } from './state.js';
import { typedFault } from './typed-fault.js';
import { say } from './words.js';

type Cells = ReadonlyMap<string, string>;

/** The key of a cell in the state of a walk; rows count from 1. */
function cellKey(sheet: WalkWorksheet, row: number, column: string): string {
  return `${sheet.key} ${row} ${column}`;
}

/** The cells as they stand on the screen: what is kept, and what is being typed. */
function cellsNow({ key }: WalkWorksheet, { cells, drafts }: WalkState): Cells {
  const typed = [...drafts].filter(([name]) => name.startsWith(`${key} `));
  return typed.length === 0 ? cells : new Map([...cells, ...typed.map(([name, { text }]) => [name, text] as const)]);
}

function rowCount(sheet: WalkWorksheet, cells: Cells): number {
  const filled = [...cells].flatMap(([key, text]) => {
    const [name, row] = key.split(' ');
    return name === sheet.key && text !== '' ? [Number(row)] : [];
  });
  return Math.max(sheet.sheet.rows.min, ...filled);
}

/** The worksheet as far as it is filled in. */
function workOutTable(sheet: WalkWorksheet, cells: Cells): WorkedSheet {
  const rows = Array.from({ length: rowCount(sheet, cells) }, (_, i) => {
    const entries = sheet.sheet.columns.flatMap((column): readonly (readonly [string, Entry])[] => {
      const entry = entryOf(column, cells.get(cellKey(sheet, i + 1, column.id)) ?? '');
      return entry === undefined ? [] : [[column.id, entry]];
    });
    return new Map(entries);
  });
  return workOutSheet(sheet.sheet, rows);
}

function entryOf({ unit, choices }: SheetColumn, text: string): Rational | string | undefined {
  if (choices) return choices.includes(text) ? text : undefined;
  return unit ? readTyped(text, unit)?.base : undefined;
}

/** How a worksheet came out, for the ways out of its step. */
export function judgeTable(sheet: WalkWorksheet, cells: Cells): readonly Judgement[] {
  const { verdict, sides } = workOutTable(sheet, cells);
  if (verdict === 'unfinished') return [];
  const [side] = sides;
  return [{ verdict, ...(side && { side }) }];
}

/** Why a worksheet cannot be judged as it stands on the screen; empty where it can. */
export function lackOf(sheet: WalkWorksheet, state: WalkState): string {
  const cells = cellsNow(sheet, state);
  const unread = unreadCell(sheet, cells);
  if (unread !== '') return unread;
  const [lack] = workOutTable(sheet, cells).lacks;
  if (!lack) return '';
  if (lack.kind === 'rows' || lack.kind === 'too-many-rows')
    return `${sheet.label}: ${say('row')} ${sheet.sheet.rows.min}`;
  if (lack.kind === 'no-value') return sheet.labels[lack.id] ?? lack.id;
  return `${say('row')} ${lack.row}: ${lack.columns.map((id) => sheet.labels[id] ?? id).join(', ')}`;
}

/** How it comes out as it stands on the screen. */
export function judgeTableNow(sheet: WalkWorksheet, state: WalkState): readonly Judgement[] {
  const cells = cellsNow(sheet, state);
  return unreadCell(sheet, cells) === '' ? judgeTable(sheet, cells) : [];
}

/** The first cell with something in it that is no number; empty where there is none. */
function unreadCell(sheet: WalkWorksheet, cells: Cells): string {
  for (let row = 1; row <= rowCount(sheet, cells); row += 1) {
    for (const column of sheet.sheet.columns) {
      const fault = column.unit ? typedFault(cells.get(cellKey(sheet, row, column.id)) ?? '', column.unit) : '';
      if (fault !== '') return `${say('row')} ${row}, ${sheet.labels[column.id] ?? column.id}: ${fault}`;
    }
  }
  return '';
}

/** The acts that keep what is still being typed into tables when the step is left. */
export function typedCells({ file, state }: Session): readonly Act[] {
  return file.worksheets.flatMap((sheet) =>
    [...state.drafts].flatMap(([key, { text }]): readonly Act[] => {
      const [name, row, id] = key.split(' ');
      const column = name === sheet.key ? sheet.sheet.columns.find((one) => one.id === id) : undefined;
      return column ? [cellAct(sheet, { step: state.place, row: Number(row), column, text })] : [];
    }),
  );
}

function cellAct(
  sheet: WalkWorksheet,
  { step, row, column, text }: { step: string; row: number; column: SheetColumn; text: string },
): Act {
  const word = choicesOf(sheet, column).get(text);
  return {
    kind: 'cell',
    step,
    worksheet: sheet.key,
    row,
    column: column.id,
    label: sheet.labels[column.id] ?? column.id,
    text: text.trim(),
    ...(word !== undefined && { word }),
    ...(column.unit && { unit: column.unit.symbol }),
  };
}

/** How many rows are filled in, of how many that are wanted: `2/6`. */
export function rowsFilled(sheet: WalkWorksheet, state: WalkState): string {
  return `${workOutTable(sheet, cellsNow(sheet, state)).wholeRows}/${sheet.sheet.rows.min}`;
}

/** The table to fill in. `changed` is told after each cell. */
export function tablePanel(
  session: Session,
  sheet: WalkWorksheet,
  { step, changed }: { readonly step: WalkStep; readonly changed: () => void },
): HTMLElement {
  const { columns, results } = sheet.sheet;
  const body = element('tbody', {}, []);
  const sums = element('div', { class: 'walk-results' }, []);
  const fault = element('p', { class: 'walk-why', role: 'status' }, []);
  let drawn = rowCount(sheet, cellsNow(sheet, session.state));
  const update = (): void => {
    const known = cellsNow(sheet, session.state);
    const worked = workOutTable(sheet, known);
    fault.textContent = unreadCell(sheet, known);
    worked.rows.forEach((row, i) => {
      for (const { id, from } of columns) {
        const cell = from && body.querySelector(`[data-cell="${i + 1} ${id}"]`);
        if (cell) cell.textContent = workedText(row.cells.get(id));
      }
    });
    const texts = worked.rows.map((_, i) => columns.map(({ id }) => known.get(cellKey(sheet, i + 1, id)) ?? ''));
    const plot = tablePicture(sheet, texts);
    sums.replaceChildren(
      ...(plot ? [plot] : []),
      ...results.map(({ id }) => resultLine(sheet, id, worked.results.get(id))),
    );
    changed();
  };
  const addRow = (row: number): void => {
    const cells = columns.map((column) => cellOf(session, { sheet, step, row, column, update }));
    body.append(element('tr', {}, [element('th', { scope: 'row', 'data-name': say('row') }, [String(row)]), ...cells]));
  };
  for (let row = 1; row <= drawn; row += 1) addRow(row);
  const most = sheet.sheet.rows.max ?? 99;
  const more = button(say('add-row'), () => {
    if (drawn >= most) return;
    drawn += 1;
    addRow(drawn);
    more.hidden = drawn >= most;
  });
  more.hidden = drawn >= most;
  const heads = columns.map((column) => element('th', { scope: 'col' }, [headOf(sheet, column)]));
  const table = element('table', {}, [
    element('caption', {}, [sheet.label]),
    element('thead', {}, [element('tr', {}, [element('th', { scope: 'col' }, [say('row')]), ...heads])]),
    body,
  ]);
  update();
  return element('div', { class: 'walk-table' }, [
    element('div', { class: 'scroll', tabindex: '0', role: 'group', 'aria-label': sheet.label }, [table]),
    more,
    fault,
    sums,
  ]);
}

interface CellView {
  readonly sheet: WalkWorksheet;
  readonly step: WalkStep;
  readonly row: number;
  readonly column: SheetColumn;
  readonly update: () => void;
}

function cellOf(session: Session, { sheet, step, row, column, update }: CellView): HTMLElement {
  const { id, from } = column;
  const name = headOf(sheet, column);
  if (from) return element('td', { 'data-cell': `${row} ${id}`, 'data-name': name, class: 'worked' }, []);
  const label = `${sheet.labels[id] ?? id}, ${say('row')} ${row}`;
  const key = cellKey(sheet, row, id);
  const known = cellsNow(sheet, session.state).get(key) ?? '';
  const input = column.choices ? choiceField(choicesOf(sheet, column), label) : numberField(label);
  input.value = known;
  // each key is kept at once, and judged at once: the way on never stands on what the cell held before
  const keep = (act: Act): void => {
    const isRight = input.value.trim() === '' || entryOf(column, input.value) !== undefined;
    input.setAttribute('aria-invalid', String(!isRight));
    performNow({ session, act, changed: update });
  };
  input.addEventListener('input', () => {
    keep({ kind: 'draft', step: step.label, field: key, text: input.value });
    update();
  });
  // what is shown is so already, and the field may be left by the press on the way on: that is not drawn anew under a finger
  input.addEventListener('change', () => keep(cellAct(sheet, { step: step.label, row, column, text: input.value })));
  return element('td', { 'data-name': name }, [input]);
}

function headOf({ labels }: WalkWorksheet, { id, unit }: SheetColumn): string {
  return `${labels[id] ?? id}${unit && unit.symbol !== '' ? `, ${unit.symbol}` : ''}`;
}

function numberField(label: string): HTMLInputElement {
  const attributes = { type: 'text', inputmode: 'decimal', autocomplete: 'off', 'aria-label': label };
  return element('input', attributes, []) as HTMLInputElement;
}

/** What there is to choose from in a column, each with what the page calls it. */
function choicesOf({ choices = {} }: WalkWorksheet, column: SheetColumn): ReadonlyMap<string, string> {
  const words = choices[column.id] ?? [];
  return new Map((column.choices ?? []).map((choice, i) => [choice, words[i] ?? choice]));
}

function choiceField(choices: ReadonlyMap<string, string>, label: string): HTMLSelectElement {
  const options = [...choices].map(([choice, word]) => element('option', { value: choice }, [word]));
  return element('select', { 'aria-label': label }, [
    element('option', { value: '' }, []),
    ...options,
  ]) as HTMLSelectElement;
}

function workedText(worked: Worked | undefined): string {
  if (worked?.kind === 'no-value') return '?';
  return worked?.kind === 'value' ? worked.text.value : '';
}

function resultLine(sheet: WalkWorksheet, id: string, worked: Worked | undefined): HTMLElement {
  const judged = worked?.kind === 'value' ? worked.judged : undefined;
  const limits = sheet.shown[id];
  return element('p', {}, [
    ...(judged ? [verdictMark(judged.outcome), `${say(judged.outcome)}. `] : []),
    `${sheet.labels[id] ?? id}: `,
    element('b', {}, [workedText(worked) || '–']),
    ...(worked?.kind === 'value' && worked.text.uncertainty !== undefined ? [` ± ${worked.text.uncertainty}`] : []),
    ...(limits === undefined ? [] : [`. ${say('why-limits', { limits })}`]),
  ]);
}

/** The acts that keep the results of a worksheet when its step is left. */
export function resultActs(session: Session, step: WalkStep, sheet: WalkWorksheet): readonly Act[] {
  const worked = workOutTable(sheet, cellsNow(sheet, session.state));
  return sheet.sheet.results.flatMap(({ id, unit }): readonly Act[] => {
    const one = worked.results.get(id);
    if (one?.kind !== 'value') return [];
    const limits = sheet.shown[id];
    return [
      {
        kind: 'read',
        step: step.label,
        value: `${sheet.key}.${id}`,
        label: sheet.labels[id] ?? id,
        text: one.text.value.replace(/[\u00a0 ].*$/, '').replace('\u2212', '-'),
        unit: unit.symbol,
        verdict: one.judged?.outcome ?? 'recorded',
        ...(one.judged?.side && { side: one.judged.side }),
        ...(limits !== undefined && { limits }),
        derived: true,
      },
    ];
  });
}
