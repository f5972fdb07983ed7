// On the page that a card's printed code leads to: says so where the card is of another revision than the book.

/** Compares the revision behind `#` with the page's own; does nothing on any other page. */
export function compareCard(): void {
  const now = document.body.dataset.revision;
  const printed = /^#(\d+)$/.exec(location.hash)?.[1];
  const warning = document.querySelector<HTMLElement>('.card-old');
  if (warning && now !== undefined && printed !== undefined && printed !== now) warning.hidden = false;
}
