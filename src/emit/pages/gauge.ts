// A check value drawn from its data: the sensor's band as a line, the tolerance as a block, what the instrument's
// uncertainty takes away hatched at its ends. Shows nothing that is not also said in words beside it.

import type { Limits } from '../../calc/limits.js';
import { exactDecimals, formatDecimals, type Rational, toNumber } from '../../calc/rational.js';
import { fromBase, type Unit } from '../../calc/unit.js';
import type { ResolvedValue } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import type { Voice } from '../voice.js';

const left = 10;
const right = 270;
const line = 24;

/** What the gauge shows, as numbers in the value's unit. */
export interface GaugeView {
  readonly from: number;
  readonly to: number;
  /** Whether the band goes on beyond the picture. */
  readonly cutFrom: boolean;
  readonly cutTo: boolean;
}

/** The hatching, once for a page: pictures refer to it by its id. */
export const hatching: Html = html`<svg class="defs" width="0" height="0" aria-hidden="true" focusable="false"><defs><pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="stroke" width="2.2" height="5"/></pattern></defs></svg>`;

/** The picture; nothing for a value without limits. */
export function drawGauge(value: ResolvedValue, voice: Voice, label: string): Html | undefined {
  const used = value.acceptance ?? value.tolerance;
  if (!used || (used.low === undefined && used.high === undefined)) return undefined;
  const { unit } = value;
  const view = viewOf(value, used);
  const at = scale(view);
  const words = [
    voice.text('gauge', { label, limits: voice.number(value.shown.acceptance ?? value.shown.tolerance ?? '') }),
    value.shown.inside !== undefined && voice.text('gauge-band', { inside: voice.number(value.shown.inside) }),
  ].filter((part) => part !== false);
  return html`<svg class="gauge" viewBox="0 0 280 58" role="img" aria-label="${words.join(' ')}">
<path class="band" d="${bandPath(view)}"/>
${block(value.tolerance ?? used, at, unit)}${guards(value, at)}${ends(used, at, unit)}${nominal(value, at, unit)}</svg>`;
}

type Scale = (value: number) => number;

function scale({ from, to }: GaugeView): Scale {
  return (value) => left + ((Math.min(Math.max(value, from), to) - from) / (to - from)) * (right - left);
}

/** The stretch to draw: the whole band where the tolerance stays visible in it, else the neighbourhood of the limits. */
export function viewOf(value: ResolvedValue, used: Limits): GaugeView {
  const { unit } = value;
  const wide = value.tolerance ?? used;
  const band = value.inside ?? value.instrument?.range;
  const [low, high] = [numberOf(wide.low, unit), numberOf(wide.high, unit)];
  const [bandLow, bandHigh] = [numberOf(band?.low, unit), numberOf(band?.high, unit)];
  const room = roomAround(low, high);
  const near = {
    from: low === undefined ? Math.min(0, (high ?? 0) - 2 * room) : low - room,
    to: high === undefined ? (low ?? 0) + 2 * room : high + room,
  };
  const fits =
    bandLow !== undefined && bandHigh !== undefined && bandHigh - bandLow <= (12 * (near.to - near.from)) / 3;
  const from = bandLow === undefined ? near.from : fits ? bandLow : Math.max(bandLow, near.from);
  const to = bandHigh === undefined ? near.to : fits ? bandHigh : Math.min(bandHigh, near.to);
  if (!(from < to)) return { ...near, cutFrom: true, cutTo: true };
  return { from, to, cutFrom: from !== bandLow, cutTo: to !== bandHigh };
}

function roomAround(low: number | undefined, high: number | undefined): number {
  const width = low !== undefined && high !== undefined ? high - low : Math.abs(low ?? high ?? 0) / 2;
  return width > 0 ? width : Math.max(Math.abs(low ?? high ?? 0) / 10, 1);
}

/** A base value in a unit, as a float for drawing; undefined for a missing end. */
export function numberOf(value: Rational | undefined, unit: Unit): number | undefined {
  return value === undefined ? undefined : toNumber(fromBase(value, unit)) / Math.PI ** unit.pi;
}

function bandPath({ cutFrom, cutTo }: GaugeView): string {
  // a band that goes on ends open; one that ends has a stop
  const start = cutFrom ? `M${left - 8} ${line}` : `M${left} ${line - 6}v12M${left} ${line}`;
  return cutTo ? `${start}H${right + 8}` : `${start}H${right}M${right} ${line - 6}v12`;
}

function block(limits: Limits, at: Scale, unit: Unit): Html {
  const from = limits.low === undefined ? left : at(numberOf(limits.low, unit) ?? 0);
  const to = limits.high === undefined ? right : at(numberOf(limits.high, unit) ?? 0);
  return html`<rect class="tolerance" x="${round(from)}" y="${line - 12}" width="${round(Math.max(to - from, 2))}" height="24"/>`;
}

function guards({ tolerance, acceptance, unit }: ResolvedValue, at: Scale): readonly Html[] {
  if (!tolerance || !acceptance) return [];
  const pairs = [
    [numberOf(tolerance.low, unit), numberOf(acceptance.low, unit)],
    [numberOf(acceptance.high, unit), numberOf(tolerance.high, unit)],
  ];
  return pairs
    .filter((pair): pair is [number, number] => pair[0] !== undefined && pair[1] !== undefined && pair[0] < pair[1])
    .map(
      ([from, to]) =>
        html`<rect class="guard" x="${round(at(from))}" y="${line - 12}" width="${round(Math.max(at(to) - at(from), 2))}" height="24" fill="url(#hatch)"/>`,
    );
}

function ends(limits: Limits, at: Scale, unit: Unit): readonly Html[] {
  const decimals = Math.min(exactDecimals(limits.resolution) ?? 2, 4);
  const mark = (end: Rational | undefined, anchor: string): Html | undefined => {
    const number = numberOf(end, unit);
    if (number === undefined || end === undefined) return undefined;
    const x = round(at(number));
    const words = unit.pi === 0 ? formatDecimals(fromBase(end, unit), decimals) : String(round(number));
    return html`<path class="end" d="M${x} ${line - 15}v30"/><text x="${x}" y="55" text-anchor="${anchor}">${words}</text>`;
  };
  const [low, high] = [numberOf(limits.low, unit), numberOf(limits.high, unit)];
  if (low !== undefined && low === high) return [mark(limits.low, 'middle')].filter((part) => part !== undefined);
  // two numbers side by side must not touch: close ends push their labels outward
  const close = low !== undefined && high !== undefined && at(high) - at(low) < 64;
  return [mark(limits.low, close ? 'end' : 'middle'), mark(limits.high, close ? 'start' : 'middle')].filter(
    (part) => part !== undefined,
  );
}

function nominal({ nominal: aim }: ResolvedValue, at: Scale, unit: Unit): Html | undefined {
  const number = numberOf(aim?.nominal ?? aim?.low, unit);
  if (number === undefined) return undefined;
  const x = round(at(number));
  return html`<path class="aim" d="M${x} ${line - 2}l-6 -11h12z"/>`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
