// Readings of a record: each value as found and as left, and all of them in order.

import { printedUnits } from '../../../src/emit/printed-units.js';
import type { JobRecord, RecordReading, RecordValue } from '../../../src/model/job-record.js';
import { element } from '../element.js';
import { sayMoment } from '../offline/say.js';
import { aside } from './parts.js';
import { say } from './words.js';

/** Each value that was read, with what was found and what was left. */
export function drawValues(record: JobRecord): readonly HTMLElement[] {
  if (record.values.length === 0) return [element('p', {}, [say('values-none')])];
  return [
    element(
      'ul',
      { class: 'found-left' },
      record.values.map((value) => drawValue(record, value)),
    ),
  ];
}

function drawValue({ readings, page }: JobRecord, value: RecordValue): HTMLElement {
  const find = (order?: number): RecordReading | undefined => readings.find((one) => one.order === order);
  const [found, left] = [find(value.asFound), find(value.asLeft)];
  const limits = (left ?? found)?.limits;
  const instrument = (left ?? found)?.instrument;
  const cell = (name: string, reading: RecordReading | undefined, missing: string): HTMLElement =>
    element('div', {}, [
      element('dt', {}, [name]),
      element('dd', {}, reading ? sayReading(reading, page.revision) : [element('span', {}, [missing])]),
    ]);
  return element('li', {}, [
    element('h3', {}, [value.label]),
    aside([
      limits === undefined ? '' : say('limits', { limits }),
      instrument === undefined ? '' : say('read-with', { instrument }),
      value.adjusted ? say('adjusted') : '',
    ]),
    element('dl', {}, [
      cell(say('as-found'), found, say('not-read-before')),
      cell(say('as-left'), left, say('not-read-after')),
    ]),
  ]);
}

function sayReading(reading: RecordReading, revision: number): readonly (Node | string)[] {
  const { text, unit, verdict } = reading;
  return [
    element('b', { class: 'number' }, [sayNumber(text, unit)]),
    element('span', { class: `judged ${verdict}` }, [sayVerdict(reading)]),
    reading.revision === revision ? '' : aside([say('by-revision', { revision: reading.revision })]),
  ];
}

/** `3.41 V`, `-4.5°`, the sign as it is printed. */
function sayNumber(text: string, unit: string): string {
  const number = text.replace(/^-/, '\u2212');
  return unit === '' ? number : printedUnits(`${number}\u00a0${unit}`);
}

function sayVerdict({ verdict, side }: RecordReading): string {
  return side === undefined ? say(`verdict-${verdict}`) : `${say(`verdict-${verdict}`)}, ${say(`side-${side}`)}`;
}

/** Every reading as a row, in order. */
export function drawReadings({ readings }: JobRecord): readonly HTMLElement[] {
  return readings.map((reading) => {
    const { label, text, unit, step, at, corrected } = reading;
    return element('li', {}, [
      element('span', {}, [`${label}: `, element('b', {}, [sayNumber(text, unit)]), ` ${sayVerdict(reading)}`]),
      aside([say('step', { label: step }), corrected ? say('corrected') : '', sayMoment(at)]),
    ]);
  });
}
