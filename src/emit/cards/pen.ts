// Draws on one document: lines of text, rules, boxes, panels; each with its place in the tag tree. Knows no card.

import type { HazardPanel } from './content.js';
import type { CardFonts } from './fonts.js';
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
  readonly squares: (squares: readonly { readonly x: number; readonly y: number }[], side: number) => void;
  readonly ink: (severity: HazardPanel['severity']) => string;
  readonly word: (key: 'found' | 'left') => string;
}

/** Makes a pen for a document whose tag tree grows below `root`. */
export function penFor(
  document: PDFKit.PDFDocument,
  root: PDFKit.PDFStructureElement,
  {
    fonts,
    margin,
    leading,
    word,
  }: { fonts: CardFonts; margin: { left: number; right: number }; leading: number; word: Pen['word'] },
): Pen {
  const open: { element: PDFKit.PDFStructureElement; drawn: boolean }[] = [{ element: root, drawn: false }];
  const artifact = (draw: () => void): void => {
    document.markContent('Artifact', { type: 'Layout' });
    draw();
    document.endMarkedContent();
  };
  /** What is drawn becomes content of the innermost element. */
  const content = (draw: () => void): void => {
    const mark = document.markStructureContent('Span');
    draw();
    document.endMarkedContent();
    open.at(-1)?.element.add(mark);
  };
  const putLine = (line: Line, { x, y, size, color }: Text): void => {
    let left = x;
    for (const { text, bold } of line) {
      document
        .font(bold ? 'bold' : 'regular')
        .fontSize(size)
        .fillColor(color ?? '#000000');
      document.text(text, left, y + size * (leading - 1) * 0.5 + size * 0.93, {
        lineBreak: false,
        baseline: 'alphabetic',
      });
      left += fonts.widthOf(text, bold) * size;
    }
  };
  const put: Pen['lines'] = (lines, at) =>
    content(() => {
      for (const [i, line] of lines.entries()) {
        // A blank that ends a line joins it to the next for whoever takes the text out again.
        const joined = i < lines.length - 1 ? withBlank(line) : line;
        putLine(joined, { ...at, y: at.y + i * at.size * leading });
      }
    });
  return {
    element: (tag, draw, options = {}) => {
      const element = document.struct(tag, options);
      open.at(-1)?.element.add(element);
      open.push({ element, drawn: false });
      draw();
      open.pop();
      element.end();
    },
    lines: put,
    centered: (text, { width, ...at }) => {
      const line: Line = [{ text, bold: false }];
      put([line], { ...at, x: at.x + (width - lineWidth(line, { size: at.size, fonts })) / 2 });
    },
    rule: (y, line, width) =>
      artifact(() => {
        const right = width === undefined ? document.page.width - margin.right : margin.left + width;
        document
          .lineWidth(line)
          .strokeColor(line < 1 ? '#777777' : '#000000')
          .moveTo(margin.left, y)
          .lineTo(right, y)
          .stroke();
      }),
    box: (x, y, { width, height, line }) =>
      artifact(() => document.lineWidth(line).strokeColor('#000000').rect(x, y, width, height).stroke()),
    panel: (severity, at) => artifact(() => drawPanel(document, severity, at)),
    squares: (squares, side) =>
      content(() => {
        for (const { x, y } of squares) document.rect(x, y, side, side);
        document.fillColor('#000000').fill();
      }),
    ink: (severity) => panels[severity].ink,
    word,
  };
}

function withBlank(line: Line): Line {
  const last = line.at(-1);
  return last ? [...line.slice(0, -1), { ...last, text: `${last.text} ` }] : line;
}

function drawPanel(
  document: PDFKit.PDFDocument,
  severity: HazardPanel['severity'],
  { x, y, width, head, height }: { x: number; y: number; width: number; head: number; height: number },
): void {
  const { ground, ink } = panels[severity];
  document.rect(x, y, width, head).fillColor(ground).fill();
  document.lineWidth(1.6).strokeColor('#000000').rect(x, y, width, height).stroke();
  if (severity === 'damage') return;
  // The safety alert sign: drawn as paths, since the face has no such sign.
  const [left, top, side] = [x + 8, y + 3.5, 15];
  document.lineWidth(1.5).strokeColor(ink).fillColor(ink);
  document
    .moveTo(left + side / 2, top)
    .lineTo(left + side, top + 13)
    .lineTo(left, top + 13)
    .closePath()
    .stroke();
  document.rect(left + side / 2 - 0.8, top + 4.4, 1.6, 4.4).fill();
  document.rect(left + side / 2 - 0.8, top + 9.8, 1.6, 1.6).fill();
}
