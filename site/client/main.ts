// What the site does beyond plain pages: search on a home, machines that the phone remembers, versions that open by
// themselves, a code found as it is typed, and the walk through a procedure. Every page reads without it; each part is fetched
// by the pages that have a use for it.

import { compareCard } from './cards.js';
import { findCodes, findUnits, followCode } from './codes.js';
import { offerWrongPage } from './offer-wrong-page.js';
import { watchStanding } from './offline/standing.js';
import { keepWorker } from './offline/worker.js';
import { rememberHome, rememberUnit, showOthers, showRemembered } from './remember.js';
import { showKnown, startRigForm } from './rig-form.js';
import { chooseVersion, narrowLists, warnOfOther } from './versions.js';

watchStanding();
followCode();
rememberHome();
rememberUnit();
chooseVersion();
warnOfOther();
narrowLists();
showRemembered();
showOthers();
startRigForm();
showKnown();
findCodes();
findUnits();
compareCard();
offerWrongPage();
keepWorker();
if (document.getElementById('keep')) void import('./offline/keep-panel.js').then(({ startKeeping }) => startKeeping());
if (document.getElementById('kept')) void import('./offline/kept-list.js').then(({ listKept }) => listKept());
if (document.getElementById('search')) void import('./search.js').then(({ startSearch }) => startSearch());
if (document.body.dataset.walk !== undefined) void import('./walk/offer.js').then(({ offerWalk }) => offerWalk());
