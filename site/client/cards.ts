// On the page that a card's printed code leads to: says so where the card is of another revision than the book, and what
// changed since.

/** Compares the revision behind `#` with the page's own; does nothing on any other page. */
export function compareCard(): void {
  const now = document.body.dataset.revision;
  const printed = /^#(\d+)$/.exec(location.hash)?.[1];
  const warning = document.querySelector<HTMLElement>('.card-old');
  if (!warning || now === undefined || printed === undefined) return;
  const since = document.querySelector<HTMLElement>(`.card-since[data-since="${printed}"]`);
  const ofNow = document.querySelector<HTMLElement>('.card-now');
  // a card whose code is printed no more holds only where its release is known to be as the book
  const isNow = printed === now && ofNow !== null;
  show(warning, !isNow);
  show(since, true);
  show(document.querySelector<HTMLElement>('.card-unknown'), !isNow && since === null);
  // an old card may be for other headers than one of today: what its release knows, or all there are
  show(ofNow, isNow);
  show(document.querySelector<HTMLElement>('.card-any'), !isNow && since === null);
}

function show(element: HTMLElement | null, isShown: boolean): void {
  if (element) element.hidden = !isShown;
}
