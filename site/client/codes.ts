// On the page of codes and on the list of units: finds what is typed. On the address of a code: goes on to its page.

/** Shows the box and watches it: `ABC 123 7` is the page ABC 123 at its step 7. */
export function findCodes(): void {
  const form = document.getElementById('find-code');
  const input = form?.querySelector('input');
  const status = form?.querySelector('.status');
  if (!form || !input || !status) return;
  form.hidden = false;
  const find = (): string | undefined => {
    const { code, step } = readCode(input.value);
    const link = document.getElementById(code)?.querySelector('a');
    status.textContent = code.length < 6 ? '' : link ? link.textContent : (form.dataset.unknown ?? '');
    return link ? link.href + (step === '' ? '' : `#step-${step}`) : undefined;
  };
  input.addEventListener('input', find);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const address = find();
    if (address !== undefined) location.href = address;
  });
}

/** The six signs of a code, and the step behind them as its part of an address: `4.1` gives `4-1`. */
function readCode(typed: string): { readonly code: string; readonly step: string } {
  const [, code = '', rest = ''] = /^((?:[^A-Z0-9]*[A-Z0-9]){0,6})(.*)$/.exec(typed.toUpperCase()) ?? [];
  const step = /[A-Z]?\d+(?:[.-]\d+)*|[A-Z]\d*/.exec(rest)?.[0] ?? '';
  return { code: code.replaceAll(/[^A-Z0-9]/g, ''), step: step.replaceAll('.', '-') };
}

/** On the address of a code: opens its page, at the step that the address names. */
export function followCode(): void {
  const { go } = document.body.dataset;
  if (go !== undefined && !/^[a-z]+:|^\/\//i.test(go)) location.replace(go + location.hash);
}

/** On the list of units: leaves those in sight whose id or serial holds what is typed, however it is spaced. */
export function findUnits(): void {
  const form = document.getElementById('find-unit');
  const input = form?.querySelector('input');
  const status = form?.querySelector('.status');
  if (!form || !input || !status) return;
  form.hidden = false;
  form.addEventListener('submit', (event) => event.preventDefault());
  const rows = [...document.querySelectorAll<HTMLElement>('#units > li')];
  const plain = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N} ]/gu, '');
  input.addEventListener('input', () => {
    const asked = plain(input.value).replaceAll(' ', '');
    for (const row of rows)
      row.hidden = !plain(row.dataset.find ?? '')
        .split(' ')
        .some((word) => word.includes(asked));
    status.textContent = rows.every(({ hidden }) => hidden) ? (form.dataset.unknown ?? '') : '';
  });
}
