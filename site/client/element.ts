// Elements from code, so that no text is ever read as markup.

/** An element with its attributes and children; texts stay texts. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string>>,
  children: readonly (Node | string)[],
): HTMLElement {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children.filter((child) => child !== ''));
  return made;
}
