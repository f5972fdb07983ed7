// Words that stand hidden in a page: shows those named, fills their places. No text is made here.

/** Shows the parts of a place that carry one of these names (`data-say`, `data-do`), and hides its others. */
export function showOnly(place: HTMLElement, names: readonly string[]): void {
  for (const part of place.querySelectorAll<HTMLElement>('[data-say],[data-do]')) {
    part.hidden = !names.includes(part.dataset.say ?? part.dataset.do ?? '');
  }
}

/** Fills the places of a part by their names. */
export function fill(place: HTMLElement, texts: Readonly<Record<string, string>>): void {
  for (const part of place.querySelectorAll<HTMLElement>('[data-fill]')) {
    const text = texts[part.dataset.fill ?? ''];
    if (text !== undefined) part.textContent = text;
  }
}

/** `3.1 MB`, `40 kB`. */
export function sayBytes(bytes: number): string {
  return bytes >= 100_000 ? `${(bytes / 1_000_000).toFixed(1)}\u00a0MB` : `${Math.ceil(bytes / 1000)}\u00a0kB`;
}

/** A moment as day and time in the words of the page's language, the day first as everywhere on the site. */
export function sayMoment(moment: string): string {
  const { lang } = document.documentElement;
  const shape = { day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit' } as const;
  return new Date(moment).toLocaleString(lang === 'en' ? 'en-GB' : lang, shape);
}
