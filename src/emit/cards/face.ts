// One face of the cards: the glyphs of its signs, how wide they are, which pairs stand closer, and the objects that hold it
// in a PDF. There are two cuts of it, made once: cutting a face to each card's own signs takes longer than drawing the card.

import { createRequire } from 'node:module';
import { deflateSync } from 'node:zlib';

/** A sign as this face has it. */
interface Glyph {
  readonly sign: string;
  /** Its number in both cuts of the face. */
  readonly index: number;
  /** The number as content of a page shows it: four hexadecimal digits. */
  readonly code: string;
  /** In thousandths of the size. */
  readonly advance: number;
}

export interface Face {
  /** Width of a text in points at a size of one point, pairs drawn together. */
  readonly widthOf: (text: string) => number;
  /** Every sign of the face, plain ones first. */
  readonly signs: readonly string[];
  /** A text as operand of `TJ`: glyphs, and between them how far to go back. */
  readonly operandOf: (text: string) => string;
  /** Whether the plain cut has all signs of a text. */
  readonly isPlain: (text: string) => boolean;
  /** Puts a cut of the face into a document, below the reference that pages name it by. */
  readonly embed: (document: PDFKit.PDFDocument, reference: PDFKit.PDFKitReference, cut: 'plain' | 'whole') => void;
}

/** What is used of a font as fontkit opens it. Lengths are in units of the face. */
interface OpenFont {
  readonly unitsPerEm: number;
  readonly numGlyphs: number;
  readonly postscriptName: string;
  readonly italicAngle: number;
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  readonly xHeight: number;
  readonly bbox: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
  readonly characterSet: readonly number[];
  glyphForCodePoint(code: number): { readonly id: number; readonly advanceWidth: number };
  createSubset(): { includeGlyph(id: number): number; encode(): Uint8Array };
  getGlyph(index: number): { readonly advanceWidth: number };
  layout(text: string): { readonly advanceWidth: number };
}

/** What most cards are written in: ASCII, and the signs of numbers and sentences. */
const plainSigns = String.fromCharCode(
  ...Array.from({ length: 95 }, (_, i) => 32 + i),
  ...[...'\u00a0°±·×–—‘’“”…'].map((sign) => sign.charCodeAt(0)),
);

/** Opens a face from the bytes of a TrueType file whose glyphs stand for one sign each. */
export function openFace(bytes: Uint8Array): Face {
  const font = openFont(bytes);
  const signs = orderSigns(font);
  const { glyphOf, kernOf } = measuring(font, signs);
  const plain = signs.filter((sign) => plainSigns.includes(sign));
  const beyondPlain = new RegExp(`[^${plain.map((sign) => `\\u${hexadecimal(sign.charCodeAt(0))}`).join('')}]`);
  return {
    signs,
    widthOf: (text) => {
      let width = 0;
      let before: Glyph | undefined;
      for (let i = 0; i < text.length; i += 1) {
        const glyph = glyphOf(text.charCodeAt(i));
        width += before ? glyph.advance + kernOf(before, glyph) : glyph.advance;
        before = glyph;
      }
      return width / 1000;
    },
    operandOf: (text) => {
      let codes = '';
      let before: Glyph | undefined;
      for (let i = 0; i < text.length; i += 1) {
        const glyph = glyphOf(text.charCodeAt(i));
        const kern = before ? kernOf(before, glyph) : 0;
        codes += kern === 0 ? glyph.code : `>${-kern}<${glyph.code}`;
        before = glyph;
      }
      return `[<${codes}>]`;
    },
    isPlain: (text) => !beyondPlain.test(text),
    embed: embedding(font, { plain, whole: signs }),
  };
}

/** The signs of a face, plain ones first: a sign's glyph has the same number in the plain cut and in the whole. */
function orderSigns(font: OpenFont): readonly string[] {
  const all = new Set(
    font.characterSet.filter((code) => code > 31 && code < 0xffff).map((code) => String.fromCharCode(code)),
  );
  const plain = [...plainSigns].filter((sign) => all.has(sign));
  return [...plain, ...[...all].filter((sign) => !plain.includes(sign))];
}

interface Measuring {
  /** The glyph of a UTF-16 code unit: faces of cards have no sign that takes two. */
  readonly glyphOf: (unit: number) => Glyph;
  /** How much wider than its two glyphs a pair is, in thousandths; nearly always 0 or less. */
  readonly kernOf: (before: Glyph, glyph: Glyph) => number;
}

