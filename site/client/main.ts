// What the site does beyond plain pages: search on a home, the machine chosen last, a code found as it is typed.
// Every page reads without it.

import { compareCard } from './cards.js';
import { findCodes } from './codes.js';
import { startKeeping } from './offline/keep-panel.js';
import { listKept } from './offline/kept-list.js';
import { watchStanding } from './offline/standing.js';
import { keepWorker } from './offline/worker.js';
import { rememberHome, showLastHome } from './remember.js';
import { startSearch } from './search.js';

watchStanding();
rememberHome();
showLastHome();
startSearch();
findCodes();
compareCard();
startKeeping();
void listKept();
keepWorker();
