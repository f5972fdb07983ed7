// The calculators of the site: what is asked for, and what follows from it, as expressions of the book's own grammar. Words
// stand elsewhere. Weighed loads, which are a table, stand in harvest/load-calibration.ts.

/** One number that is asked for. */
export interface Field {
  readonly name: string;
  /** The units that it may be typed in, the first first. */
  readonly units: readonly string[];
  /** What stands in it at first, in the first unit: the worked example. */
  readonly example: string;
  /** What it can be at all, in the first unit; a number beyond that is a slip and gets no result. */
  readonly bounds?: Bounds;
  /** Another field that this one is never larger than. */
  readonly notAbove?: string;
}

/** Where a number can lie: `least` and `most` count as inside, `above` and `below` do not. */
export interface Bounds {
  readonly least?: string;
  readonly above?: string;
  readonly most?: string;
  readonly below?: string;
}

/** One number that follows. */
export interface Outcome {
  readonly name: string;
  readonly formula: string;
  /** The units that it is shown in. */
  readonly units: readonly string[];
}

export interface Calculator {
  readonly id: string;
  readonly fields: readonly Field[];
  readonly outcomes: readonly Outcome[];
}

const lengths = ['ft', 'm'];
const speeds = ['mph', 'km/h'];
const some: Bounds = { above: '0' };
const none: Bounds = { least: '0' };
const share: Bounds = { least: '0', most: '100' };
// all water has no dry matter left to work with
const moist: Bounds = { least: '0', below: '100' };

/** In the order of the page. */
export const calculators: readonly Calculator[] = [
  {
    id: 'width-area',
    fields: [
      { name: 'rows', units: [''], example: '12', bounds: { least: '1' } },
      { name: 'spacing', units: ['in', 'cm'], example: '20', bounds: some },
      { name: 'distance', units: lengths, example: '1320', bounds: some },
    ],
    outcomes: [
      { name: 'width', formula: 'rows * spacing', units: lengths },
      { name: 'area', formula: 'rows * spacing * distance', units: ['ac', 'ha'] },
    ],
  },
  {
    id: 'speed',
    fields: [
      { name: 'distance', units: lengths, example: '88', bounds: some },
      { name: 'time', units: ['s'], example: '12', bounds: some },
      { name: 'wanted', units: speeds, example: '4', bounds: some },
    ],
    outcomes: [
      { name: 'speed', formula: 'distance / time', units: speeds },
      { name: 'seconds', formula: 'distance / wanted', units: ['s'] },
    ],
  },
  {
    id: 'width-error',
    fields: [
      { name: 'cut', units: lengths, example: '20', bounds: some },
      { name: 'logged', units: lengths, example: '17.5', bounds: some },
    ],
    outcomes: [
      { name: 'area_error', formula: 'logged / cut - 1', units: ['%'] },
      { name: 'yield_error', formula: 'cut / logged - 1', units: ['%'] },
    ],
  },
  {
    id: 'shrink',
    fields: [
      { name: 'mass', units: ['lb', 'kg', 't'], example: '10000', bounds: none },
      { name: 'moisture', units: ['%'], example: '20', bounds: moist },
      { name: 'base', units: ['%'], example: '15.5', bounds: moist },
      { name: 'bushel', units: ['lb/bu', 'kg/bu'], example: '56', bounds: some },
    ],
    outcomes: [
      { name: 'shrink', formula: '1 - (1 - moisture) / (1 - base)', units: ['%'] },
      { name: 'dry_mass', formula: 'mass * (1 - moisture) / (1 - base)', units: ['lb', 'kg'] },
      { name: 'dry_bushels', formula: 'mass * (1 - moisture) / (1 - base) / bushel', units: ['bu'] },
    ],
  },
  {
    id: 'loss',
    fields: [
      { name: 'behind', units: [''], example: '120', bounds: none },
      { name: 'before', units: [''], example: '0', bounds: none, notAbove: 'behind' },
      { name: 'frame', units: ['sq ft', 'm^2'], example: '10', bounds: some },
      { name: 'cut', units: lengths, example: '30', bounds: some },
      { name: 'spread', units: lengths, example: '5', bounds: some },
      { name: 'seeds', units: [''], example: '90000', bounds: some },
      { name: 'bushel', units: ['lb/bu', 'kg/bu'], example: '56', bounds: some },
    ],
    outcomes: [
      { name: 'loss', formula: '(behind - before) * spread / cut / frame * 1 bu / seeds', units: ['bu/ac'] },
      {
        name: 'loss_mass',
        formula: '(behind - before) * spread / cut / frame * 1 bu / seeds * bushel',
        units: ['lb/ac', 'kg/ha'],
      },
    ],
  },
  {
    id: 'sensor-turn',
    fields: [
      { name: 'reading', units: ['V'], example: '3.30', bounds: none },
      { name: 'aim', units: ['V'], example: '3.90', bounds: none },
      { name: 'moves', units: ['V/deg'], example: '0.045' },
    ],
    outcomes: [{ name: 'turn', formula: '(aim - reading) / moves', units: ['deg'] }],
  },
  {
    id: 'voltage',
    fields: [
      { name: 'supply', units: ['V'], example: '5.0 ± 0.1', bounds: some },
      { name: 'low', units: ['%'], example: '10', bounds: share },
      { name: 'high', units: ['%'], example: '90', bounds: share },
      { name: 'reading', units: ['V'], example: '2.50', bounds: none },
    ],
    outcomes: [
      { name: 'at_low', formula: 'low * supply', units: ['V'] },
      { name: 'at_high', formula: 'high * supply', units: ['V'] },
      { name: 'share', formula: 'reading / supply', units: ['%'] },
    ],
  },
  {
    id: 'following',
    fields: [
      { name: 'rate', units: ['in/s', 'm/s'], example: '6', bounds: some },
      { name: 'steepness', units: ['%'], example: '10', bounds: some },
      { name: 'delay', units: ['s'], example: '0.3', bounds: some },
      { name: 'allowed', units: ['in', 'cm'], example: '2', bounds: some },
    ],
    outcomes: [
      { name: 'by_rate', formula: 'rate / steepness', units: speeds },
      { name: 'by_delay', formula: 'allowed / (delay * steepness)', units: speeds },
      { name: 'speed', formula: 'min(rate / steepness, allowed / (delay * steepness))', units: speeds },
    ],
  },
];
