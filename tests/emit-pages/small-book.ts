// A small book in two languages with one of everything that a page can show, for tests that need to know all of it.

import { bookOf, filesOfBook, type TestBook } from './books.js';

const procedure = (front: string, prose = ''): string => `---\n${front.trim()}\n---\n${prose}`;

const shared = `
revision: 2
status: released
reviewed: { on: 2026-09-02, by: Service desk, next: 2027-08-01 }
tools: none
supplies: none
`;

/** A hostile text that must never become markup. */
export const hostile = '<script>alert(1)</script>';

/** The texts of the book: the base book of the tests, in two languages, and procedures of its own. */
export function smallTexts(): Map<string, string> {
  const { texts } = filesOfBook('tests/books/base');
  const edit = (path: string, change: (text: string) => string): void => {
    const text = texts.get(path);
    if (text === undefined) throw new Error(`The base book has no ${path}`);
    texts.set(path, change(text));
  };
  edit('book.yaml', (text) =>
    text
      .replace('languages: [en]', 'languages: [en, es]')
      .replace('jobs: { sensors: Sensors }', 'jobs: { sensors: Sensors, wrong: Something is wrong }'),
  );
  texts.set(
    'wrong/withdrawn.md',
    procedure(`title: Old way to free the arm
kind: setup
summary: Withdrawn.
${shared.replace('released', 'withdrawn')}
applies: all
hazards: none
requires: none
steps:
  - { id: pull, do: Pull the arm by hand. }
leaves: none`),
  );
  texts.set(
    'wrong/draft.md',
    procedure(`title: New way to free the arm
kind: setup
summary: Not yet tried.
${shared.replace('released', 'draft')}
applies: all
hazards: none
requires: none
steps:
  - { id: push, do: Push the arm by hand. }
leaves: none`),
  );
  texts.set(
    'wrong/arm-stuck.md',
    procedure(
      `title: "An arm ${hostile} sticks"
kind: fault-finding
summary: Finds out why an arm does not drop.
${shared}
applies: all
hazards: none
requires: none
steps:
  - { id: look, ask: "Is there mud on the arm?", answers: { yes: clean, no: { go: call-service } } }
  - { id: tilt, do: Set the tilt to its middle., only: { option: lateral-tilt } }
  - { id: clean, do: Clean the arm., note: "Part P-8 may be loose.", expect: The arm drops., otherwise: { because: The spring is broken., go: look, at-most: 2, else: stop } }
leaves: none`,
      `\n## Why\n\nSee ${hostile} and [the range](../sensors/learn-height-range.md), or [nothing](missing.md).\n\n## clean\n\nUse a stick.\n`,
    ),
  );
  return texts;
}

/** The same, worked out. What reading refuses is let pass here: a page must withstand it all the same. */
export function smallBook(): TestBook {
  return bookOf(smallTexts(), { pass: ['missing-language', 'raw-html', 'unknown-procedure'] });
}
