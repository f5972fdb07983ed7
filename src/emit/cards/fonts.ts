// The two faces that cards are set in, opened once: how wide words are, which signs they lack, and how a document shows them.

import { openFace } from './face.js';

export interface CardFonts {
  /** Width of a text in points at a size of one point. */
  readonly widthOf: (text: string, bold: boolean) => number;
  /** Signs of a text that the faces have no picture of. */
  readonly lacking: (text: string) => readonly string[];
  /** Begins to set a document in the faces. */
  readonly set: (document: PDFKit.PDFDocument) => SetFonts;
}

/** The faces as one document has them. */
export interface SetFonts {
  /** What each page that shows text has among its fonts. */
  readonly references: Readonly<Record<'F1' | 'F2', PDFKit.PDFKitReference>>;
  /** Operators of a page's content that show a text at a size, where its text matrix stands. */
  readonly show: (text: string, bold: boolean, size: number) => string;
  /** Puts the faces into the document, cut to what was shown. */
  readonly embed: () => void;
}

/** Opens the faces from the bytes of two font files. */
export function openFonts(regularFile: Uint8Array, boldFile: Uint8Array): CardFonts {
  const faces = { F1: openFace(regularFile), F2: openFace(boldFile) };
  const nameOf = (bold: boolean): 'F1' | 'F2' => (bold ? 'F2' : 'F1');
  return {
    widthOf: (text, bold) => faces[nameOf(bold)].widthOf(text),
    lacking: faces.F1.lacking,
    set: (document) => {
      const references = { F1: document.ref({}), F2: document.ref({}) };
      const cuts = { F1: 'plain', F2: 'plain' } as { F1: 'plain' | 'whole'; F2: 'plain' | 'whole' };
      return {
        references,
        show: (text, bold, size) => {
          const name = nameOf(bold);
          if (!faces[name].isPlain(text)) cuts[name] = 'whole';
          return `/${name} ${size} Tf ${faces[name].operandOf(text)} TJ`;
        },
        embed: () => {
          for (const name of ['F1', 'F2'] as const) faces[name].embed(document, references[name], cuts[name]);
        },
      };
    },
  };
}
