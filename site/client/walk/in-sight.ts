// Keeps in sight what a person works at: the field that is typed into, what is still missing, the bar above a keypad.

/** Watches the walk until it is closed. */
export function watchSight(bar: HTMLElement): void {
  const ending = new AbortController();
  const { signal } = ending;
  document.addEventListener('walk-closed', () => ending.abort(), { once: true });
  // the bar grows with a verdict, the screen shrinks with a keypad
  const sizes = new ResizeObserver(() => keepField(bar));
  sizes.observe(bar);
  signal.addEventListener('abort', () => sizes.disconnect());
  addEventListener('resize', () => keepField(bar), { signal });
  addEventListener('focusin', () => keepField(bar), { signal });
  // where a keypad lies over the page instead of making it smaller, the bar stands on the keypad
  const seen = window.visualViewport;
  const lift = (): void => {
    const isZoomed = (seen?.scale ?? 1) > 1.01;
    const covered = seen && !isZoomed ? Math.max(0, innerHeight - seen.height - seen.offsetTop) : 0;
    bar.style.bottom = covered > 0 ? `${covered}px` : '';
    keepField(bar);
  };
  seen?.addEventListener('resize', lift, { signal });
  seen?.addEventListener('scroll', lift, { signal });
}

/** Moves the field that is typed into out from under the bar, its limits with it where there is room. */
function keepField(bar: HTMLElement): void {
  const active = document.activeElement;
  if (!(active instanceof HTMLElement) || !active.matches('input:not([type="checkbox"]), select, textarea')) return;
  if (bar.contains(active)) return;
  const field = active.closest<HTMLElement>('.walk-field') ?? active;
  const floor = bar.getBoundingClientRect().top;
  const top = document.querySelector('.walk-top');
  const ceiling = top && getComputedStyle(top).position === 'sticky' ? top.getBoundingClientRect().bottom : 0;
  const limits = active.closest('.value')?.querySelector('.limits');
  const { top: above, bottom: below } = field.getBoundingClientRect();
  const wanted = Math.max(below, limits?.getBoundingClientRect().bottom ?? 0) + 6 - floor;
  // never so far that the field itself goes under the head
  const by = Math.min(wanted, above - ceiling - 4);
  if (by > 1) scrollBy(0, by);
}

const wants = [
  '.walk-here.walk-here .walk-skill',
  '#before.walk-here .ticks input:not(:checked)',
  '.walk-here [aria-invalid="true"]',
  '.walk-here .walk-field:not(.small) input',
  '.walk-here .walk-marks:not(:has([aria-pressed="true"]))',
  '.walk-here .walk-timer',
  '.walk-here .walk-table',
];

/** Brings the first thing that is still missing into sight. */
export function showMissing(): void {
  const found = wants.flatMap((selector) => [...document.querySelectorAll<HTMLElement>(selector)]);
  const first = found.find((one) => !(one instanceof HTMLInputElement && one.type === 'text' && isRight(one)));
  first
    ?.closest('li, .walk-field, .walk-skill, .walk-marks, .walk-timer, .walk-table')
    ?.scrollIntoView({ block: 'center' });
}

function isRight(input: HTMLInputElement): boolean {
  return input.value.trim() !== '' && input.getAttribute('aria-invalid') !== 'true';
}
