// Writes src/emit/cards/widest-signs.ts from the faces of the cards, so that a check opens none of them. Run it after
// `npm run build` where the faces have changed; a test says when that was forgotten.

import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');
const { openFace } = await import(join(root, 'dist/emit/cards/face.js'));

const faces = [400, 700].map((weight) =>
  openFace(readFileSync(join(root, `dist/card-fonts/b612-latin-${weight}-normal.ttf`))),
);
/** Stands for every sign that a face lacks. */
const missing = '\uffff';
const signs = [...new Set(faces.flatMap((face) => face.signs)), missing];

/** A sign with the most that its pair with any other adds, in thousandths. */
function widestOf(face, sign) {
  const alone = face.widthOf(sign);
  const pairs = signs.map((next) => face.widthOf(sign + next) - face.widthOf(next));
  return Math.ceil(Math.max(alone, ...pairs) * 1000 - 1e-6);
}

const byWidth = new Map();
for (const sign of signs) {
  const width = Math.max(...faces.map((face) => widestOf(face, sign)));
  byWidth.set(width, (byWidth.get(width) ?? '') + sign);
}
const numbered = (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
const quote = (text) => `'${text.replace(/['\\]/g, '\\$&').replace(/[\u00a0\u00ad\uffff]/g, numbered)}'`;
const lines = [...byWidth].sort(([a], [b]) => a - b).map(([width, all]) => `  [${width}, ${quote(all)}],`);
const target = join(root, 'src/emit/cards/widest-signs.ts');
writeFileSync(
  target,
  `// How wide the signs of the cards' faces are at most. Made by tests/scripts/widest-signs.mjs; change the faces, not this file.

/** In thousandths of the size, and the signs of which none takes more, whatever follows it. U+FFFF stands for all others. */
export const widestSigns: readonly (readonly [width: number, signs: string])[] = [
${lines.join('\n')}
];
`,
);
execFileSync(process.execPath, [join(root, 'node_modules/@biomejs/biome/bin/biome'), 'format', '--write', target]);
