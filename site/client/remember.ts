// Which machine and header were chosen last, so that the start offers them again. Nothing else is kept.

const key = 'stepgauge-home';

interface LastHome {
  readonly folder: string;
  readonly name: string;
}

/** On a home: keeps it. A phone that refuses to store anything loses only this convenience. */
export function rememberHome(): void {
  const { home, name } = document.body.dataset;
  if (home === undefined || name === undefined) return;
  try {
    localStorage.setItem(key, JSON.stringify({ folder: home, name }));
  } catch {
    // storage is refused or full: the start then asks for the machine again
  }
}

/** On the start: offers the home that was kept. */
export function showLastHome(): void {
  const place = document.getElementById('resume');
  const last = place && readLast();
  if (!place || !last) return;
  const link = document.createElement('a');
  // the start of each language stands beside its own homes
  link.href = last.folder;
  link.textContent = `${place.dataset.words ?? ''} ${last.name}`;
  place.replaceChildren(link);
  place.hidden = false;
}

function readLast(): LastHome | undefined {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? 'null');
    if (typeof kept !== 'object' || kept === null) return undefined;
    const { folder, name } = kept as Partial<Record<keyof LastHome, unknown>>;
    // only a folder of this site, never an address that somebody put there
    if (typeof folder !== 'string' || typeof name !== 'string' || !/^[\w-]+\/[\w-]+\/$/.test(folder)) return undefined;
    return { folder, name };
  } catch {
    return undefined;
  }
}
