// Whatever is done to good files: reading never throws, every place lies in its file, and the order of files, the line
// endings and a second reading change nothing.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/diagnostic/diagnostic.js';
import { readBook } from '../../src/read/book.js';
import { baseFiles, englishFiles, type Files, formatFiles, placesOf, read, sourcesOf } from './books.js';

const books: readonly Files[] = [englishFiles, formatFiles, baseFiles];

/** Every place that a diagnostic names, its fixes included. */
function spansOf(diagnostic: Diagnostic) {
  const edits = (diagnostic.fixes ?? []).flatMap(({ edits: all }) => all.map(({ at }) => at));
  return [diagnostic.at, ...diagnostic.related.map(({ at }) => at), ...edits];
}

function checkSpans(files: Files): void {
  const { diagnostics } = readBook(sourcesOf(files), new Set());
  for (const diagnostic of diagnostics) {
    for (const { file, start, end } of spansOf(diagnostic)) {
      const text = files.get(file) ?? (file === 'book.yaml' ? '' : undefined);
      if (text === undefined || start < 0 || end < start || end > text.length) {
        throw new Error(`${diagnostic.code} at ${file}:${start}-${end} lies outside its file`);
      }
    }
  }
}

/** One change to one file, as offsets that fit any text. */
const change = fc.record({
  file: fc.nat(),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.nat({ max: 12 }),
  text: fc.oneof(
    fc.constantFrom(
      '',
      ' ',
      '\n',
      ':',
      ': ',
      ' #',
      ',',
      '{',
      '}',
      '[',
      ']',
      '"',
      "'",
      '- ',
      '  ',
      '\t',
      '±',
      '%',
      '{side}',
      'none',
      '0',
      '1e999',
      '-',
      '&a',
      '*a',
      '!!x',
      '---\n',
      '|',
      '>',
      '\u2028',
      '\uD83D\uDE9C',
      'null',
      'true',
      '~',
      '__proto__: 1\n',
    ),
    fc.string({ maxLength: 6 }),
  ),
});

function changeFiles(
  files: Files,
  changes: readonly { file: number; at: number; length: number; text: string }[],
): Files {
  const result = new Map(files);
  const paths = [...files.keys()];
  for (const { file, at, length, text } of changes) {
    const path = paths[file % paths.length] ?? '';
    const old = result.get(path) ?? '';
    const start = Math.floor(at * old.length);
    result.set(path, old.slice(0, start) + text + old.slice(start + length));
  }
  return result;
}

