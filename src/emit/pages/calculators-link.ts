// Where the page of calculators stands. It is one for the whole site in each language.

import { linkTo, type Page } from './context.js';

/** The name of its file in each language's folder. */
export const calculatorsFile = 'calculators.html';

/** A link to it, in the page's language. */
export function calculatorsLink(page: Page): string {
  return linkTo(page, calculatorsFile);
}
