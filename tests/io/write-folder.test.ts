import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { FileProblem, readTree, writeFolder, writeNewFile, writeNewFolder } from '../../src/io.js';

let above = '';
let out = '';
/** No process has it: above the largest that Linux gives out. */
const gonePid = 4_194_305;

beforeEach(() => {
  above = mkdtempSync(join(tmpdir(), 'out-'));
  out = join(above, 'public');
});
afterEach(() => rmSync(above, { recursive: true, force: true }));

const names = (folder: string): readonly string[] => readdirSync(folder).sort();

describe('writing a folder', () => {
  it('writes all files, replaces what it wrote before, and leaves nothing else behind', () => {
    writeFolder(
      out,
      new Map([
        ['a/b.html', 'old'],
        ['gone.html', 'x'],
      ]),
    );
    writeFolder(
      out,
      new Map<string, string | Uint8Array>([
        ['a/b.html', 'new'],
        ['c.bin', Uint8Array.from([1, 2])],
      ]),
    );
    expect(names(out)).toEqual(['.stepgauge-output', 'a', 'c.bin']);
    expect(readFileSync(join(out, 'a/b.html'), 'utf8')).toBe('new');
    expect(names(above)).toEqual(['public']);
  });

  it('writes into an empty folder, and makes the folders above', () => {
    mkdirSync(out);
    writeFolder(out, new Map([['a', '1']]));
    writeFolder(join(above, 'x/y/z'), new Map([['a', '1']]));
    expect([...readTree(join(above, 'x/y/z')).keys()]).toEqual(['a']);
    expect(readFileSync(join(out, 'a'), 'utf8')).toBe('1');
  });

  it('refuses a folder, file or link that it did not make', () => {
    mkdirSync(out);
    writeFileSync(join(out, 'mine.txt'), 'keep');
    expect(() => writeFolder(out, new Map([['a', '1']]))).toThrow(FileProblem);
    expect(names(out)).toEqual(['mine.txt']);
    writeFileSync(join(above, 'file'), 'keep');
    expect(() => writeFolder(join(above, 'file'), new Map([['a', '1']]))).toThrow(/is no folder/);
    symlinkSync('public', join(above, 'link'));
    expect(() => writeFolder(join(above, 'link'), new Map([['a', '1']]))).toThrow(/is no folder/);
    expect(names(above)).toEqual(['file', 'link', 'public']);
  });

  it('leaves the old output as it was where writing fails half way', () => {
    writeFolder(out, new Map([['a', 'old']]));
    const clash = new Map([
      ['b', 'file'],
      ['b/c', 'a file where a file is the folder'],
    ]);
    expect(() => writeFolder(out, clash)).toThrow(FileProblem);
    expect(names(out)).toEqual(['.stepgauge-output', 'a']);
    expect(names(above)).toEqual(['public']);
  });

  it('refuses, as a fault of ours, paths that leave the folder, before anything is written', () => {
    for (const path of ['../x', '/etc/x', 'a/../../x', 'a//b', './a', 'a\\b', '']) {
      expect(() =>
        writeFolder(
          out,
          new Map([
            ['fine', ''],
            [path, ''],
          ]),
        ),
      ).toThrow(/Not a path inside/);
    }
    expect(existsSync(out)).toBe(false);
  });

  it('puts the old output back after a run that was killed between the two renames', () => {
    mkdirSync(join(above, `.public-old-${gonePid}-abc`));
    writeFileSync(join(above, `.public-old-${gonePid}-abc/.stepgauge-output`), '');
    mkdirSync(join(above, `.public-new-${gonePid}-abc`));
    const clash = new Map([
      ['b', ''],
      ['b/c', ''],
    ]);
    expect(() => writeFolder(out, clash)).toThrow(FileProblem);
    expect(names(above)).toEqual(['public']);
    expect(names(out)).toEqual(['.stepgauge-output']);
  });

  it('leaves alone what a run that still goes on is writing', () => {
    mkdirSync(join(above, `.public-new-${process.pid}-abc`));
    writeFolder(out, new Map([['a', '']]));
    expect(names(above)).toEqual([`.public-new-${process.pid}-abc`, 'public']);
  });
});

describe('writing something new', () => {
  it('never writes over a file or into a folder that holds something', () => {
    writeNewFile(join(above, 'machines/a.yaml'), 'x');
    expect(() => writeNewFile(join(above, 'machines/a.yaml'), 'y')).toThrow(/is there already/);
    expect(readFileSync(join(above, 'machines/a.yaml'), 'utf8')).toBe('x');
    expect(() => writeNewFolder(join(above, 'machines'), new Map([['b', '']]))).toThrow(/is not empty/);
    writeNewFolder(out, new Map([['deep/b', 'z']]));
    expect(readFileSync(join(out, 'deep/b'), 'utf8')).toBe('z');
  });
});
