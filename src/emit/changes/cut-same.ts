// Two long texts of which little differs: what they share is left out but for some words around the difference.

/** Texts up to this length are shown whole. */
const shortEnough = 160;

/** Words that stay on either side of the difference. */
const around = 6;

/** Both texts, cut to where they differ. */
export function cutSame(before: string, after: string): { readonly before: string; readonly after: string } {
  if (Math.max(before.length, after.length) <= shortEnough) return { before, after };
  const [old, now] = [before.split(' '), after.split(' ')];
  const most = Math.min(old.length, now.length);
  let start = 0;
  while (start < most && old[start] === now[start]) start += 1;
  let end = 0;
  while (end < most - start && old[old.length - 1 - end] === now[now.length - 1 - end]) end += 1;
  const cut = (words: readonly string[]): string => {
    const from = Math.max(0, start - around);
    const to = Math.min(words.length, words.length - end + around);
    return [from > 0 ? '…' : '', ...words.slice(from, to), to < words.length ? '…' : '']
      .filter((word) => word !== '')
      .join(' ');
  };
  return { before: cut(old), after: cut(now) };
}
