// Each slip of the keyboard gives exactly one diagnostic, at its place, with a way to mend it.

import { describe, expect, it } from 'vitest';
import { changed, englishFiles, placesOf, read, withoutHints } from './books.js';
import { slips } from './slips-table.js';

const results = new Map<string, ReturnType<typeof readAnew>>();

/** The book with one slip in it; each is read once. */
function readChanged(file: string, from: string, to: string) {
  const key = JSON.stringify([file, from, to]);
  const result = results.get(key) ?? readAnew(file, from, to);
  results.set(key, result);
  return result;
}

function readAnew(file: string, from: string, to: string) {
  const files = new Map(englishFiles);
  files.set(file, changed(files.get(file) ?? '', from, to));
  return { files, ...read(files) };
}

describe('a slip', () => {
  for (const [file, from, to, place, code] of slips) {
    it(`in ${file}: ${JSON.stringify(from)} -> ${JSON.stringify(to)}`, () => {
      const { files, diagnostics } = readChanged(file, from, to);
      expect(placesOf(withoutHints(diagnostics), files)).toEqual([`${file}:${place} ${code}`]);
    });
  }

  it('says what stands there, what was expected and how to mend it', () => {
    const silent = slips.flatMap(([file, from, to]) =>
      withoutHints(readChanged(file, from, to).diagnostics)
        .filter(({ message, help }) => message === '' || (help ?? '') === '')
        .map(({ message }) => message),
    );
    expect(silent).toEqual([]);
  });

  it('is mended by its fix where that is safe', () => {
    const left = slips.flatMap(([file, from, to]) => {
      const { files: slipped, diagnostics } = readChanged(file, from, to);
      const files = new Map(slipped);
      const [edit] = diagnostics.flatMap(({ fixes }) => fixes ?? []).find(({ safe }) => safe)?.edits ?? [];
      if (!edit) return [];
      const text = files.get(file) ?? '';
      files.set(file, text.slice(0, edit.at.start) + edit.text + text.slice(edit.at.end));
      return placesOf(withoutHints(read(files).diagnostics), files);
    });
    expect(left).toEqual([]);
  });
});

describe('the words of a slip', () => {
  const messageOf = (file: string, from: string, to: string): string => {
    const [first] = withoutHints(readChanged(file, from, to).diagnostics);
    return `${first?.message} | ${first?.help}`;
  };

  it('name the nearest key', () => {
    expect(messageOf('book.yaml', 'owner:', 'ownr:')).toBe(
      'Unexpected key `ownr` in the book, expected `owner` | Did you mean `owner`?',
    );
  });

  it('name the key that a strange one stands for', () => {
    const from = 'do: Leave automatic height off.';
    expect(messageOf('sensors/learn-height-range.md', from, from.replace('do:', 'text:'))).toBe(
      'Unexpected key `text` in an entry of `steps`, expected `do` | `do` is missing here: write it in place of `text` if that is meant.',
    );
  });

  it('name the words to choose from, the nearest first', () => {
    expect(messageOf('headers/row-12x20.yaml', 'type: row ', 'type: flexdraper ')).toBe(
      'Unexpected word `flexdraper` for `type`, expected `flex-draper`, `row`, `platform`, `flex-platform`, `draper` or `pickup` | Did you mean `flex-draper`?',
    );
  });

  it('show the line to add', () => {
    expect(messageOf('safety.yaml', '    harm: You can be crushed.\n', '')).toBe(
      '`harm` is missing in `moving-header` | Add a line such as `harm: You can be crushed.`.',
    );
  });

  it('tell where a key belongs that stands in the wrong map', () => {
    const from = 'status: released               #';
    expect(messageOf('sensors/learn-height-range.md', from, `limits: 3 V\n${from}`)).toBe(
      'Unexpected key `limits` in a procedure, expected one of `title`, `kind`, `summary`, `revision`, `status`, `reviewed`, `verified`, `applies`, `skill`, `people`, `time`, `tools`, … | `limits` is a key of: a check value, a column, a result. Move it there, or take it out.',
    );
  });
});
