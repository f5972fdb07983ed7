// Sets of joint states as lists of boxes: a bit set of atoms for each variable of a component, all combinations of them.
// Exact set operations; no meaning here.

/** One bit set for each variable, in the component's order. */
export type Box = readonly bigint[];

/** The combinations that both have; undefined where there are none. */
export function intersectBoxes(a: Box, b: Box): Box | undefined {
  const both = a.map((bits, i) => bits & (b[i] ?? 0n));
  return both.includes(0n) ? undefined : both;
}

/** Whether `inner` lies wholly in `outer`. */
export function isInside(inner: Box, outer: Box): boolean {
  return inner.every((bits, i) => (bits & ~(outer[i] ?? 0n)) === 0n);
}

/** `box` without `cut`, as boxes that do not overlap. */
export function subtractBox(box: Box, cut: Box): readonly Box[] {
  if (!intersectBoxes(box, cut)) return [box];
  const parts: Box[] = [];
  let rest = box;
  for (let i = 0; i < box.length; i += 1) {
    const bits = rest[i] ?? 0n;
    const outside = bits & ~(cut[i] ?? 0n);
    if (outside !== 0n) parts.push(replace(rest, i, outside));
    rest = replace(rest, i, bits & (cut[i] ?? 0n));
  }
  return parts;
}

/** `box` with other bits for one variable. */
export function replace(box: Box, index: number, bits: bigint): Box {
  const copy = [...box];
  copy[index] = bits;
  return copy;
}

/** Whether `boxes` cover all of `box`. */
export function isCovered(box: Box, boxes: readonly Box[]): boolean {
  if (boxes.some((each) => isInside(box, each))) return true;
  let rest: readonly Box[] = [box];
  for (const each of boxes) {
    rest = rest.flatMap((part) => subtractBox(part, each));
    if (rest.length === 0) return true;
  }
  return false;
}

/** The same set in few boxes, in one order: none inside another, none that two could be one. */
export function tidy(boxes: readonly Box[]): readonly Box[] {
  if (boxes.length < 2) return boxes;
  let list = [...new Map(boxes.map((box) => [keyOf(box), box])).values()];
  list = list.filter((box, i) => !list.some((other, j) => i !== j && isInside(box, other)));
  for (let joined = joinOnce(list); joined; joined = joinOnce(list)) list = joined;
  return list
    .map((box) => ({ box, key: keyOf(box) }))
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .map(({ box }) => box);
}

// Two boxes that differ in one variable are one. What has become part of another goes.
function joinOnce(list: readonly Box[]): Box[] | undefined {
  for (let i = 0; i < list.length; i += 1) {
    for (let j = i + 1; j < list.length; j += 1) {
      const joined = joinPair(list[i] ?? [], list[j] ?? []);
      if (joined) return [...list.filter((box) => !isInside(box, joined)), joined];
    }
  }
  return undefined;
}

function joinPair(a: Box, b: Box): Box | undefined {
  let apart = -1;
  for (let i = 0; i < a.length; i += 1) {
    if (a[i] === b[i]) continue;
    if (apart >= 0) return undefined;
    apart = i;
  }
  return apart < 0 ? a : replace(a, apart, (a[apart] ?? 0n) | (b[apart] ?? 0n));
}

/** A text that tells boxes apart. */
export function keyOf(box: Box): string {
  return box.map((bits) => bits.toString(16)).join(',');
}

/** A text that tells lists of boxes apart. */
export function keyOfAll(boxes: readonly Box[]): string {
  return boxes.map(keyOf).join(';');
}
