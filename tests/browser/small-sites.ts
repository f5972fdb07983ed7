// The site of the small book, and what becomes of it as the book changes: for tests of phones that keep an older one.

import { bookOf } from '../emit-pages/books.js';
import { smallTexts } from '../emit-pages/small-book.js';
import { buildSite } from './site-server.js';

/** What reading refuses in the small book and is let pass. */
export const pass = ['missing-language', 'raw-html', 'unknown-procedure'];

const makeSafe = `---
title: Make it safe
kind: setup
summary: Leaves the machine off.
revision: 1
status: released
applies: all
tools: none
supplies: none
hazards: none
requires: none
steps:
  - { id: off, do: Turn the key off., sets: { engine: "off" } }
leaves: none
---
`;

/** The site of the small book with a way to make the machine safe, with its texts changed. */
export function siteWith(change: (texts: Map<string, string>) => void): ReadonlyMap<string, string | Uint8Array> {
  const texts = smallTexts();
  texts.set(
    'safety.yaml',
    `${texts.get('safety.yaml')}\nends: { call-service: { run: make-safe, must: { engine: "off" } } }\n`,
  );
  texts.set('wrong/make-safe.md', makeSafe);
  change(texts);
  return buildSite(bookOf(texts, { pass }));
}

/** Changes a text of the book; throws where there is nothing to change. */
export function edit(texts: Map<string, string>, path: string, from: string | RegExp, to: string): void {
  const text = texts.get(path) ?? '';
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`${path} has no ${from}`);
  texts.set(path, changed);
}
