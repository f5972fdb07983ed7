// A worksheet that is filled in on the phone: cells kept one by one, computed columns and results at once.

import type { Rational } from '../../../src/calc/rational.js';
import type { Entry, SheetColumn } from '../../../src/calc/worksheet/sheet.js';
import { type Worked, type WorkedSheet, workOutSheet } from '../../../src/calc/worksheet/work-out.js';
import type { WalkStep, WalkWorksheet } from '../../../src/emit/walk/walk-shape.js';
import { element } from '../element.js';
import type { Act } from '../job/journal.js';
import type { Judgement } from './judge.js';
import { tablePicture } from './pictures.js';
import { readTyped } from './read-number.js';
import { button, verdictMark } from './screen.js';
import { perform, type Session } from './session.js';
import { say } from './words.js';

type Cells = ReadonlyMap<string, string>;

/** The key of a cell in the state of a walk; rows count from 1. */
function cellKey(sheet: WalkWorksheet, row: number, column: string): string {
  return `${sheet.key} ${row} ${column}`;
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

/** Why a worksheet cannot be judged yet; empty where it can. */
export function lackOf(sheet: WalkWorksheet, cells: Cells): string {
  const [lack] = workOutTable(sheet, cells).lacks;
  if (!lack) return '';
  if (lack.kind === 'rows' || lack.kind === 'too-many-rows')
    return `${sheet.label}: ${say('row')} ${sheet.sheet.rows.min}`;
  if (lack.kind === 'no-value') return sheet.labels[lack.id] ?? lack.id;
  return `${say('row')} ${lack.row}: ${lack.columns.map((id) => sheet.labels[id] ?? id).join(', ')}`;
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
  let drawn = rowCount(sheet, session.state.cells);
  const update = (): void => {
    const worked = workOutTable(sheet, session.state.cells);
    worked.rows.forEach((row, i) => {
      for (const { id, from } of columns) {
        const cell = from && body.querySelector(`[data-cell="${i + 1} ${id}"]`);
        if (cell) cell.textContent = workedText(row.cells.get(id));
      }
    });
    const texts = worked.rows.map((_, i) =>
      columns.map(({ id }) => session.state.cells.get(cellKey(sheet, i + 1, id)) ?? ''),
    );
    const plot = tablePicture(sheet, texts);
    sums.replaceChildren(
      ...(plot ? [plot] : []),
      ...results.map(({ id }) => resultLine(sheet, id, worked.results.get(id))),
    );
    changed();
  };
  const addRow = (row: number): void => {
    const cells = columns.map((column) => cellOf(session, { sheet, step, row, column, update }));
    body.append(element('tr', {}, [element('th', { scope: 'row' }, [String(row)]), ...cells]));
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
  const heads = columns.map(({ id, unit }) =>
    element('th', { scope: 'col' }, [
      `${sheet.labels[id] ?? id}${unit && unit.symbol !== '' ? `, ${unit.symbol}` : ''}`,
    ]),
  );
  const table = element('table', {}, [
    element('caption', {}, [sheet.label]),
    element('thead', {}, [element('tr', {}, [element('th', { scope: 'col' }, [say('row')]), ...heads])]),
    body,
  ]);
  update();
  return element('div', { class: 'walk-table' }, [
    element('div', { class: 'scroll', tabindex: '0', role: 'group', 'aria-label': sheet.label }, [table]),
    more,
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
  const { id, choices, from } = column;
  if (from) return element('td', { 'data-cell': `${row} ${id}`, class: 'worked' }, []);
  const label = `${sheet.labels[id] ?? id}, ${say('row')} ${row}`;
  const known = session.state.cells.get(cellKey(sheet, row, id)) ?? '';
  const input = choices ? choiceField(choices, label) : numberField(label);
  input.value = known;
  input.addEventListener('change', () => {
    const isRight = input.value.trim() === '' || entryOf(column, input.value) !== undefined;
    input.setAttribute('aria-invalid', String(!isRight));
    const act: Act = {
      kind: 'cell',
      step: step.label,
      worksheet: sheet.key,
      row,
      column: id,
      label: sheet.labels[id] ?? id,
      text: input.value.trim(),
      ...(column.unit && { unit: column.unit.symbol }),
    };
    void perform({ session, act }).then(update);
  });
  return element('td', {}, [input]);
}

function numberField(label: string): HTMLInputElement {
  const attributes = { type: 'text', inputmode: 'decimal', autocomplete: 'off', 'aria-label': label };
  return element('input', attributes, []) as HTMLInputElement;
}

function choiceField(choices: readonly string[], label: string): HTMLSelectElement {
  const options = ['', ...choices].map((choice) => element('option', { value: choice }, [choice.replaceAll('-', ' ')]));
  return element('select', { 'aria-label': label }, options) as HTMLSelectElement;
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
  const worked = workOutTable(sheet, session.state.cells);
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
