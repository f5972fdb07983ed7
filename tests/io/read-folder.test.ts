import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findBook, readBookFolder } from '../../src/io.js';

let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'book-'));
  write('book.yaml', 'title: A book\n');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function write(path: string, content: string | Uint8Array): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content);
}

function faults(): readonly string[] {
  return readBookFolder(folder).diagnostics.map(({ code, at }) => `${code} ${at.file}`);
}

describe('a book folder', () => {
  it('gives texts and figures in code-unit order, whatever the order of their making', () => {
    write('sensors/b.md', 'b');
    write('figures/deep/arm.svg', '<svg/>');
    write('Zebra.md', 'z');
    write('a.md', 'a');
    const read = readBookFolder(folder);
    expect([...read.files.keys()]).toEqual(['Zebra.md', 'a.md', 'book.yaml', 'sensors/b.md']);
    expect([...read.figures.keys()]).toEqual(['figures/deep/arm.svg']);
    expect(read.diagnostics).toEqual([]);
  });

  it('passes over hidden files, other files and built output', () => {
    write('.git/a.md', 'x');
    write('.draft.md', 'x');
    write('notes.txt', 'x');
    write('public/.stepgauge-output', 'x');
    write('public/a.md', 'x');
    write('node_modules/x/readme.md', 'x');
    expect([...readBookFolder(folder).files.keys()]).toEqual(['book.yaml']);
    expect(faults()).toEqual([]);
  });

  it('keeps CRLF and skips a byte-order mark', () => {
    write('a.md', '\ufeff---\r\ntitle: x\r\n---\r\n');
    expect(readBookFolder(folder).files.get('a.md')?.text).toBe('---\r\ntitle: x\r\n---\r\n');
  });

  it.each([
    ['a lone continuation byte', [0x61, 0x80], 'byte 1 (line 1)'],
    ['an overlong form', [0x0a, 0xc0, 0xaf], 'byte 1 (line 2)'],
    ['a surrogate', [0xed, 0xa0, 0x80], 'byte 0 (line 1)'],
    ['a sequence cut off by the end', [0x61, 0x62, 0xe2, 0x82], 'byte 2 (line 1)'],
    ['Latin-1', [0x31, 0x30, 0x20, 0xb0, 0x46], 'byte 3 (line 1)'],
    ['beyond the last code point', [0xf4, 0x90, 0x80, 0x80], 'byte 0 (line 1)'],
  ])('says where a file is not UTF-8: %s', (_, bytes, place) => {
    write('a.md', Uint8Array.from(bytes));
    const read = readBookFolder(folder);
    expect(read.diagnostics.map(({ code }) => code)).toEqual(['not-utf-8']);
    expect(read.diagnostics[0]?.message).toContain(place);
    expect(read.files.has('a.md')).toBe(false);
    expect([...read.unread]).toEqual(['a.md']);
  });

  it('knows UTF-16 and files that are no text', () => {
    write('a.md', Uint8Array.from([0xff, 0xfe, 0x61, 0]));
    write('b.md', Uint8Array.from([0x61, 0, 0x62]));
    expect(faults()).toEqual(['not-utf-8 a.md', 'not-text b.md']);
  });

  it('refuses empty and large files, and does not read the large ones', () => {
    write('a.md', '');
    write('b.yaml', ' \r\n');
    write('c.md', new Uint8Array(10_000_000).fill(0x61));
    write('d.md', new Uint8Array(2_000_000).fill(0x61));
    expect(faults()).toEqual(['empty-file a.md', 'empty-file b.yaml', 'file-too-large c.md']);
    expect(readBookFolder(folder).diagnostics[2]?.message).toBe('`c.md` has 10.0 MB, expected at most 2.0 MB');
  });

  it('follows a link to a file of the book, and no other', () => {
    write('a.md', 'a');
    write('sensors/b.md', 'b');
    const outside = mkdtempSync(join(tmpdir(), 'outside-'));
    writeFileSync(join(outside, 'x.md'), 'secret');
    symlinkSync(join(folder, 'a.md'), join(folder, 'copy.md'));
    symlinkSync(join(outside, 'x.md'), join(folder, 'away.md'));
    symlinkSync(outside, join(folder, 'away'));
    symlinkSync('..', join(folder, 'sensors', 'loop'));
    symlinkSync('sensors', join(folder, 'twice'));
    symlinkSync('nowhere', join(folder, 'broken.md'));
    symlinkSync('self.md', join(folder, 'self.md'));
    expect(faults()).toEqual([
      'link-leaves-book away',
      'link-leaves-book away.md',
      'unreadable-file broken.md',
      'unreadable-file self.md',
      'link-loop sensors/loop',
      'linked-folder twice',
    ]);
    expect(readBookFolder(folder).files.get('copy.md')?.text).toBe('a');
    rmSync(outside, { recursive: true });
  });

  it('reports names that some disks cannot tell apart', () => {
    write('sensors/Lower.md', 'a');
    write('sensors/lower.md', 'a');
    write('figures/cafe\u0301.svg', 'a');
    write('figures/caf\u00e9.svg', 'a');
    expect(faults()).toEqual(['name-differs-in-case sensors/lower.md', 'name-differs-in-case figures/caf\u00e9.svg']);
  });

  it('warns of files that their author takes for a part of the book', () => {
    write('machines/tarn-40.yml', 'name: x');
    write('a.markdown', 'x');
    write('B.MD', 'x');
    expect(faults()).toEqual(['unread-file B.MD', 'unread-file a.markdown', 'unread-file machines/tarn-40.yml']);
  });

  it.skipIf(process.getuid?.() === 0)('reports what this user may not read', () => {
    write('a.md', 'a');
    chmodSync(join(folder, 'a.md'), 0);
    expect(faults()).toEqual(['unreadable-file a.md']);
  });

  it('stops at folders that lie deeper than any book goes', () => {
    write(`${'d/'.repeat(30)}a.md`, 'a');
    expect(faults()).toEqual([`folders-too-deep ${'d/'.repeat(20)}d`]);
  });

  it('says why there is no book', () => {
    write('empty/x.txt', '');
    expect(readBookFolder(join(folder, 'gone')).missing).toContain('There is no folder');
    expect(readBookFolder(join(folder, 'book.yaml')).missing).toContain('is no folder');
    expect(readBookFolder(join(folder, 'empty')).missing).toContain('it has no `book.yaml`');
  });
});

describe('the nearest book', () => {
  it('is the first folder upward with a book.yaml', () => {
    mkdirSync(join(folder, 'sensors/deep'), { recursive: true });
    expect(findBook(folder)).toBe('.');
    expect(findBook(join(folder, 'sensors/deep'))).toBe('../..');
  });

  it('is else `procedures/`', () => {
    const above = mkdtempSync(join(tmpdir(), 'above-'));
    expect(findBook(above)).toBeUndefined();
    mkdirSync(join(above, 'procedures'));
    writeFileSync(join(above, 'procedures/book.yaml'), 'title: x\n');
    expect(findBook(above)).toBe('procedures');
    rmSync(above, { recursive: true });
  });
});
