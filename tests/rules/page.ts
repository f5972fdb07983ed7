// Reads a rule's page: its headings, and the little books of its Bad and Good sections as changes to the base book.

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';

/** One example of a page: a title, the files it changes or adds, and the rendered diagnostics that stand after it. */
export interface Example {
  readonly title: string;
  readonly changes: readonly Change[];
  /** What a fence ```sh calls the command with behind `--rig`. */
  readonly rig?: string;
  readonly rendered?: string;
}

/** A fence with a path: a whole file, a `diff` of one, `without` it (or what is in a folder), `longer` by some letters, or what `disk.ts` makes. */
export interface Change {
  readonly path: string;
  readonly language: string;
  readonly text: string;
}

export interface Page {
  readonly file: string;
  readonly id: string;
  readonly headings: readonly string[];
  readonly bad: readonly Example[];
  readonly good: readonly Example[];
  readonly markdown: string;
}

/** All pages below a folder, in the order of their paths. */
export function pagesBelow(folder: string): readonly Page[] {
  return filesBelow(folder)
    .filter((file) => file.endsWith('.md') && !file.endsWith('README.md'))
    .map((file) => readPage(file, readFileSync(file, 'utf8')));
}

export function readPage(file: string, markdown: string): Page {
  const id = /^# (\S+)$/m.exec(markdown)?.[1] ?? '';
  const sections = markdown.split(/^## /m).slice(1);
  const headings = sections.map((section) => section.split('\n', 1)[0] ?? '');
  const section = (name: string): string => sections.find((text) => text.startsWith(`${name}\n`)) ?? '';
  return { file, id, headings, markdown, bad: examplesOf(section('Bad')), good: examplesOf(section('Good')) };
}

const fence = /^```(\w+)(?: (\S+))?\n([\s\S]*?)^```$/gm;

function examplesOf(section: string): readonly Example[] {
  return section
    .split(/^### /m)
    .slice(1)
    .map((text) => {
      const fences = [...text.matchAll(fence)].map(([, language = '', path, body = '']) => ({ language, path, body }));
      const rendered = fences.find(({ language }) => language === 'text')?.body;
      const rig = /--rig (\S+)/.exec(fences.find(({ language }) => language === 'sh')?.body ?? '')?.[1];
      return {
        title: text.split('\n', 1)[0] ?? '',
        changes: fences.flatMap(({ language, path, body }) => (path ? [{ language, path, text: body }] : [])),
        ...(rig === undefined ? {} : { rig }),
        ...(rendered === undefined ? {} : { rendered }),
      };
    });
}

/** The base book with an example's changes made. Throws where a `diff` fits no place or more than one. */
export function bookOf(base: ReadonlyMap<string, string>, example: Example): Map<string, string> {
  const files = new Map(base);
  for (const change of example.changes) {
    if (change.language === 'without') leaveOut(files, change.path);
    else if (change.language === 'longer') files.set(change.path, lengthen(files.get(change.path) ?? '', change.text));
    else if (change.language !== 'diff') files.set(change.path, change.text);
    else files.set(change.path, applyDiff(files.get(change.path) ?? '', change));
  }
  return files;
}

function leaveOut(files: Map<string, string>, path: string): void {
  const gone = [...files.keys()].filter((file) => file === path || (path.endsWith('/') && file.startsWith(path)));
  if (gone.length === 0) throw new Error(`${path}: there is nothing to leave out`);
  for (const file of gone) files.delete(file);
}

function lengthen(text: string, by: string): string {
  return `${text}${'More words. '.repeat(Math.ceil(Number.parseInt(by, 10) / 12))}\n`;
}

function applyDiff(text: string, change: Change): string {
  let lines = text.split('\n');
  for (const hunk of change.text.replace(/\n$/, '').split(/^@@\n/m)) {
    const hunkLines = hunk.replace(/\n$/, '').split('\n');
    const side = (drop: string): string[] => hunkLines.filter((line) => line[0] !== drop).map((line) => line.slice(1));
    const [before, after] = [side('+'), side('-')];
    const places = lines.flatMap((_, at) => (before.every((line, i) => lines[at + i] === line) ? [at] : []));
    if (places.length !== 1) {
      throw new Error(`${change.path}: the diff fits ${places.length} places:\n${before.join('\n')}`);
    }
    lines = [...lines.slice(0, places[0]), ...after, ...lines.slice((places[0] ?? 0) + before.length)];
  }
  return lines.join('\n');
}

/** A folder's files as a map from path (with `/`) to text. */
export function filesOf(folder: string): ReadonlyMap<string, string> {
  return new Map(
    filesBelow(folder).map((file) => [relative(folder, file).split(sep).join('/'), readFileSync(file, 'utf8')]),
  );
}

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder)
    .sort()
    .map((name) => join(folder, name))
    .flatMap((path) => (statSync(path).isDirectory() ? filesBelow(path) : [path]));
}