describe('reading', () => {
  it('never throws and stays inside the files, whatever letters are changed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...books), fc.array(change, { minLength: 1, maxLength: 4 }), (files, changes) => {
        checkSpans(changeFiles(files, changes));
      }),
      { numRuns: 150 },
    );
  });

  it('never throws whatever lines are dropped, doubled or exchanged', () => {
    const lines = fc.record({
      file: fc.nat(),
      from: fc.nat(),
      to: fc.nat(),
      kind: fc.constantFrom('drop', 'double', 'swap', 'indent'),
    });
    fc.assert(
      fc.property(fc.constantFrom(...books), lines, (files, { file, from, to, kind }) => {
        const paths = [...files.keys()];
        const path = paths[file % paths.length] ?? '';
        const all = (files.get(path) ?? '').split('\n');
        const [a, b] = [from % all.length, to % all.length];
        const [first = '', second = ''] = [all[a], all[b]];
        if (kind === 'drop') all.splice(a, 1);
        else if (kind === 'double') all.splice(a, 0, first);
        else if (kind === 'indent') all[a] = `  ${first}`;
        else [all[a], all[b]] = [second, first];
        checkSpans(new Map(files).set(path, all.join('\n')));
      }),
      { numRuns: 150 },
    );
  });

  it('never throws whatever value stands in place of another', () => {
    const value = fc.constantFrom(
      '[]',
      '{}',
      '~',
      '""',
      '12',
      '-1',
      'true',
      'none',
      '[[a]]',
      '[{ a: b }]',
      '[{ a: b }, { a: b }]',
      '[{ valueOf: 1 }, { valueOf: 1 }]',
      '{ constructor: 1, toString: [] }',
      '[a, a]',
      '[[], []]',
      '{ a: { b: c } }',
      '{ en: a, es: b }',
      '{ es: b }',
      '"{side}"',
      'all',
      '1 to',
      '± V',
      '*',
    );
    fc.assert(
      fc.property(fc.constantFrom(...books), fc.nat(), fc.nat(), value, (files, file, place, other) => {
        const paths = [...files.keys()];
        const path = paths[file % paths.length] ?? '';
        const text = files.get(path) ?? '';
        const values = [...text.matchAll(/(?<=[\w"]: )[^\n{},[\]]+|\{[^{}\n]*\}|\[[^[\]\n]*\]/g)];
        const found = values[place % Math.max(1, values.length)];
        if (!found) return;
        const changed = text.slice(0, found.index) + other + text.slice(found.index + found[0].length);
        checkSpans(new Map(files).set(path, changed));
      }),
      { numRuns: 250 },
    );
  });

  it('says nothing only of what is whole: a file with a gap is named', () => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 2 }), (changes) => {
        const files = changeFiles(englishFiles, changes);
        const { value: book, diagnostics } = readBook(sourcesOf(files), new Set());
        const faulty = new Set(diagnostics.filter(({ severity }) => severity === 'error').map(({ at }) => at.file));
        for (const path of book?.unread ?? []) expect(faulty).toContain(path);
        const missing = [...files.keys()].filter((path) => path.endsWith('.md') && !path.includes('.es.'));
        const read = new Set([...(book?.procedures.values() ?? [])].map(({ file }) => file));
        for (const path of missing) if (!read.has(path)) expect(faulty).toContain(path);
      }),
      { numRuns: 80 },
    );
  });

  it('does not depend on the order of files', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...formatFiles], { minLength: formatFiles.size }), (shuffled) => {
        expect(readBook(sourcesOf(new Map(shuffled)), new Set())).toEqual(readBook(sourcesOf(formatFiles), new Set()));
      }),
      { numRuns: 10 },
    );
  });

  it('gives the same lines and columns with Windows line endings', () => {
    const faulty = new Map(formatFiles);
    const path = 'sensors/learn-height-range.md';
    const text = (formatFiles.get(path) ?? '').replace('tools: none', 'tools:').replace('2.6 to 3.4 V', '2.6-3.4 V');
    faulty.set(path, text.replace('Prose. `{raised}`', 'Prose. {raised'));
    const windows = new Map([...faulty].map(([name, unix]) => [name, unix.replaceAll('\n', '\r\n')]));
    const expected = placesOf(read(faulty).diagnostics, faulty);
    expect(expected.length).toBeGreaterThan(4);
    expect(placesOf(read(windows).diagnostics, windows)).toEqual(expected);
  });

  it('changes nothing that it is given', () => {
    const sources = new Map([...sourcesOf(formatFiles)].map(([path, file]) => [path, Object.freeze(file)]));
    expect(readBook(sources, Object.freeze(new Set<string>())).diagnostics).toEqual(read(formatFiles).diagnostics);
  });
});

