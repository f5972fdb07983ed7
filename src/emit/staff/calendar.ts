// All-day events as a calendar file after RFC 5545. No clock: a stamp is a date of the book.

import { nextDay } from '../../model/dates.js';

export interface CalendarEvent {
  /** Unlike any other event's (3.8.4.7). */
  readonly uid: string;
  /** When it was written down: `2026-09-02`. */
  readonly stamp: string;
  /** The day. */
  readonly on: string;
  readonly summary: string;
  readonly description: string;
}

/** The file: lines end in CR LF (3.1), none is longer than 75 octets before it is folded. */
export function writeCalendar(name: string, events: readonly CalendarEvent[]): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Stepgauge//Stepgauge//EN',
    'CALSCALE:GREGORIAN',
    `X-WR-CALNAME:${escapeText(name)}`,
    ...events.flatMap(writeEvent),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${foldLine(line)}\r\n`).join('');
}

function writeEvent({ uid, stamp, on, summary, description }: CalendarEvent): readonly string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${escapeText(uid)}`,
    `DTSTAMP:${plainDate(stamp)}T000000Z`,
    `DTSTART;VALUE=DATE:${plainDate(on)}`,
    `DTEND;VALUE=DATE:${plainDate(nextDay(on))}`,
    `SUMMARY:${escapeText(summary)}`,
    ...(description === '' ? [] : [`DESCRIPTION:${escapeText(description)}`]),
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ];
}

function plainDate(date: string): string {
  return date.replaceAll('-', '');
}

/** A text value (3.3.11): backslash, semicolon, comma and the end of a line are escaped. */
export function escapeText(text: string): string {
  return text.replaceAll(/[\\;,]/g, (sign) => `\\${sign}`).replaceAll(/\r\n|\r|\n/g, '\\n');
}

/** A line cut into pieces of 75 octets at most, each but the first behind a blank (3.1); no sign is cut in two. */
export function foldLine(line: string): string {
  const pieces: string[] = [];
  let piece = '';
  let octets = 0;
  for (const sign of line) {
    const size = octetsOf(sign);
    if (octets + size > 75) {
      pieces.push(piece);
      piece = ' ';
      octets = 1;
    }
    piece += sign;
    octets += size;
  }
  return [...pieces, piece].join('\r\n');
}

function octetsOf(sign: string): number {
  const code = sign.codePointAt(0) ?? 0;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
