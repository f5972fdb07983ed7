// Draws on one document: lines of text, rules, boxes, panels; each with its place in the tag tree. Knows no card.

import type { HazardPanel } from './content.js';
import type { CardFonts, SetFonts } from './fonts.js';
import { type Line, lineWidth } from './text.js';

/** Colours of the safety panels (ISO 3864 by RAL, as on screens) and the ink that reads on them. */
const panels: Readonly<Record<HazardPanel['severity'], { readonly ground: string; readonly ink: string }>> = {
  'will-kill': { ground: '#9B2423', ink: '#ffffff' },
  'may-kill': { ground: '#D05D29', ink: '#000000' },
  'may-injure': { ground: '#F9A800', ink: '#000000' },
  damage: { ground: '#005387', ink: '#ffffff' },
};

interface Text {
  readonly x: number;
  /** The top of the first line. */
  readonly y: number;
  readonly size: number;
  readonly color?: string;
}

export interface Pen {
  /** Everything drawn in `draw` belongs to a new element of the tag tree. */
  readonly element: (tag: string, draw: () => void, options?: PDFKit.Mixins.StructureElementOptions) => void;
  readonly lines: (lines: readonly Line[], at: Text) => void;
  readonly centered: (text: string, at: Text & { readonly width: number }) => void;
  /** A line across the card, or from the left margin over a width. */
  readonly rule: (y: number, line: number, width?: number) => void;
  readonly box: (x: number, y: number, size: { width: number; height: number; line: number }) => void;
  readonly panel: (
    severity: HazardPanel['severity'],
    at: { x: number; y: number; width: number; head: number; height: number },
  ) => void;
  /** A picture of squares, by rows, true where one is dark. */
  readonly squares: (rows: readonly (readonly boolean[])[], at: { x: number; y: number; side: number }) => void;
  readonly ink: (severity: HazardPanel['severity']) => string;
  readonly word: (key: 'found' | 'left') => string;
}

/** What a pen writes with. */
interface Hand {
  readonly fonts: CardFonts;
  readonly show: SetFonts['show'];
  readonly margin: { readonly left: number; readonly right: number };
  readonly leading: number;
  readonly word: Pen['word'];
}

/** Makes a pen for a document whose tag tree grows below `root`. */
export function penFor(
  document: PDFKit.PDFDocument,
  root: PDFKit.PDFStructureElement,
  { fonts, show, margin, leading, word }: Hand,
): Pen {
  const open: PDFKit.PDFStructureElement[] = [root];
  const artifact = (operators: readonly string[]): void => {
    document.addContent(`/Artifact << /Type /Layout >> BDC\n${operators.join('\n')}\nEMC`);
  };
  /** What the operators draw becomes content of the innermost element. */
  const content = (operators: readonly string[]): void => {
    const mark = document.markStructureContent('Span');
    document.addContent(operators.join('\n'));
    document.endMarkedContent();
    open.at(-1)?.add(mark);
  };
  const put: Pen['lines'] = (lines, { x, y, size, color }) => {
    const shown = lines.map((line, i) => {
      // A blank that ends a line joins it to the next for whoever takes the text out again.
      const joined = i < lines.length - 1 ? withBlank(line) : line;
      const base = y + i * size * leading + size * (leading - 1) * 0.5 + size * 0.93;
      // The page counts downwards, glyphs upwards: the matrix turns each line over.
      return `1 0 0 -1 ${decimals(x, base)} Tm ${joined.map(({ text, bold }) => show(text, bold, size)).join(' ')}`;
    });
    content([`${filled(color ?? black)} BT`, ...shown, 'ET']);
  };
  return {
    element: (tag, draw, options = {}) => {
      const element = document.struct(tag, options);
      open.at(-1)?.add(element);
      open.push(element);
      draw();
      open.pop();
      element.end();
    },
    lines: put,
    centered: (text, { width, ...at }) => {
      const line: Line = [{ text, bold: false }];
      put([line], { ...at, x: at.x + (width - lineWidth(line, { size: at.size, fonts })) / 2 });
    },
    rule: (y, line, width) => {
      const right = width === undefined ? document.page.width - margin.right : margin.left + width;
      const path = `${decimals(margin.left, y)} m ${decimals(right, y)} l`;
      artifact([`${decimals(line)} w ${stroked(line < 1 ? grey : black)} ${path} S`]);
    },
    box: (x, y, { width, height, line }) =>
      artifact([`${decimals(line)} w ${stroked(black)} ${decimals(x, y, width, height)} re S`]),
    panel: (severity, at) => artifact(panelOf(severity, at)),
    squares: (rows, { x, y, side }) =>
      content([
        `q ${decimals(side, 0, 0, side, x, y)} cm ${filled(black)}`,
        ...rows.map((row, i) =>
          stretches(row)
            .map(({ from, length }) => `${from} ${i} ${length} 1 re`)
            .join(' '),
        ),
        'f Q',
      ]),
    ink: (severity) => panels[severity].ink,
    word,
  };
}

const black = '#000000';
const grey = '#777777';

/** A colour as the three numbers that content of a page writes. */
function channels(color: string): string {
  return decimals(...[1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255));
}

function filled(color: string): string {
  return `${channels(color)} rg`;
}

function stroked(color: string): string {
  return `${channels(color)} RG`;
}

/** Where a row is dark: squares side by side are one stretch, so that no hair of white shows between them. */
function stretches(row: readonly boolean[]): readonly { readonly from: number; readonly length: number }[] {
  const found: { from: number; length: number }[] = [];
  for (const [x, dark] of row.entries()) {
    const last = found.at(-1);
    if (!dark) continue;
    if (last && last.from + last.length === x) last.length += 1;
    else found.push({ from: x, length: 1 });
  }
  return found;
}

/** Numbers as content of a page writes them: no exponent, a ten thousandth at the finest. */
function decimals(...numbers: readonly number[]): string {
  return numbers.map((number) => String(Math.round(number * 10000) / 10000)).join(' ');
}

function withBlank(line: Line): Line {
  const last = line.at(-1);
  return last ? [...line.slice(0, -1), { ...last, text: `${last.text} ` }] : line;
}

function panelOf(
  severity: HazardPanel['severity'],
  { x, y, width, head, height }: { x: number; y: number; width: number; head: number; height: number },
): readonly string[] {
  const { ground, ink } = panels[severity];
  const frame = [
    `${filled(ground)} ${decimals(x, y, width, head)} re f`,
    `1.6 w ${stroked(black)} ${decimals(x, y, width, height)} re S`,
  ];
  if (severity === 'damage') return frame;
  // The safety alert sign: drawn as paths, since the face has no such sign.
  const [left, top, side] = [x + 8, y + 3.5, 15];
  const middle = left + side / 2;
  return [
    ...frame,
    `1.5 w ${stroked(ink)} ${filled(ink)}`,
    `${decimals(middle, top)} m ${decimals(left + side, top + 13)} l ${decimals(left, top + 13)} l s`,
    `${decimals(middle - 0.8, top + 4.4, 1.6, 4.4)} re ${decimals(middle - 0.8, top + 9.8, 1.6, 1.6)} re f`,
  ];
}
