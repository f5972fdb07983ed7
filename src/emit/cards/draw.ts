// A laid-out card into a PDF: real text, a tag tree, the code to scan. Same content, same bytes.

import PDFDocument from 'pdfkit';
import type { CardContent } from './content.js';
import type { CardFonts } from './fonts.js';
import type { Face, Head, Layout } from './layout.js';
import { card, sizes } from './measure.js';
import { type Pen, penFor } from './pen.js';
import { codeFor, codeSide, quietZone } from './printed-code.js';
import { cardWord } from './words.js';

/**
 * A document that keeps the parts of its file as it writes them. A stream would hand each on at a later turn, and until then
 * the documents of all cards would stay in memory: nothing here waits for a turn.
 */
class Sheets extends PDFDocument {
  // no initial value: the first parts are written before one could be set
  declare parts?: Uint8Array[];

  override push(part: Uint8Array | null): boolean {
    this.parts ??= [];
    if (part) this.parts.push(part);
    return true;
  }
}

/** Draws a card, a page for each face. */
export function drawCard(content: CardContent, layout: Layout, fonts: CardFonts): Uint8Array {
  const made = new Date(`${content.date}T00:00:00Z`);
  const document = new Sheets({
    size: [card.width, card.height],
    margin: 0,
    autoFirstPage: false,
    font: '',
    tagged: true,
    pdfVersion: '1.7',
    lang: content.language,
    displayTitle: true,
    info: {
      Title: `${content.title}, ${content.rig}`,
      Producer: 'Stepgauge',
      Creator: 'Stepgauge',
      CreationDate: made,
      ModDate: made,
    },
  });
  const set = fonts.set(document);
  const root = document.struct('Document');
  document.addStructure(root);
  const word: Pen['word'] = (key) => cardWord(content.language, key);
  const margin = { left: card.left, right: card.right };
  const pen = penFor(document, root, { fonts, show: set.show, margin, leading: sizes.leading, word });
  for (const [i, face] of layout.faces.entries()) {
    document.addPage();
    Object.assign(document.page.fonts, set.references);
    drawFace(pen, face, { content, fonts, page: i + 1, pages: layout.faces.length });
  }
  root.end();
  set.embed();
  document.end();
  return new Uint8Array(Buffer.concat(document.parts ?? []));
}

interface Sheet {
  readonly content: CardContent;
  readonly fonts: CardFonts;
  readonly page: number;
  readonly pages: number;
}

function drawFace(pen: Pen, face: Face, sheet: Sheet): void {
  drawHead(pen, face.head, sheet);
  let list: (() => void)[] = [];
  const flush = (): void => {
    const steps = list;
    list = [];
    if (steps.length === 0) return;
    pen.element('L', () => {
      for (const paint of steps) paint();
    });
  };
  for (const { block, y } of face.placed) {
    // Steps that follow one another are one list of the tag tree.
    if (block.name.startsWith('step ')) list.push(() => block.paint(pen, y));
    else {
      flush();
      block.paint(pen, y);
    }
  }
  flush();
  drawFoot(pen, sheet);
}

function drawHead(pen: Pen, { title, titleSize, below, height }: Head, { content, page }: Sheet): void {
  let y = card.top;
  pen.element(page === 1 ? 'H1' : 'P', () => pen.lines(title.lines, { x: card.left, y, size: titleSize }));
  y += title.lines.length * titleSize * 1.2;
  for (const { lines } of below) {
    pen.element('P', () => pen.lines(lines, { x: card.left, y, size: sizes.small }));
    y += lines.length * sizes.small * sizes.leading;
  }
  if (page === 1) {
    const alt = cardWord(content.language, 'code', { url: content.url });
    pen.element('Figure', () => drawCode(pen, content.url), { alt });
  }
  pen.rule(card.top + height - 2, 2.2);
}

function drawCode(pen: Pen, url: string): void {
  const { data, size } = codeFor(url);
  const side = codeSide / (size + 2 * quietZone);
  const x = card.width - card.right - codeSide + quietZone * side;
  pen.squares(data, { x, y: card.top + quietZone * side, side });
}

function drawFoot(pen: Pen, { content, fonts, page, pages }: Sheet): void {
  const y = card.height - card.bottom - sizes.small * sizes.leading;
  const size = sizes.small;
  const right = `${cardWord(content.language, 'of', { page, pages })} · ${content.code}`;
  pen.rule(y - 4, 2.2);
  pen.element('P', () => pen.lines([[{ text: content.issue, bold: false }]], { x: card.left, y, size }));
  const x = card.width - card.right - fonts.widthOf(right, false) * size;
  pen.element('P', () => pen.lines([[{ text: right, bold: false }]], { x, y, size }));
}
