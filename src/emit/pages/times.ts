// Times that stand side by side: a person adds them up at a glance only where all are in one unit.

import { parseLimits } from '../../calc/expression/parse.js';
import type { Limits } from '../../calc/limits.js';
import { formatLimits, limitsIn } from '../../calc/quantity-text.js';
import { compare } from '../../calc/rational.js';
import { resolveLimits } from '../../calc/resolve-limits.js';

/** Times as printed, all in the finest unit that one of them is in: `2 h` beside `122 min` is `120 min`. */
export function inOneUnit(texts: readonly string[]): readonly string[] {
  const times = texts.map(timeIn);
  const [finest] = times.map(({ unit }) => unit).sort((a, b) => compare(a.factor, b.factor));
  return texts.map((text, i) => {
    const time = times[i];
    if (!time || !finest || time.unit.symbol === finest.symbol) return text;
    const same = limitsIn(time, finest);
    // rounded inward nothing may be left of a range: then it stays as it is written
    return same ? formatLimits(same) : text;
  });
}

function timeIn(text: string): Limits {
  const parsed = parseLimits(text);
  const found = parsed.ok ? resolveLimits(parsed.value, () => undefined) : parsed;
  if (!found.ok) throw new Error(`The time ${text} that was printed cannot be read`);
  return found.value;
}
