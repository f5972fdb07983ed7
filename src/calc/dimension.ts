// What a quantity is made of: exponents of base dimensions, their algebra, and their names in plain words.

/**
 * Exponents of the base dimensions, in this order: length, mass, time, current, temperature, amount,
 * luminous intensity, angle, bushel count. Exponents may be halves (a square root of an area is a length).
 */
export type Dimension = readonly number[];

const bases = ['length', 'mass', 'time', 'current', 'temperature', 'amount', 'light', 'angle', 'bushels'] as const;
export type BaseDimension = (typeof bases)[number];

/** A dimension by the names of its base dimensions: `dimension({ length: 1, time: -1 })` is a speed. */
export function dimension(exponents: Partial<Record<BaseDimension, number>>): Dimension {
  return bases.map((base) => exponents[base] ?? 0);
}

export const dimensionless: Dimension = dimension({});

export function multiplyDimensions(a: Dimension, b: Dimension): Dimension {
  return a.map((exponent, i) => exponent + (b[i] ?? 0));
}

export function divideDimensions(a: Dimension, b: Dimension): Dimension {
  return a.map((exponent, i) => exponent - (b[i] ?? 0));
}

/** A dimension to a power, which may be a half. */
export function raiseDimension(a: Dimension, power: number): Dimension {
  return a.map((exponent) => (exponent === 0 ? 0 : exponent * power));
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, i) => exponent === (b[i] ?? 0));
}

export function isDimensionless(a: Dimension): boolean {
  return a.every((exponent) => exponent === 0);
}

const energy = { length: 2, mass: 1, time: -2 };

// the first name of a dimension is the one that messages use
const kinds: readonly (readonly [string, Dimension])[] = [
  ['ratio', dimensionless],
  ['number', dimensionless],
  ['count', dimensionless],
  ['moisture', dimensionless],
  ['length', dimension({ length: 1 })],
  ['distance', dimension({ length: 1 })],
  ['height', dimension({ length: 1 })],
  ['width', dimension({ length: 1 })],
  ['area', dimension({ length: 2 })],
  ['volume', dimension({ length: 3 })],
  ['mass', dimension({ mass: 1 })],
  ['weight', dimension({ mass: 1 })],
  ['time', dimension({ time: 1 })],
  ['duration', dimension({ time: 1 })],
  ['bushels', dimension({ bushels: 1 })],
  ['angle', dimension({ angle: 1 })],
  ['rotational-speed', dimension({ angle: 1, time: -1 })],
  ['rotation', dimension({ angle: 1, time: -1 })],
  ['speed', dimension({ length: 1, time: -1 })],
  ['acceleration', dimension({ length: 1, time: -2 })],
  ['frequency', dimension({ time: -1 })],
  ['force', dimension({ length: 1, mass: 1, time: -2 })],
  ['energy', dimension(energy)],
  ['torque', dimension(energy)],
  ['pressure', dimension({ length: -1, mass: 1, time: -2 })],
  ['power', dimension({ ...energy, time: -3 })],
  ['flow', dimension({ length: 3, time: -1 })],
  ['volume-flow', dimension({ length: 3, time: -1 })],
  ['mass-flow', dimension({ mass: 1, time: -1 })],
  ['area-rate', dimension({ length: 2, time: -1 })],
  ['density', dimension({ length: -3, mass: 1 })],
  ['temperature', dimension({ temperature: 1 })],
  ['temperature-difference', dimension({ temperature: 1 })],
  ['voltage', dimension({ ...energy, time: -3, current: -1 })],
  ['current', dimension({ current: 1 })],
  ['resistance', dimension({ ...energy, time: -3, current: -2 })],
  ['bushel-mass', dimension({ mass: 1, bushels: -1 })],
  ['test-weight', dimension({ mass: 1, bushels: -1 })],
  ['yield', dimension({ length: -2, bushels: 1 })],
  ['mass-yield', dimension({ length: -2, mass: 1 })],
];
const dimensionsByKind = new Map(kinds);

/** The dimension that a `quantity:` key names (`voltage`, `temperature`, `mass-flow` …); undefined for an unknown name. */
export function quantityDimension(kind: string): Dimension | undefined {
  return dimensionsByKind.get(kind.replaceAll(/[ _]/g, '-'));
}

/** Every name that `quantity:` may carry. */
export function quantityKinds(): readonly string[] {
  return kinds.map(([kind]) => kind);
}

/** A dimension in plain words: `voltage`, `speed`, a bare `number`, or `length^2 per temperature` where it has no name. */
export function describeDimension(a: Dimension): string {
  if (isDimensionless(a)) return 'number';
  const named = kinds.find(([, known]) => sameDimension(known, a));
  if (named) return named[0].replaceAll('-', ' ');
  const made = describeMade(a);
  if (made) return made;
  // voltage is what books measure: `voltage per angle` says more than five base dimensions
  const rest = divideDimensions(a, dimension({ ...energy, time: -3, current: -1 }));
  if (a[3] === -1 && rest[3] === 0) return `voltage ${describeBases(rest)}`.replace('voltage 1', 'voltage');
  return describeBases(a);
}

/** `voltage squared`, `pressure per angle`, `mass times length`: one or two quantities that have names. */
function describeMade(a: Dimension): string | undefined {
  const name = (of: Dimension): string | undefined =>
    kinds.find(([, known]) => !isDimensionless(known) && sameDimension(known, of))?.[0].replaceAll('-', ' ');
  for (const [power, word] of [
    [2, 'squared'],
    [3, 'cubed'],
  ] as const) {
    const root = name(raiseDimension(a, 1 / power));
    if (root) return `${root} ${word}`;
  }
  const named = kinds.filter(([, known]) => !isDimensionless(known));
  for (const [kind, known] of named) {
    const below = name(divideDimensions(known, a));
    if (below) return `${kind.replaceAll('-', ' ')} per ${below}`;
  }
  for (const [kind, known] of named) {
    const other = name(divideDimensions(a, known));
    if (other) return `${kind.replaceAll('-', ' ')} times ${other}`;
  }
  return undefined;
}

function describeBases(a: Dimension): string {
  const words = (wanted: (exponent: number) => boolean): string =>
    a
      .map((exponent, i) => ({ exponent, base: bases[i] }))
      .filter(({ exponent }) => wanted(exponent))
      .map(({ exponent, base }) => (Math.abs(exponent) === 1 ? base : `${base}^${Math.abs(exponent)}`))
      .join(' ');
  const above = words((exponent) => exponent > 0) || '1';
  const below = words((exponent) => exponent < 0);
  return below ? `${above} per ${below}` : above;
}
