// Blocks into measured blocks: their lines broken, their heights known, and how each is painted. One code measures and draws.

import type { Block, HazardPanel, SheetBlock, StepBlock, TableBlock } from './content.js';
import type { Pen } from './pen.js';
import { type Line, lineWidth, type Measures, type Run, runsOf, wrap } from './text.js';

/** Sizes in points. 13.1 pt of this face has an x-height of 2.54 mm; nothing is set below 12 pt. */
export const sizes = { title: 17, text: 13.1, small: 12, leading: 1.27 } as const;

/** Trimmed half letter, in points, and the room inside its safe margins. */
export const card = { width: 378, height: 594, left: 21.6, right: 21.6, top: 18.7, bottom: 20 } as const;
export const room = card.width - card.left - card.right;

/** A block with its height, ready to be painted at a place. */
export interface Measured {
  readonly height: number;
  /** Hazards that must stand on the same face. */
  readonly hazards: readonly string[];
  /** It may not be the last on a face: a heading. */
  readonly keepWithNext: boolean;
  readonly paint: (pen: Pen, y: number) => void;
  /** A word that is wider than its column. */
  readonly tooWide?: string;
  /** What it is, for a message: `step 4`. */
  readonly name: string;
}

interface Setting {
  readonly fonts: Measures;
}

const plain = { hazards: [], keepWithNext: false } as const;

/** Measures any block. */
export function measure(block: Block, setting: Setting): Measured {
  switch (block.kind) {
    case 'step':
      return measureStep(block, setting);
    case 'conditions':
      return measureConditions(block.items, setting);
    case 'table':
      return measureTable(block, setting);
    case 'sheet':
      return measureSheet(block, setting);
    case 'heading':
      return { ...paragraph(runsOf(block.text, true), setting, { tag: 'H2', above: 6 }), keepWithNext: true };
    case 'note':
      return paragraph(block.runs, setting, { tag: 'P', above: 5 });
  }
}

interface Paragraph {
  readonly tag: string;
  readonly above: number;
  readonly size?: number;
  readonly width?: number;
}

/** A paragraph over the whole width, or part of it. */
export function paragraph(runs: readonly Run[], { fonts }: Setting, options: Paragraph): Measured {
  const size = options.size ?? sizes.small;
  const { lines, tooWide } = wrap(runs, options.width ?? room, { size, fonts });
  const height = options.above + lines.length * size * sizes.leading;
  return {
    ...plain,
    height,
    name: runs.map(({ text }) => text).join(''),
    ...(tooWide === undefined ? {} : { tooWide }),
    paint: (pen, y) => pen.element(options.tag, () => pen.lines(lines, { x: card.left, y: y + options.above, size })),
  };
}

/** A line of hazard marks, numbers and text; the notes below it are smaller and stand in. */
const numberRoom = 30;

function measureStep(step: StepBlock, { fonts }: Setting): Measured {
  const width = room - numberRoom;
  const main = wrap(step.runs, width, { size: sizes.text, fonts });
  const notes = step.notes.map((runs) => wrap(runs, width, { size: sizes.small, fonts }));
  const noteLines = notes.flatMap(({ lines }) => lines);
  const mainHeight = main.lines.length * sizes.text * sizes.leading;
  const height = 3 + mainHeight + noteLines.length * sizes.small * sizes.leading + 2;
  const tooWide = [main, ...notes].map((part) => part.tooWide).find((word) => word !== undefined);
  return {
    height,
    hazards: step.hazards,
    keepWithNext: false,
    name: `step ${step.label}`,
    ...(tooWide === undefined ? {} : { tooWide }),
    paint: (pen, y) =>
      pen.element('LI', () => {
        pen.rule(y, 0.5);
        pen.element('Lbl', () =>
          pen.lines([[{ text: step.label, bold: true }]], { x: card.left, y: y + 3, size: sizes.text }),
        );
        pen.element('LBody', () => {
          pen.lines(main.lines, { x: card.left + numberRoom, y: y + 3, size: sizes.text });
          pen.lines(noteLines, { x: card.left + numberRoom, y: y + 3 + mainHeight, size: sizes.small });
        });
      }),
  };
}

const tick = 9;
const tickGap = 14;

