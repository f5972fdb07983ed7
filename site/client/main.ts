// What the site does beyond plain pages. Every page reads without it; each part is fetched by the pages that have a use
// for it, so that a procedure comes over a weak signal.

import { offerWrongPage } from './offer-wrong-page.js';
import type { InstallPrompt } from './offline/install.js';
import { watchStanding } from './offline/standing.js';
import { keepWorker } from './offline/worker.js';
import { rememberHome, rememberUnit, showOthers } from './remember.js';
import { chooseVersion, narrowLists, warnOfOther } from './versions.js';

watchStanding();
rememberHome();
rememberUnit();
chooseVersion();
warnOfOther();
narrowLists();
showOthers();
offerWrongPage();
keepWorker();
if (document.body.dataset.walk === undefined) void import('./finding.js').then(({ startFinding }) => startFinding());
else void import('./walk/offer.js').then(({ offerWalk }) => offerWalk());
if (document.body.dataset.withdrawn !== undefined)
  void import('./offline/listed.js').then(({ watchLists }) => watchLists());
if (document.getElementById('search')) void import('./search.js').then(({ startSearch }) => startSearch());
if (document.getElementById('keep')) void import('./offline/keep-panel.js').then(({ startKeeping }) => startKeeping());
if (document.querySelector('[data-install]')) {
  // the browser may ask before the part that answers is here
  const asked = new Promise<InstallPrompt>((resolve) => {
    addEventListener('beforeinstallprompt', (event) => {
      event.preventDefault();
      resolve(event as InstallPrompt);
    });
  });
  void import('./offline/install.js').then(({ offerInstall }) => offerInstall(asked));
}
if (document.getElementById('kept')) void import('./offline/kept-list.js').then(({ listKept }) => listKept());
if (document.querySelector('[data-needs-signal]'))
  void import('./offline/needs-signal.js').then(({ markUnkept }) => markUnkept());
