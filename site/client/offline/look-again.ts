// When what is known of the site may be old: signal is back, or the page comes into sight again.

import { forgetAnswer } from './check.js';

/** Calls now, and each time that the site is worth asking again. */
export function onEachLook(look: () => void): void {
  look();
  window.addEventListener('online', () => {
    forgetAnswer();
    look();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') look();
  });
  // a page may come back as it was left, however long ago
  window.addEventListener('pageshow', ({ persisted }) => {
    if (persisted) look();
  });
}
