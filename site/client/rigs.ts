// The machines that this phone keeps: which one is in use, and what is known of it. Nothing of them leaves the phone.

import type { KnownMachine } from '../../src/emit/rig-match.js';

/** A machine with a header on it, as it was chosen. */
export interface KeptRig {
  /** `tarn-40/row-12x20/`, below the folder of a language. */
  readonly folder: string;
  /** What it is called where it was chosen. */
  readonly name: string;
  /** The unit of the fleet, where it is one. */
  readonly unit?: string;
  readonly known: KnownMachine;
}

/** How many a phone keeps: the one in use longest ago gives way. */
const most = 24;

/** Sites below other paths of the same host keep their own. */
function keyOf(): string {
  return `stepgauge-rigs ${new URL(document.body.dataset.root ?? './', location.href).pathname}`;
}

/** All that are kept, the one used last first. A phone that refuses to store anything keeps none. */
export function readRigs(): readonly KeptRig[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf()) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isRig) : [];
  } catch {
    return [];
  }
}

// only a folder of this site, never an address that somebody put there
function isRig(one: unknown): one is KeptRig {
  if (typeof one !== 'object' || one === null) return false;
  const { folder, name, unit, known } = one as Partial<Record<keyof KeptRig, unknown>>;
  return (
    typeof folder === 'string' &&
    /^[\w.-]+\/[\w.-]+\/$/.test(folder) &&
    typeof name === 'string' &&
    (unit === undefined || typeof unit === 'string') &&
    isKnown(known)
  );
}

function isKnown(known: unknown): boolean {
  if (typeof known !== 'object' || known === null) return false;
  const { options, software, serial } = known as Partial<Record<keyof KnownMachine, unknown>>;
  const isMap = (map: unknown, kind: string): boolean =>
    typeof map === 'object' && map !== null && Object.values(map).every((value) => typeof value === kind);
  return isMap(options, 'boolean') && isMap(software, 'string') && (serial === undefined || typeof serial === 'string');
}

/** Puts these before all others; gives whether the phone kept them. */
export function keepRigs(rigs: readonly KeptRig[]): boolean {
  const same = (a: KeptRig, b: KeptRig): boolean => a.folder === b.folder && a.unit === b.unit;
  const others = readRigs().filter((one) => !rigs.some((rig) => same(one, rig)));
  return write([...rigs, ...others].slice(0, most));
}

/** Takes one off the phone. */
export function forgetRig(gone: KeptRig): boolean {
  return write(readRigs().filter(({ folder, unit }) => folder !== gone.folder || unit !== gone.unit));
}

function write(rigs: readonly KeptRig[]): boolean {
  try {
    localStorage.setItem(keyOf(), JSON.stringify(rigs));
    return true;
  } catch {
    return false; // storage is refused or full
  }
}

/** The machine that the page is read for: of those kept for its home the one used last. */
export function currentRig(): KeptRig | undefined {
  const { home } = document.body.dataset;
  return readRigs().find(({ folder }) => folder === home);
}

/** Nothing is known of it yet. */
export const nothingKnown: KnownMachine = { options: {}, software: {} };
