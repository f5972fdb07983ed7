// The result of a calculator as short texts, the same on the page and on the phone.

import type { Result } from './calculate.js';

/**
 * `20 ft`, or `3.60 ± 0.11 V` and on a line of its own `for sure 3.48 to 3.72 V`, for each unit. `surely` has places for
 * `{low}` and `{high}`.
 */
export function sayResult({ values }: Result, surely: string): readonly string[] {
  return values.flatMap(({ value, uncertainty, range }) => {
    const [number = ''] = value.split('\u00a0');
    const near = uncertainty === undefined ? value : `${number} ± ${uncertainty}`;
    const [low = '', high] = range?.split(' to ') ?? [];
    return high === undefined ? [near] : [near, surely.replace('{low}', low).replace('{high}', high)];
  });
}
