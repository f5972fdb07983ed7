// Which serials a page is for, as the phone needs it where one is typed. Shared by the build and the browser, so it uses
// nothing of either.

import { isInStretch, type Stretch } from '../model/serials.js';

/** Stretches of serials, and the same in the words of the page: `serial numbers 70-00100 to 70-04999`. */
export interface PageSerials {
  readonly stretches: readonly Stretch[];
  readonly words: string;
}

/** Whether a serial is in none of them. One that is not given is nowhere. */
export function isElsewhere({ stretches }: PageSerials, serial: string): boolean {
  return serial.trim() !== '' && !stretches.some((stretch) => isInStretch(stretch, serial));
}
