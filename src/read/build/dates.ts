// Days of the calendar. Reads no clock.

import type { Located } from '../../text/source.js';
import { idBehind, type Part } from './part.js';
import { type Reading, report } from './reading.js';

const shape = /^(\d{4})-(\d{2})-(\d{2})$/;

/** The date behind a key. One that no calendar has is reported; its form was looked at by the schema. */
export function dateBehind(reading: Reading, part: Part | undefined, key: string): Located<string> | undefined {
  const date = idBehind(reading, part, key);
  const found = date && shape.exec(date.value);
  if (!found) return undefined;
  const [year, month, day] = found.slice(1).map(Number) as [number, number, number];
  const last = daysIn(year, month);
  if (day >= 1 && day <= last) return date;
  report(reading, {
    code: 'no-such-date',
    message:
      last === 0
        ? `\`${date.value}\` has no month \`${found[2]}\``
        : `\`${date.value}\` is no day: that month has ${last}`,
    at: date.at,
    help: 'Write year, month and day, as in `2026-09-02`.',
  });
  return undefined;
}

/** How many days a month has; 0 where there is no such month. */
function daysIn(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
}
