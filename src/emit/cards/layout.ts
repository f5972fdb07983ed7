// Measured blocks onto faces of a card: a step is never cut, and each caution stands on the face where it is met, before it.

import type { CardBody, CardContent } from './content.js';
import { card, type Measured, measure, measurePanel, room, sizes } from './measure.js';
import { codeSide } from './printed-code.js';
import { type Measures, runsOf, type Wrapped, wrap } from './text.js';

/** A block and the height at which it begins. */
export interface Placed {
  readonly block: Measured;
  readonly y: number;
}

export interface Face {
  readonly head: Head;
  readonly placed: readonly Placed[];
}

export interface Layout {
  readonly faces: readonly Face[];
  readonly faults: readonly LayoutFault[];
}

/** Why a card cannot be made as it is. */
export type LayoutFault =
  | { readonly kind: 'too-tall'; readonly name: string; readonly over: number }
  | { readonly kind: 'too-wide'; readonly name: string; readonly word: string }
  | { readonly kind: 'title-too-long'; readonly over: number };

const footHeight = sizes.small * sizes.leading + 6;
const floor = card.height - card.bottom - footHeight;

export interface Head {
  readonly title: Wrapped;
  readonly titleSize: number;
  /** Lines below the title, small. */
  readonly below: readonly Wrapped[];
  readonly height: number;
}

/** The head of a side: whole beside the code on the first, short on the others. */
function headOf(content: CardContent, fonts: Measures, isFirst: boolean): Head {
  const width = isFirst ? room - codeSide - 8 : room;
  const titleSize = isFirst ? sizes.title : sizes.text;
  const small = { size: sizes.small, fonts };
  const title = wrap(runsOf(content.title, true), width, { size: titleSize, fonts });
  const below = (isFirst ? [content.rig, content.mode] : [content.rig]).map((text) => wrap(runsOf(text), width, small));
  const lines = below.reduce((sum, part) => sum + part.lines.length, 0);
  const text = title.lines.length * titleSize * 1.2 + lines * sizes.small * sizes.leading;
  return { title, titleSize, below, height: Math.max(isFirst ? codeSide : 0, text) + 6 };
}

/** The blocks and cautions of a body, measured, and which of them have a word that is too wide. */
export interface MeasuredBody {
  readonly body: CardBody;
  readonly blocks: readonly Measured[];
  readonly panels: Panels;
  readonly faults: readonly LayoutFault[];
}

/** Measures what the cards of a variant have in common. */
export function measureBody(body: CardBody, fonts: Measures): MeasuredBody {
  const panels = body.hazards.map((panel) => ({ id: panel.id, block: measurePanel(panel, { fonts }) }));
  const blocks = body.blocks.map((block) => measure(block, { fonts }));
  const faults = [...blocks, ...panels.map(({ block }) => block)].flatMap(({ name, tooWide }) =>
    tooWide === undefined ? [] : [{ kind: 'too-wide' as const, name, word: tooWide }],
  );
  return { body, blocks, panels, faults };
}

/** Lays a card out on as many faces as it takes. Wider words never mend a fault: what fits by `widest` measures fits. */
export function layOut(content: CardContent, { blocks, panels, ...measured }: MeasuredBody, fonts: Measures): Layout {
  const heads = [headOf(content, fonts, true), headOf(content, fonts, false)] as const;
  const faults = [...measured.faults];
  const [first] = heads;
  if (first.title.tooWide !== undefined) faults.push({ kind: 'too-wide', name: 'title', word: first.title.tooWide });
  const tooLong = card.top + first.height - card.height / 2;
  if (tooLong > 0) faults.push({ kind: 'title-too-long', over: tooLong });
  const faces: Face[] = [];
  let rest = blocks;
  while (rest.length > 0) {
    const head = heads[faces.length === 0 ? 0 : 1];
    const top = card.top + head.height;
    const count = fitting(rest, top, panels);
    if (count === 0) {
      const block = rest[0];
      const needed = heightOf(rest.slice(0, 1), panels);
      if (block) faults.push({ kind: 'too-tall', name: block.name, over: top + needed - floor });
    }
    const taken = rest.slice(0, Math.max(count, 1));
    faces.push({ head, placed: place(taken, top, panels) });
    rest = rest.slice(taken.length);
  }
  return { faces, faults };
}

type Panels = readonly { readonly id: string; readonly block: Measured }[];

function panelsFor(blocks: readonly Measured[], panels: Panels): readonly Measured[] {
  const met = new Set(blocks.flatMap(({ hazards }) => hazards));
  return panels.filter(({ id }) => met.has(id)).map(({ block }) => block);
}

function heightOf(blocks: readonly Measured[], panels: Panels): number {
  return [...panelsFor(blocks, panels), ...blocks].reduce((sum, { height }) => sum + height, 0);
}

/** How many of the next blocks one face takes. A heading does not stay behind alone. */
function fitting(blocks: readonly Measured[], top: number, panels: Panels): number {
  let count = 0;
  while (count < blocks.length && top + heightOf(blocks.slice(0, count + 1), panels) <= floor) count += 1;
  while (count > 1 && count < blocks.length && blocks[count - 1]?.keepWithNext) count -= 1;
  return count;
}

function place(blocks: readonly Measured[], top: number, panels: Panels): readonly Placed[] {
  let y = top;
  return [...panelsFor(blocks, panels), ...blocks].map((block) => {
    const at = { block, y };
    y += block.height;
    return at;
  });
}
