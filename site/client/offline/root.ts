// Where the site begins, from any of its pages.

/** The address of the site's root, with `/` at its end. */
export function siteRoot(): string {
  return new URL(document.body.dataset.root ?? './', location.href).href;
}

/** Whether the page came from a site that can be asked again: not from a file on a stick. */
export function isServed(): boolean {
  return location.protocol === 'http:' || location.protocol === 'https:';
}
