// The calendar of reviews after RFC 5545: folding, escaping, dates, and the same bytes for the same book.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escapeText, foldLine, writeCalendar } from '../../src/emit/staff/calendar.js';
import { addMonths, nextDay } from '../../src/model/dates.js';

const unfold = (text: string): string => text.replaceAll('\r\n ', '');

describe('a calendar file', () => {
  const event = {
    uid: 'a-r1@book.example',
    stamp: '2026-09-02',
    on: '2027-02-28',
    summary: 'Review: Learn; the range, "x"\nnow',
    description: '',
  };
  const file = writeCalendar('Reviews due', [event]);

  // RFC 5545, 3.1 content lines, 3.4 the object, 3.6.1 what an event must have, 3.8.2.4 whole days, 3.3.11 text
  it('is one object whose lines end in CR LF, with what an event must have', () => {
    expect(file.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:')).toBe(true);
    expect(file.endsWith('END:VEVENT\r\nEND:VCALENDAR\r\n')).toBe(true);
    expect(file.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(file).toContain('DTSTAMP:20260902T000000Z\r\nDTSTART;VALUE=DATE:20270228\r\nDTEND;VALUE=DATE:20270301\r\n');
    expect(file).toContain('SUMMARY:Review: Learn\\; the range\\, "x"\\nnow\r\n');
    expect(file).not.toContain('DESCRIPTION');
  });

  it('has no line of more than 75 octets, cuts no sign in two, and loses nothing', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
        const folded = foldLine(escapeText(text));
        for (const line of folded.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(unfold(folded)).toBe(escapeText(text));
      }),
    );
  });
});

describe('dates', () => {
  // the Gregorian calendar: a century is a leap year only where 400 divides it (ISO 8601-1:2019, 4.2.1)
  it('step by days and months over the ends of months and years', () => {
    expect(['2026-12-31', '2028-02-28', '2027-02-28', '2100-02-28', '2000-02-28'].map(nextDay)).toEqual([
      '2027-01-01',
      '2028-02-29',
      '2027-03-01',
      '2100-03-01',
      '2000-02-29',
    ]);
    expect(addMonths('2026-08-31', 6)).toBe('2027-02-28');
  });

  it('agree with the calendar of the machine', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('1900-01-01'), max: new Date('2199-12-30'), noInvalidDate: true }),
        (date) => {
          const next = new Date(date.getTime() + 86_400_000);
          expect(nextDay(date.toISOString().slice(0, 10))).toBe(next.toISOString().slice(0, 10));
        },
      ),
    );
  });
});
