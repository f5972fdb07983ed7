// The pictures that pages draw from a rig's own numbers: its header, the way of a reading, the drives that run.

import { formatLimits } from '../../calc/display.js';
import { isSingle, type Limits } from '../../calc/limits.js';
import { compare, exactDecimals, formatDecimals } from '../../calc/rational.js';
import { resolveLimits } from '../../calc/resolve-limits.js';
import { fromBase, isSameSize } from '../../calc/unit.js';
import type { ResolvedProcedure, ResolvedValue, Variant } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import { type DriveRow, drawDrives } from '../pictures/drives.js';
import { drawHeader } from '../pictures/header.js';
import { drawTravel, type Stop } from '../pictures/travel.js';
import type { Voice } from '../voice.js';
import { fillText, pictureTexts } from '../words/pictures.js';
import { calculatorsLink } from './calculators-link.js';
import { type Page, plainOf } from './context.js';
import { numberOf } from './gauge.js';
import type { Home } from './site-map.js';
import { factsOf } from './step-facts.js';

/** A parameter of a header that is one written number for every rig; undefined where it is a choice or follows from others. */
function writtenNumber({ header }: Home, id: string): Limits | undefined {
  const value = header.parameters.get(id)?.value;
  if (value?.kind !== 'one') return undefined;
  const found = resolveLimits(value.value.expr, () => undefined);
  return found.ok && isSingle(found.value) ? found.value : undefined;
}

/**
 * The header of a home from above, with the way to the calculator that has its numbers. Nothing for a header whose
 * `working_width` is not one number; `rows` and `row_spacing` are drawn where it has both.
 */
export function drawOwnHeader(page: Page, home: Home): Html | undefined {
  const drawn = headerPicture(page, home);
  if (!drawn) return undefined;
  const { picture, description, texts, numbers } = drawn;
  return html`<section class="own-header"><h2>${texts.header}</h2>
${picture}<p>${description}${numbers !== undefined && html` <a href="${calculatorsLink(page)}#width-area?${numbers}">${texts.calculate}</a>`}</p></section>
`;
}

/** The same picture with what it shows in words, to tell headers apart by. */
export function drawHeaderToTell(page: Page, home: Home): Html | undefined {
  const drawn = headerPicture(page, home);
  return drawn && html`${drawn.picture}<p class="aside">${drawn.description}</p>`;
}

interface HeaderPicture {
  readonly picture: Html;
  /** What it shows. */
  readonly description: string;
  readonly texts: ReturnType<typeof pictureTexts>;
  /** For the calculator, where it has rows. */
  readonly numbers?: string;
}

function headerPicture(page: Page, home: Home): HeaderPicture | undefined {
  const [rows, spacing, width] = ['rows', 'row_spacing', 'working_width'].map((id) => writtenNumber(home, id));
  if (!width?.low) return undefined;
  const texts = pictureTexts(page.voice.language);
  const count = rows?.low && spacing ? numberOf(rows.low, rows.unit) : undefined;
  const printed = {
    width: page.voice.number(formatLimits(width)),
    spacing: spacing ? page.voice.number(formatLimits(spacing)) : '',
  };
  const description = fillText(count === undefined ? texts.headerWithoutRows : texts.headerWithRows, {
    ...printed,
    rows: String(count),
  });
  const shape = { width: printed.width, ...(count !== undefined && { rows: count, spacing: printed.spacing }) };
  const picture = drawHeader(shape, { title: `${texts.header}: ${plainOf(page, home.header.name)}`, description });
  return {
    picture,
    description,
    texts,
    ...(count !== undefined && spacing && { numbers: numbersFor(count, spacing) }),
  };
}

function numbersFor(rows: number, spacing: Limits): string {
  const value = spacing.low && fromBase(spacing.low, spacing.unit);
  const typed = value ? formatDecimals(value, exactDecimals(value) ?? 3) : '';
  return new URLSearchParams([
    ['rows', String(rows)],
    ['spacing', typed],
    ['spacing.unit', spacing.unit.symbol],
  ]).toString();
}

/**
 * The way of a reading between two ends, in the band in which it reads: for a value that is the difference of two others
 * of the same unit and band. Nothing for any other.
 */
