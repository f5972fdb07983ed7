// The two faces that cards are set in, opened once: how wide words are, which signs they lack, and how a document takes them.

import PDFDocument from 'pdfkit';

export interface CardFonts {
  /** Width of a word in points at a size of one point. */
  readonly widthOf: (word: string, bold: boolean) => number;
  /** Signs of a text that the faces have no picture of. */
  readonly lacking: (text: string) => readonly string[];
  /** Gives a document both faces, by the names `regular` and `bold`. */
  readonly register: (document: PDFKit.PDFDocument) => void;
}

/** A face as pdfkit holds it: opening one takes longer than a card, so all documents share what was opened. */
interface OpenFace {
  readonly font: { hasGlyphForCodePoint(code: number): boolean };
  readonly id: string;
  widthOfString(text: string, size: number): number;
}

interface Insides {
  _font: OpenFace;
  _fontFamilies: Record<string, OpenFace>;
}

/** Opens the faces from the bytes of two font files. */
export function openFonts(regular: Uint8Array, bold: Uint8Array): CardFonts {
  const faces = { regular: openFace(regular), bold: openFace(bold) };
  const widths = new Map<string, number>();
  return {
    widthOf: (word, isBold) => {
      const key = (isBold ? 'b' : 'r') + word;
      const known = widths.get(key);
      if (known !== undefined) return known;
      const width = (isBold ? faces.bold : faces.regular).widthOfString(word, 1000) / 1000;
      widths.set(key, width);
      return width;
    },
    lacking: (text) =>
      [...new Set(text)].filter((sign) => !faces.regular.font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0)),
    register: (document) => {
      const insides = document as unknown as Insides;
      for (const [name, face] of Object.entries(faces)) {
        const Face = face.constructor as new (document: unknown, font: unknown, id: string) => OpenFace;
        insides._fontFamilies[name] = new Face(document, face.font, name === 'bold' ? 'F2' : 'F1');
      }
    },
  };
}

function openFace(bytes: Uint8Array): OpenFace {
  const document = new PDFDocument({ autoFirstPage: false });
  document.font(Buffer.from(bytes));
  return (document as unknown as Insides)._font;
}
