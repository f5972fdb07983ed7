// What is wrong with a number as it was typed, in words.

import { isAmbiguous } from '../../../src/calc/typed-number.js';
import { readTyped } from '../../../src/calc/typed-reading.js';
import type { Unit } from '../../../src/calc/unit-type.js';
import { say } from './words.js';

/** Empty where nothing is typed or it can be read. */
export function typedFault(text: string, unit: Unit): string {
  if (text.trim() === '' || readTyped(text, unit)) return '';
  if (isAmbiguous(text)) {
    const bare = text.trim();
    return say('two-readings', { one: bare.replace(',', '.'), two: bare.replace(',', '') });
  }
  return say('not-a-number', { example: document.documentElement.lang === 'es' ? '3,62' : '3.62' });
}
