// A note of each job outside the store, so that a phone that cleared the store can be caught at it.

import type { JobHead } from './store.js';
import { siteRoot } from './store.js';

/** What is left of a job that the phone cleared. */
export interface LostJob {
  readonly id: string;
  readonly title: string;
  readonly rig: string;
  readonly begun: string;
}

const place = (): string => `stepgauge-jobs ${siteRoot()}`;

function readNotes(): readonly LostJob[] {
  try {
    const notes: unknown = JSON.parse(localStorage.getItem(place()) ?? '[]');
    return Array.isArray(notes) ? notes.filter(isNote) : [];
  } catch {
    // without notes nothing can be said to be lost
    return [];
  }
}

function isNote(note: unknown): note is LostJob {
  if (typeof note !== 'object' || note === null) return false;
  const { id, title, rig, begun } = note as Partial<Record<keyof LostJob, unknown>>;
  return [id, title, rig, begun].every((part) => typeof part === 'string');
}

function keepNotes(notes: readonly LostJob[]): void {
  try {
    localStorage.setItem(place(), JSON.stringify(notes));
  } catch {
    // the job itself is kept in the store; without its note only its loss could not be told
  }
}

/** Notes that a job was begun. */
export function noteJob({ id, page, begun }: JobHead): void {
  const rest = readNotes().filter((note) => note.id !== id);
  keepNotes([...rest, { id, title: page.title, rig: page.rig, begun }]);
}

/** Forgets a job that a person deleted, or whose loss a person has read. */
export function unnoteJob(id: string): void {
  keepNotes(readNotes().filter((note) => note.id !== id));
}

/** Jobs that were begun, that nobody deleted, and that are not among those still kept: the phone cleared them. */
export function findLost(kept: readonly { readonly id: string }[]): readonly LostJob[] {
  const known = new Set(kept.map(({ id }) => id));
  return readNotes().filter(({ id }) => !known.has(id));
}
