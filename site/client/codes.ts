// On the page of codes: goes to the page of a code as soon as it is typed whole.

/** Shows the box and watches it; does nothing on any other page. */
export function findCodes(): void {
  const form = document.getElementById('find-code');
  const input = form?.querySelector('input');
  const status = form?.querySelector('.status');
  if (!form || !input || !status) return;
  form.hidden = false;
  form.addEventListener('submit', (event) => event.preventDefault());
  input.addEventListener('input', () => {
    const code = input.value.toUpperCase().replaceAll(/[^A-Z0-9]/g, '');
    status.textContent = '';
    if (code.length < 6) return;
    const link = document.getElementById(code)?.querySelector('a');
    if (link) location.href = link.href;
    else status.textContent = form.dataset.unknown ?? '';
  });
}
