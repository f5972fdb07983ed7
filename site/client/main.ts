// What the site does beyond plain pages: search on a home, the machine chosen last, a code found as it is typed.
// Every page reads without it.

import { compareCard } from './cards.js';
import { findCodes } from './codes.js';
import { rememberHome, showLastHome } from './remember.js';
import { startSearch } from './search.js';

rememberHome();
showLastHome();
startSearch();
findCodes();
compareCard();