describe('a book', () => {
  it('without book.yaml is no book', () => {
    const { value, diagnostics } = readBook(new Map(), new Set());
    expect(value).toBeUndefined();
    expect(diagnostics.map(({ code, at }) => [code, at])).toEqual([
      ['missing-book', { file: 'book.yaml', start: 0, end: 0 }],
    ]);
  });

  it('whose files could not be opened says so of them, and not that they are missing', () => {
    const unreadable = new Set(['book.yaml']);
    expect(readBook(new Map(), new Set(), { unreadable })).toEqual({ value: undefined, diagnostics: [] });
    const { value } = readBook(sourcesOf(englishFiles), new Set(), { unreadable: new Set(['wrong/odd.md']) });
    expect(value?.unread).toEqual(new Set(['wrong/odd.md']));
  });

  it('may have keys that are called as methods are', () => {
    const states =
      'states:\n  a: { is: [{ valueOf: x }, { toString: y }, { __proto__: z }] }\n  constructor: { is: ["off"] }\n';
    const files = new Map([...englishFiles, ['states.yaml', states] as const]);
    expect(placesOf(read(files).diagnostics, files)).toEqual([]);
    expect(
      read(files)
        .book.states.get('a')
        ?.values.map(({ id }) => id.value),
    ).toEqual(['valueOf', 'toString', '__proto__']);
  });

  it('goes on past a key that is given twice', () => {
    const text = (englishFiles.get('instruments.yaml') ?? '').replace('quantity: mass', 'quanity: mass');
    const files = new Map([...englishFiles, ['instruments.yaml', `${text}display: { quantity: mass }\n`] as const]);
    expect(placesOf(read(files).diagnostics, files)).toEqual([
      'instruments.yaml:3:36-3:43 unknown-key',
      'instruments.yaml:6:1-6:8 duplicate-key',
    ]);
    expect(read(files).book.unread).toEqual(new Set(['instruments.yaml']));
  });

  it('goes on past a file that cannot be read', () => {
    const files = new Map(englishFiles);
    files.set('machines/tarn-40.yaml', 'name: Tarn 40\nheaders: row-12x20\n- a list\n');
    files.set('sensors/wrong-step.md', 'no front matter\n');
    const { book } = read(files);
    expect(book.unread).toEqual(new Set(['machines/tarn-40.yaml', 'sensors/wrong-step.md']));
    expect([...book.procedures.keys()].sort()).toEqual(['everything-else', 'learn-height-range']);
    expect([...book.headers.keys()]).toEqual(['row-12x20']);
  });

  it('reports all independent faults', () => {
    const files = new Map(englishFiles);
    const text = englishFiles.get('sensors/learn-height-range.md') ?? '';
    files.set(
      'sensors/learn-height-range.md',
      text
        .replace('kind: calibration', 'kind: calibrate')
        .replace('tools: none', 'tools:')
        .replace('2.6 to 3.4 V', '2.6-3.4 V')
        .replace('  - id: lower\n', '  - id: raise\n')
        .replace('next: 2027-08-01', 'next: 2027-13-01'),
    );
    files.set(
      'instruments.yaml',
      (englishFiles.get('instruments.yaml') ?? '').replace('quantity: mass', 'quanity: mass'),
    );
    expect(placesOf(read(files).diagnostics, files)).toEqual([
      'instruments.yaml:3:36-3:43 unknown-key',
      'sensors/learn-height-range.md:3:7-3:16 unknown-word',
      'sensors/learn-height-range.md:7:53-7:63 no-such-date',
      'sensors/learn-height-range.md:16:1-16:6 unsaid-none',
      'sensors/learn-height-range.md:51:13-51:17 bad-limits',
      'sensors/learn-height-range.md:63:9-63:14 duplicate-id',
    ]);
  });

  it('has each procedure id once, in small letters and hyphens', () => {
    const text = englishFiles.get('sensors/wrong-step.md') ?? '';
    const files = new Map([
      ...englishFiles,
      ['wrong/wrong-step.md', text] as const,
      ['wrong/Odd_Name.md', text] as const,
    ]);
    expect(placesOf(read(files).diagnostics, files)).toEqual([
      'wrong/Odd_Name.md:1:1-1:4 bad-name',
      'wrong/wrong-step.md:1:1-1:4 duplicate-id',
    ]);
  });

  it('names files that are none of its own', () => {
    const files = new Map([
      ...englishFiles,
      ['instrument.yaml', 'a: b\n'] as const,
      ['machines/old/x.yaml', 'a: b\n'] as const,
    ]);
    const { diagnostics } = read(files);
    expect(diagnostics.map(({ code, severity, at, help }) => [code, severity, at.file, help?.slice(0, 30)])).toEqual([
      ['unknown-file', 'warning', 'instrument.yaml', 'Did you mean `instruments.yaml'],
      ['unknown-file', 'warning', 'machines/old/x.yaml', 'Move it to `machines/` or `hea'],
    ]);
  });

  it('says of an empty file that nothing is in it', () => {
    const files = new Map([
      ...englishFiles,
      ['machines/empty.yaml', '# later\n'] as const,
      ['empty.md', '---\n---\n'] as const,
    ]);
    expect(placesOf(read(files).diagnostics, files)).toEqual([
      'empty.md:1:1-1:4 empty-file',
      'machines/empty.yaml:1:1-1:8 empty-file',
    ]);
  });
});