/** Asks the font once for each pair that is met. */
function measuring(font: OpenFont, signs: readonly string[]): Measuring {
  const scale = 1000 / font.unitsPerEm;
  const glyphs = new Map(
    signs.map((sign, i) => {
      const index = i + 1;
      const advance = font.glyphForCodePoint(sign.charCodeAt(0)).advanceWidth * scale;
      return [sign.charCodeAt(0), { sign, index, code: hexadecimal(index), advance }];
    }),
  );
  const missing = { sign: '\uffff', index: 0, code: '0000', advance: font.getGlyph(0).advanceWidth * scale };
  const kerns = new Float64Array((signs.length + 1) ** 2).fill(Number.NaN);
  return {
    glyphOf: (unit) => glyphs.get(unit) ?? missing,
    kernOf: (before, glyph) => {
      const pair = before.index * (signs.length + 1) + glyph.index;
      const known = kerns[pair];
      if (known !== undefined && !Number.isNaN(known)) return known;
      const kern = font.layout(before.sign + glyph.sign).advanceWidth * scale - before.advance - glyph.advance;
      kerns[pair] = kern;
      return kern;
    },
  };
}

/** Opened by pdfkit, which knows how to read what a document may hold. It is loaded here: a check seldom comes to this. */
function openFont(bytes: Uint8Array): OpenFont {
  const PDFDocument = createRequire(import.meta.url)('pdfkit') as new (
    options: PDFKit.PDFDocumentOptions,
  ) => PDFKit.PDFDocument;
  const document = new PDFDocument({ autoFirstPage: false, font: '' });
  document.font(Buffer.from(bytes));
  return (document as unknown as { readonly _font: { readonly font: OpenFont } })._font.font;
}

function hexadecimal(code: number): string {
  return code.toString(16).padStart(4, '0');
}

/** A face with some of its signs, as a document takes it. */
interface Cut {
  readonly length: number;
  readonly file: Uint8Array;
  readonly unicode: Uint8Array;
  readonly widths: readonly number[];
}

function cutFace(font: OpenFont, signs: readonly string[]): Cut {
  const ids = [0, ...signs.map((sign) => font.glyphForCodePoint(sign.charCodeAt(0)).id)];
  const subset = font.createSubset();
  for (const id of ids) subset.includeGlyph(id);
  const file = subset.encode();
  const scale = 1000 / font.unitsPerEm;
  return {
    length: file.length,
    file: deflateSync(file),
    unicode: deflateSync(unicodeMap(signs)),
    widths: ids.map((id) => font.getGlyph(id).advanceWidth * scale),
  };
}

/** The objects of a composite font (ISO 32000-1, 9.7) whose codes are the numbers of the glyphs. A face has at most 256. */
function embedding(font: OpenFont, signs: Readonly<Record<'plain' | 'whole', readonly string[]>>): Face['embed'] {
  const scale = 1000 / font.unitsPerEm;
  const cuts: { plain?: Cut; whole?: Cut } = {};
  return (document, reference, wanted) => {
    cuts[wanted] ??= cutFace(font, signs[wanted]);
    const cut = cuts[wanted];
    const name = `${wanted === 'plain' ? 'PLAINC' : 'WHOLEC'}+${font.postscriptName}`;
    const put = (entries: object, content?: Uint8Array): PDFKit.PDFKitReference => {
      const reference = document.ref(entries);
      reference.end(content);
      return reference;
    };
    const { minX, minY, maxX, maxY } = font.bbox;
    const descriptor = put({
      Type: 'FontDescriptor',
      FontName: name,
      // Not one of the standard sets of signs (ISO 32000-1, table 123).
      Flags: 1 << 2,
      FontBBox: [minX, minY, maxX, maxY].map((length) => length * scale),
      ItalicAngle: font.italicAngle,
      Ascent: font.ascent * scale,
      Descent: font.descent * scale,
      CapHeight: font.capHeight * scale,
      XHeight: font.xHeight * scale,
      StemV: 0,
      FontFile2: put({ Filter: 'FlateDecode', Length1: cut.length }, cut.file),
    });
    const descendant = put({
      Type: 'Font',
      Subtype: 'CIDFontType2',
      BaseFont: name,
      CIDSystemInfo: { Registry: new String('Adobe'), Ordering: new String('Identity'), Supplement: 0 },
      FontDescriptor: descriptor,
      W: [0, cut.widths],
      CIDToGIDMap: 'Identity',
    });
    Object.assign(reference.data, {
      Type: 'Font',
      Subtype: 'Type0',
      BaseFont: name,
      Encoding: 'Identity-H',
      DescendantFonts: [descendant],
      ToUnicode: put({ Filter: 'FlateDecode' }, cut.unicode),
    });
    reference.end(undefined);
  };
}

/** Which sign each glyph stands for, so that the text can be taken out again (ISO 32000-1, 9.10.3). */
function unicodeMap(signs: readonly string[]): string {
  const all = ['<0000>', ...signs.map((sign) => `<${hexadecimal(sign.charCodeAt(0))}>`)];
  return `/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <ffff>
endcodespacerange
1 beginbfrange
<0000> <${hexadecimal(all.length - 1)}> [${all.join(' ')}]
endbfrange
endcmap
CMapName currentdict /CMap defineresource pop
end
end
`;
}
