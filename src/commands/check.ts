// `stepgauge check`: everything short of writing a site. With `--fix` it writes the book itself, with `--proof` what was proved.

import { join } from 'node:path';
import { proofBudget } from '../compile.js';
import { locator } from '../diagnostic/locate.js';
import { gatherProof } from '../emit/open-data/proof.js';
import { type FixedBook, fixBook } from '../fix.js';
import { rewriteText, writeWholeFile } from '../io.js';
import { type Loaded, makeLoader, report } from './load.js';
import { Misuse } from './misuse.js';
import type { CheckCommandOptions } from './options.js';
import type { Terminal } from './terminal.js';

/** Gives the exit code: 0 clean, 1 errors found. */
export function runCheck(book: string | undefined, options: CheckCommandOptions, terminal: Terminal): number {
  const { proof } = options;
  if (typeof proof === 'string' && !proof.endsWith('.json')) {
    throw new Misuse(
      `The proof is written as JSON, and \`${proof}\` does not end in \`.json\`: say \`--proof proof.json\`. The book is named before it: \`stepgauge check ${proof} --proof\``,
    );
  }
  const load = makeLoader();
  let loaded = load(book, options);
  if (options.fix && mend(loaded, options, terminal)) loaded = load(loaded.folder, options);
  // what is printed as data must stay whole: all else goes where messages go
  report(loaded, options, proof === true ? { ...terminal, out: terminal.err } : terminal, true);
  if (proof !== undefined) {
    const text = proofText(loaded);
    if (proof === true) terminal.out(text);
    else writeWholeFile(proof, text);
  }
  return loaded.holds ? 0 : 1;
}

/** Makes the safe fixes in the files of the book, and says which; whether there were any. */
function mend(loaded: Loaded, { only }: CheckCommandOptions, terminal: Terminal): boolean {
  const fixed = fixBook(loaded.input, loaded.check, only);
  const changed = [...fixed.sources.values()].filter(({ path, text }) => loaded.sources.get(path)?.text !== text);
  for (const { path, text } of changed)
    rewriteText(join(loaded.folder, path), loaded.sources.get(path)?.text ?? '', text);
  terminal.err(sayFixed(fixed, changed.length));
  return changed.length > 0;
}

function sayFixed({ applied }: FixedBook, files: number): string {
  const lines = applied.map(({ diagnostic: { code, at }, fix, within }) => {
    const { file, start } = locator(within)(at);
    return `fixed ${file}:${start.line}:${start.column} ${fix.title} [${code}]\n`;
  });
  const count = `${applied.length} ${applied.length === 1 ? 'fault' : 'faults'} in ${files} ${files === 1 ? 'file' : 'files'}`;
  return applied.length === 0 ? 'Nothing can be fixed without asking.\n' : `${lines.join('')}Fixed ${count}.\n`;
}

function proofText({ checked: { resolved, proofs } }: Loaded): string {
  if (!resolved) throw new Misuse('Nothing was proved: the book has no `book.yaml` that can be read');
  return `${JSON.stringify(gatherProof({ resolved, proofs, bound: proofBudget }), null, 2)}\n`;
}