function measureConditions(items: readonly string[], { fonts }: Setting): Measured {
  const size = sizes.small;
  const step = size * sizes.leading + 3;
  let [x, row] = [0, 0];
  let tooWide: string | undefined;
  const places = items.map((text) => {
    const wrapped = wrap(runsOf(text), room - tick - 5, { size, fonts });
    tooWide ??= wrapped.tooWide;
    const width = tick + 5 + Math.max(...wrapped.lines.map((line) => lineWidth(line, { size, fonts })));
    if (x > 0 && x + width > room) [x, row] = [0, row + 1];
    const place = { x, row, lines: wrapped.lines };
    [x, row] = wrapped.lines.length > 1 ? [0, row + wrapped.lines.length] : [x + width + tickGap, row];
    return place;
  });
  const rows = x > 0 ? row + 1 : row;
  return {
    ...plain,
    height: rows * step + 4,
    name: 'conditions',
    ...(tooWide === undefined ? {} : { tooWide }),
    paint: (pen, y) =>
      pen.element('L', () => {
        for (const place of places) {
          const top = y + 2 + place.row * step;
          pen.element('LI', () => {
            pen.box(card.left + place.x, top + 3, { width: tick, height: tick, line: 1.2 });
            pen.element('LBody', () => pen.lines(place.lines, { x: card.left + place.x + tick + 5, y: top, size }));
          });
        }
      }),
  };
}

const boxWidth = 50;
const labelRoom = room - 2 * boxWidth;

function measureTable({ title, rows }: TableBlock, { fonts }: Setting): Measured {
  const measured = rows.map(({ label, limits }) => {
    const limitRuns = runsOf(limits, true);
    const limitLine = wrap(limitRuns, labelRoom, { size: sizes.text, fonts });
    const limitWidth = Math.max(0, ...limitLine.lines.map((line) => lineWidth(line, { size: sizes.text, fonts })));
    const beside = wrap(runsOf(label), labelRoom - limitWidth - 12, { size: sizes.small, fonts });
    const stacked = beside.tooWide !== undefined || limitLine.lines.length > 1 || beside.lines.length > 2;
    const labelLines = stacked ? wrap(runsOf(label), labelRoom - 8, { size: sizes.small, fonts }) : beside;
    const lines = stacked
      ? labelLines.lines.length + limitLine.lines.length * 1.1
      : Math.max(1, labelLines.lines.length);
    const height = Math.max(22, lines * sizes.small * sizes.leading + 6);
    return {
      labelLines: labelLines.lines,
      limitLine: limitLine.lines,
      limitWidth,
      stacked,
      height,
      tooWide: labelLines.tooWide,
    };
  });
  const heading = wrap(runsOf(title, true), labelRoom - 8, { size: sizes.small, fonts });
  const head = Math.max(1, heading.lines.length) * sizes.small * sizes.leading + 4;
  const tooWide = [heading, ...measured].map((row) => row.tooWide).find((word) => word !== undefined);
  return {
    ...plain,
    height: 6 + head + measured.reduce((sum, row) => sum + row.height, 0),
    name: `table ${title}`,
    ...(tooWide === undefined ? {} : { tooWide }),
    paint: (pen, y) =>
      pen.element('Table', () => {
        paintTableHead(pen, heading.lines, y + 6);
        let top = y + 6 + head;
        for (const row of measured) {
          paintTableRow(pen, row, top);
          top += row.height;
        }
      }),
  };
}

// the words over the boxes stand on the last line of the title, right above them
function paintTableHead(pen: Pen, title: readonly Line[], y: number): void {
  const size = sizes.small;
  const last = y + (Math.max(1, title.length) - 1) * size * sizes.leading;
  pen.element('TR', () => {
    pen.element('TH', () => pen.lines(title, { x: card.left, y, size }));
    for (const [i, word] of (['found', 'left'] as const).entries()) {
      const x = card.left + labelRoom + i * boxWidth;
      pen.element('TH', () => pen.centered(pen.word(word), { x, y: last, size, width: boxWidth }));
    }
  });
}

interface TableRow {
  readonly labelLines: readonly Line[];
  readonly limitLine: readonly Line[];
  readonly limitWidth: number;
  readonly stacked: boolean;
  readonly height: number;
}

