// A release: a compiled book frozen under a name, as one file. What stands in it several times is written once.

import type { CompiledBook } from '../model/compiled-book.js';
import { sha256 } from '../text/sha256.js';

export interface Release {
  readonly name: string;
  /** The day that it was made: `2026-09-02`. */
  readonly date: string;
  /** Digest of all files of the book that it was made from. */
  readonly sources: string;
  readonly book: CompiledBook;
}

/** What every release file begins with. */
export const releaseFormat = 'stepgauge-release';

/** Names of releases: they are file names on every kind of disk. */
export const releaseName = /^[a-z0-9](?:[a-z0-9.-]{0,62}[a-z0-9])?$/;

/** The text of a release's file; the same release gives the same bytes. */
export function writeRelease({ name, date, sources, book }: Release): string {
  const { parts, packed } = pack(book);
  const head = { format: releaseFormat, version: 1, name, date, sources, digest: digestOf(book) };
  const open = JSON.stringify(head).slice(0, -1);
  const lines = parts.map((part, i) => `${JSON.stringify(part)}${i < parts.length - 1 ? ',' : ''}\n`);
  return `${open},\n"parts":[\n${lines.join('')}],\n"book":${JSON.stringify(packed)}}\n`;
}

/** A release as read, or why it is none. Whether its book has the shape of one is for the caller to check. */
export type ReadRelease =
  | { readonly ok: true; readonly release: Release }
  | { readonly ok: false; readonly why: 'not-json' | 'not-a-release' | 'other-version' | 'changed' };

/** Reads the text of a file. */
export function readRelease(text: string): ReadRelease {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return { ok: false, why: 'not-json' };
  }
  if (!isRecord(data) || data.format !== releaseFormat) return { ok: false, why: 'not-a-release' };
  if (data.version !== 1) return { ok: false, why: 'other-version' };
  const { name, date, sources, digest, parts, book } = data;
  if (typeof name !== 'string' || typeof date !== 'string' || typeof sources !== 'string' || !Array.isArray(parts))
    return { ok: false, why: 'not-a-release' };
  const whole = unpack(parts, book);
  if (!isRecord(whole)) return { ok: false, why: 'changed' };
  const found = whole as unknown as CompiledBook;
  if (digestOf(found) !== digest) return { ok: false, why: 'changed' };
  return { ok: true, release: { name, date, sources, book: found } };
}

function digestOf(book: CompiledBook): string {
  return sha256(JSON.stringify(book));
}

/** The digest of all files of a book, whatever order they are read in and however their lines end. */
export function digestSources(
  texts: ReadonlyMap<string, { readonly text: string }>,
  figures: Readonly<Record<string, string>>,
): string {
  const files = [
    ...[...texts].map(([path, { text }]) => `${path} ${sha256(text.replaceAll('\r\n', '\n'))}`),
    ...Object.entries(figures).map(([path, digest]) => `${path} ${digest}`),
  ];
  return sha256(files.sort().join('\n'));
}

/** A place that stands for a part; no key of a compiled book is called so. */
const mark = '@';

/** Parts shorter than this are written where they are. */
const shortest = 40;

interface Packed {
  readonly parts: readonly unknown[];
  readonly packed: unknown;
}

/** Parts that stand in it more than once, each after those that it holds itself, and the whole with their places. */
function pack(whole: unknown): Packed {
  const texts = new Map<object, string>();
  const counts = new Map<string, number>();
  const count = (part: unknown): void => {
    if (typeof part !== 'object' || part === null) return;
    const text = JSON.stringify(part);
    texts.set(part, text);
    const times = (counts.get(text) ?? 0) + 1;
    counts.set(text, times);
    if (times === 1) for (const inner of Object.values(part)) count(inner);
  };
  count(whole);
  const parts: unknown[] = [];
  const places = new Map<string, number>();
  const write = (part: unknown): unknown => {
    if (typeof part !== 'object' || part === null) return part;
    const text = texts.get(part) ?? JSON.stringify(part);
    if (text.length < shortest || (counts.get(text) ?? 0) < 2) return writeInside(part, write);
    const known = places.get(text);
    if (known !== undefined) return { [mark]: known };
    parts.push(writeInside(part, write));
    places.set(text, parts.length - 1);
    return { [mark]: parts.length - 1 };
  };
  return { packed: write(whole), parts };
}

function writeInside(part: object, write: (inner: unknown) => unknown): unknown {
  return Array.isArray(part)
    ? part.map(write)
    : Object.fromEntries(Object.entries(part).map(([key, inner]) => [key, write(inner)]));
}

/** The whole again; undefined where a place stands for no part. */
function unpack(parts: readonly unknown[], packed: unknown): unknown {
  const whole: unknown[] = [];
  let isWhole = true;
  const read = (part: unknown): unknown => {
    if (!isRecord(part) && !Array.isArray(part)) return part;
    const place = isRecord(part) ? part[mark] : undefined;
    if (place === undefined) return writeInside(part, read);
    if (typeof place === 'number' && place in whole) return whole[place];
    isWhole = false;
    return undefined;
  };
  for (const part of parts) whole.push(read(part));
  const book = read(packed);
  return isWhole ? book : undefined;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
