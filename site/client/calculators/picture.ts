// Puts a drawn picture into its place on the page.

import type { Html } from '../../../src/emit/html.js';

/** Shows a picture that our own code drew; whatever text is in it was escaped there. Nothing for none. */
export function showPicture(section: HTMLElement, picture: Html | undefined): void {
  const place = section.querySelector('.drawn');
  if (!place) return;
  const drawn = picture && new DOMParser().parseFromString(picture.html, 'text/html').querySelector('svg');
  place.replaceChildren(...(drawn ? [drawn] : []));
}