function paintTableRow(pen: Pen, row: TableRow, y: number): void {
  const labelHeight = row.labelLines.length * sizes.small * sizes.leading;
  const limitX = row.stacked ? card.left : card.left + labelRoom - 8 - row.limitWidth;
  const limitY = row.stacked ? y + 2 + labelHeight : y + (row.height - sizes.text * sizes.leading) / 2;
  const labelY = row.stacked ? y + 2 : y + (row.height - labelHeight) / 2;
  pen.rule(y, 0.5, labelRoom);
  pen.element('TR', () => {
    pen.element('TH', () => pen.lines(row.labelLines, { x: card.left, y: labelY, size: sizes.small }));
    pen.element('TD', () => pen.lines(row.limitLine, { x: limitX, y: limitY, size: sizes.text }));
    for (const i of [0, 1]) {
      pen.box(card.left + labelRoom + i * boxWidth, y, { width: boxWidth, height: row.height, line: 1 });
    }
  });
}

const sheetRow = 21;

function measureSheet({ title, columns, rows, results }: SheetBlock, setting: Setting): Measured {
  const { fonts } = setting;
  const size = sizes.small;
  const number = 20;
  const width = (room - number) / columns.length;
  const heads = columns.map((label) => wrap(runsOf(label, false), width - 6, { size, fonts }));
  const headHeight = Math.max(...heads.map(({ lines }) => lines.length)) * size * sizes.leading + 4;
  const titleHeight = title === '' ? 0 : size * sizes.leading;
  const resultBlocks = results.map(({ label, limits }) =>
    paragraph([...runsOf(`${label}: `), ...runsOf(limits, true)], setting, {
      tag: 'P',
      above: 4,
      width: room - boxWidth - 8,
    }),
  );
  const resultHeight = resultBlocks.reduce((sum, { height }) => sum + Math.max(height, sheetRow) + 2, 0);
  const tooWide = heads.map((head) => head.tooWide).find((word) => word !== undefined);
  return {
    ...plain,
    height: 6 + titleHeight + headHeight + rows * sheetRow + resultHeight + 4,
    name: `worksheet ${title}`,
    ...(tooWide === undefined ? {} : { tooWide }),
    paint: (pen, y) => {
      let top = y + 6;
      if (title !== '')
        pen.element('P', () => pen.lines([[{ text: title, bold: true }]], { x: card.left, y: top, size }));
      top += titleHeight;
      pen.element('Table', () => {
        pen.element('TR', () => {
          for (const [i, { lines }] of heads.entries()) {
            pen.element('TH', () => pen.lines(lines, { x: card.left + number + i * width + 3, y: top, size }));
          }
        });
        top += headHeight;
        for (let row = 1; row <= rows; row += 1) {
          pen.element('TR', () =>
            pen.element('TH', () =>
              pen.lines([[{ text: String(row), bold: false }]], { x: card.left, y: top + 3, size }),
            ),
          );
          for (const i of columns.keys()) {
            pen.box(card.left + number + i * width, top, { width, height: sheetRow, line: 0.8 });
          }
          top += sheetRow;
        }
      });
      for (const result of resultBlocks) {
        result.paint(pen, top);
        pen.box(card.width - card.right - boxWidth, top + 3, { width: boxWidth, height: sheetRow, line: 1 });
        top += Math.max(result.height, sheetRow) + 2;
      }
    },
  };
}

const panelHead = 20;

/** The signal word on its colour with the alert triangle (none for damage), and the whole caution below. */
export function measurePanel(panel: HazardPanel, { fonts }: Setting): Measured {
  const size = sizes.small;
  const { lines, tooWide } = wrap(runsOf(panel.text), room - 16, { size, fonts });
  const height = 5 + panelHead + lines.length * size * sizes.leading + 7;
  return {
    ...plain,
    height,
    name: `caution ${panel.id}`,
    ...(tooWide === undefined ? {} : { tooWide }),
    paint: (pen, y) =>
      pen.element('Sect', () => {
        const top = y + 5;
        pen.panel(panel.severity, { x: card.left, y: top, width: room, head: panelHead, height: height - 5 });
        const x = card.left + (panel.severity === 'damage' ? 8 : 30);
        pen.element('P', () =>
          pen.lines([[{ text: panel.word, bold: true }]], {
            x,
            y: top + 1.5,
            size: sizes.text,
            color: pen.ink(panel.severity),
          }),
        );
        pen.element('P', () => pen.lines(lines, { x: card.left + 8, y: top + panelHead + 3, size }));
      }),
  };
}
