// A release as a file: the same book comes back, the same bytes are written, and what was changed afterwards is noticed.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digestSources, readRelease, releaseName, writeRelease } from '../../src/history/release.js';
import type { CompiledBook } from '../../src/model/compiled-book.js';
import { compiledDemo } from './books.js';

const demo = compiledDemo();
const release = { name: 'spring', date: '2026-03-01', sources: 'abc', book: demo };

describe('a release', () => {
  const text = writeRelease(release);

  it('gives back the book that it was made from', () => {
    const read = readRelease(text);
    expect(read.ok && read.release).toEqual(release);
  });

  it('has the same bytes whenever it is written, and few for a book of many versions', () => {
    expect(writeRelease({ ...release, book: structuredClone(demo) })).toBe(text);
    expect(text.length).toBeLessThan(JSON.stringify(demo).length / 5);
    expect(Buffer.byteLength(text)).toBeLessThan(500_000);
  });

  it('is refused where anything in it was changed', () => {
    const numbers = [...text.matchAll(/3\.6|"shown"|on-ground/g)].map(({ index }) => index);
    expect(numbers.length).toBeGreaterThan(20);
    for (const at of numbers.slice(0, 20)) {
      const broken = `${text.slice(0, at)}9${text.slice(at + 1)}`;
      expect(readRelease(broken).ok).toBe(false);
    }
    expect(readRelease(text.replace('{"@":0}', '{"@":99999}'))).toEqual({ ok: false, why: 'changed' });
  });

  it('is told from other files', () => {
    expect(readRelease('no')).toEqual({ ok: false, why: 'not-json' });
    expect(readRelease('[]')).toEqual({ ok: false, why: 'not-a-release' });
    expect(readRelease('{"format":"stepgauge-release","version":2}')).toEqual({ ok: false, why: 'other-version' });
    expect(readRelease('{"format":"stepgauge-release","version":1}')).toEqual({ ok: false, why: 'not-a-release' });
  });

  it('brings back any data, whatever stands in it several times', () => {
    fc.assert(
      fc.property(fc.array(fc.jsonValue({ maxDepth: 4 }), { maxLength: 6 }), (values) => {
        // what is not a place comes back; a key `@` is in no compiled book
        fc.pre(!JSON.stringify(values).includes('"@"'));
        const data = JSON.parse(JSON.stringify({ values: [...values, ...values], again: values }));
        const read = readRelease(writeRelease({ ...release, book: data as CompiledBook }));
        expect(read.ok && read.release.book).toEqual(data);
      }),
    );
  });
});

describe('the digest of the sources', () => {
  const files = (texts: Readonly<Record<string, string>>) =>
    new Map(Object.entries(texts).map(([path, text]) => [path, { text }]));

  it('is the same in any order and with any ends of lines, and another for other words, names or pictures', () => {
    const digest = digestSources(files({ 'a.md': 'one\ntwo\n', 'b.md': 'three' }), { 'figures/a.svg': '1' });
    expect(digestSources(files({ 'b.md': 'three', 'a.md': 'one\r\ntwo\r\n' }), { 'figures/a.svg': '1' })).toBe(digest);
    expect(digestSources(files({ 'a.md': 'one\ntwo\n', 'b.md': 'tree' }), { 'figures/a.svg': '1' })).not.toBe(digest);
    expect(digestSources(files({ 'a.md': 'one\ntwo\n', 'c.md': 'three' }), { 'figures/a.svg': '1' })).not.toBe(digest);
    expect(digestSources(files({ 'a.md': 'one\ntwo\n', 'b.md': 'three' }), { 'figures/a.svg': '2' })).not.toBe(digest);
  });
});

describe('names of releases', () => {
  it('are file names on every disk', () => {
    for (const name of ['2026-11-24', 'spring', 'v1.2', 'a']) expect(releaseName.test(name)).toBe(true);
    for (const name of ['', '.hidden', 'a/b', '../a', 'Spring', 'ends.', 'two words', 'a'.repeat(65)])
      expect(releaseName.test(name)).toBe(false);
  });
});
