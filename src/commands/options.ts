// Options that several commands share, and what is wrong with a value that cannot be used.

import { Misuse } from './misuse.js';

export const formats = ['text', 'json', 'sarif'] as const;
export type Format = (typeof formats)[number];

/** Options of every command that checks a book. */
export interface CheckOptions {
  readonly format: Format;
  readonly strict: boolean;
  readonly rig?: string;
  readonly today?: string;
  readonly maxWarnings?: string;
  readonly only?: string;
  readonly waived?: boolean;
}

/** What `check` alone can do besides. */
export interface CheckCommandOptions extends CheckOptions {
  readonly fix?: boolean;
  /** A file to write the proof to; true prints it. */
  readonly proof?: string | true;
}

/** The date that review dates are judged by: the one given, else today's by this machine's clock. The clock is read here alone. */
export function todayOf(given: string | undefined, now: () => Date = () => new Date()): string {
  return given === undefined ? now().toISOString().slice(0, 10) : dateOf('--today', given);
}

/** The date that an option gives. Throws `Misuse` for a day that there is not. */
export function dateOf(option: string, given: string): string {
  const date = new Date(`${given}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(given) || Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== given) {
    throw new Misuse(`Unexpected \`${option} ${given}\`, expected a date such as 2026-11-24`);
  }
  return given;
}
