// Which homes were kept, noted apart from the files: when the phone has thrown those away, it can be said.

const key = (root: string): string => `stepgauge-kept ${root}`;

/** By the folder of each home that was kept. */
export function readMarks(root: string): Readonly<Record<string, true>> {
  try {
    const marks: unknown = JSON.parse(localStorage.getItem(key(root)) ?? '{}');
    return typeof marks === 'object' && marks !== null ? (marks as Record<string, true>) : {};
  } catch {
    // storage refused: then nothing was kept either
    return {};
  }
}

/** Notes that a home is kept, or no longer. */
export function setMark(root: string, folder: string, isKept: boolean): void {
  const { [folder]: _, ...others } = readMarks(root);
  try {
    localStorage.setItem(key(root), JSON.stringify(isKept ? { ...others, [folder]: true } : others));
  } catch {
    // without the note only the sentence that something was thrown away is lost
  }
}
