// The two faces that cards are set in, opened when they are first used: how wide words are, and how a document shows them.

import { type Face, openFace } from './face.js';
import type { Measures } from './text.js';

export interface CardFonts extends Measures {
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

/** The faces from the bytes of two font files. Most checks never open them. */
export function openFonts(regularFile: Uint8Array, boldFile: Uint8Array): CardFonts {
  const opened: { F1?: Face; F2?: Face } = {};
  const faces = {
    get F1(): Face {
      opened.F1 ??= openFace(regularFile);
      return opened.F1;
    },
    get F2(): Face {
      opened.F2 ??= openFace(boldFile);
      return opened.F2;
    },
  };
  const nameOf = (bold: boolean): 'F1' | 'F2' => (bold ? 'F2' : 'F1');
  return {
    widthOf: (text, bold) => faces[nameOf(bold)].widthOf(text),
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

/** The faces of the cards, from the files that come with the program. */
export function cardFonts(files: ReadonlyMap<string, Uint8Array>): CardFonts {
  const face = (weight: number): Uint8Array => {
    const found = [...files].find(([path]) => path.endsWith(`-${weight}-normal.ttf`));
    if (!found) throw new Error(`The face of weight ${weight} did not come with the program`);
    return found[1];
  };
  return openFonts(face(400), face(700));
}
