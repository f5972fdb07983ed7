// A number in parentheses beside a reference: both are read as one thing, whatever the sentence says.

import type { Block } from '../text/blocks.js';
import type { Stated } from './stated.js';

/** The typed number that a reference right beside a quantity leads to: `{raised} (0.9 V)`, `0.9 V ({raised})`. */
export function statedBeside(text: string, { start, end }: Block, numbers: readonly Stated[]): Stated | undefined {
  const before = /\{([^{}]+)\}\*{0,2}\s*\(\s*$/.exec(text.slice(0, start))?.[1];
  const behind = /^\s*\(\s*\*{0,2}\{([^{}]+)\}\*{0,2}\s*\)/.exec(text.slice(end))?.[1];
  const path = (before !== undefined && /^\s*\)/.test(text.slice(end)) ? before : behind)?.trim();
  return path === undefined ? undefined : numbers.find((one) => one.refers && one.path === path);
}
