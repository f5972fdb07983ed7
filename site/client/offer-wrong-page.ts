// *This page is wrong*: shows its button; the form is fetched when it is pressed.

/** Shows the button and makes it work; does nothing on pages without one. */
export function offerWrongPage(): void {
  const button = document.getElementById('page-wrong');
  if (!button) return;
  button.hidden = false;
  button.addEventListener('click', () => {
    const step = /^#step-([\w-]+)$/.exec(location.hash)?.[1]?.replaceAll('-', '.');
    void import('./job/wrong-page.js').then(({ askWhatIsWrong }) => askWhatIsWrong(step));
  });
}