export function drawWay(value: ResolvedValue, procedure: ResolvedProcedure, voice: Voice): Html | undefined {
  const expr = value.derived?.expr;
  if (expr?.kind !== 'binary' || expr.op !== '-' || expr.left.kind !== 'name' || expr.right.kind !== 'name')
    return undefined;
  const paths = [expr.left.path, expr.right.path];
  const ends = paths.flatMap((path) => procedure.values.find(({ id }) => id === path) ?? []);
  const [first, second] = ends;
  const band = first?.inside;
  if (!first || !second || !band || !isSameBand(band, second.inside)) return undefined;
  const stops = [second, first].flatMap((one) => stopOf(one, band, voice) ?? []);
  const [from, to] = [numberOf(band.low, band.unit), numberOf(band.high, band.unit)];
  if (stops.length < 2 || from === undefined || to === undefined) return undefined;
  const texts = pictureTexts(voice.language);
  const shown = voice.number(formatLimits(band));
  const words = {
    title: fillText(texts.travel, { label: voice.plain(value.label) }),
    description: `${stops.map(({ label, text }) => `${label}: ${text}`).join('; ')}. ${fillText(texts.travelBand, { band: shown })}`,
  };
  const print = (end: number): string => `${Math.round(end * 1000) / 1000} ${band.unit.symbol}`;
  return drawTravel({ band: { from, to, low: print(from), high: print(to) }, stops, way: true }, words);
}

function isSameBand(a: Limits, b: Limits | undefined): boolean {
  if (!a.low || !a.high || !b?.low || !b.high) return false;
  return isSameSize(a.unit, b.unit) && compare(a.low, b.low) === 0 && compare(a.high, b.high) === 0;
}

function stopOf(value: ResolvedValue, band: Limits, voice: Voice): Stop | undefined {
  const limits = value.acceptance ?? value.tolerance;
  const text = value.shown.acceptance ?? value.shown.tolerance;
  const [from, to] = [numberOf(limits?.low, band.unit), numberOf(limits?.high, band.unit)];
  if (from === undefined || to === undefined || text === undefined) return undefined;
  return { from, to, text: voice.number(text), label: voice.plain(value.label) };
}

/** The word by which a book says that a drive runs. */
const running = 'engaged';

/**
 * Which drives run as each step begins, as the order proof knows it: a row for each state that may be `engaged`. Nothing
 * where none of them ever runs, or where nothing was proved.
 */
export function drawRunningDrives(page: Page, variant: Variant): Html | undefined {
  const { voice, site } = page;
  const facts = factsOf(page, variant);
  const steps = [...facts].filter(([, { place }]) => place.end === undefined);
  const texts = pictureTexts(voice.language);
  const rows = site.book.world.variables
    .filter(({ values }) => values.includes(running))
    .map(({ id, label }): DriveRow => {
      const at = steps.map(([, { before }]) => before.find(({ state }) => state === id)?.values);
      return { label: voice.plain(label), at: at.map(runs) };
    })
    .filter(({ at }) => at.includes('on'));
  const [first, last] = [steps[0]?.[0], steps.at(-1)?.[0]];
  if (rows.length === 0 || first === undefined || last === undefined) return undefined;
  const said = rows.map(
    ({ label, at }) =>
      `${label}: ${sayRuns(
        at,
        steps.map(([number]) => number),
        texts,
      )}`,
  );
  const words = { title: texts.drives, description: `${said.join('; ')}.` };
  return html`<details class="drives"><summary>${texts.drives}</summary>
${drawDrives(
  steps.map(([number]) => number),
  rows,
  words,
)}<p class="aside">${texts.drivesHow}</p></details>
`;
}

function runs(values: readonly string[] | undefined): DriveRow['at'][number] {
  if (!values?.includes(running)) return values ? 'off' : 'unknown';
  return values.length === 1 ? 'on' : 'unknown';
}

function sayRuns(at: DriveRow['at'], steps: readonly string[], texts: ReturnType<typeof pictureTexts>): string {
  const parts: { state: DriveRow['at'][number]; from: string; to: string }[] = [];
  at.forEach((state, i) => {
    const last = parts.at(-1);
    const step = steps[i] ?? '';
    if (last?.state === state) last.to = step;
    else parts.push({ state, from: step, to: step });
  });
  return parts.map(({ state, from, to }) => `${texts[state]}, ${fillText(texts.steps, { from, to })}`).join('; ');
}
