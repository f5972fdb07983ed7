// Offers to put the book on the home screen: a button where the browser lets a page ask for it, words how to do it by hand
// elsewhere, nothing where it was opened from there. It is asked for by a person's touch alone, and never twice.

/** What browsers send that let a page ask (W3C Manifest Incubations, section 3). */
export interface InstallPrompt extends Event {
  prompt(): Promise<unknown>;
  readonly userChoice: Promise<{ readonly outcome: 'accepted' | 'dismissed' }>;
}

/** What of the offer is in sight; nothing of it where the book was opened from the home screen. */
type Shown = 'ask' | 'words' | 'done' | 'none';

/** Shows the offer, and another one once `asked` is answered with the browser's prompt. */
export function offerInstall(asked: Promise<InstallPrompt>): void {
  show(isInstalled() ? 'none' : 'words');
  const button = document.querySelector<HTMLElement>('button[data-install="ask"]');
  if (!button || isInstalled()) return;
  void asked.then((prompt) => {
    show('ask');
    button.addEventListener('click', () => void ask(prompt), { once: true });
  });
  addEventListener('appinstalled', () => show('done'));
}

async function ask(prompt: InstallPrompt): Promise<void> {
  await prompt.prompt();
  const { outcome } = await prompt.userChoice;
  // who says no is left alone; the words how to do it later stay
  show(outcome === 'accepted' ? 'done' : 'words');
}

/** Whether the page was opened from the home screen. */
function isInstalled(): boolean {
  const { standalone } = navigator as { readonly standalone?: boolean };
  return standalone === true || matchMedia('(display-mode: standalone)').matches;
}

function show(shown: Shown): void {
  for (const part of document.querySelectorAll<HTMLElement>('[data-install]')) {
    part.hidden = part.dataset.install !== shown;
  }
}
