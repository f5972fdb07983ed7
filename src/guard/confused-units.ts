// Units that are taken for one another: the same quantity in the other system, or the next size up or down.
// Which ones people mix up is common practice, no source.

const pairs: readonly (readonly [string, string])[] = [
  ['in', 'ft'],
  ['in', 'mm'],
  ['in', 'cm'],
  ['mm', 'cm'],
  ['ft', 'm'],
  ['ft', 'yd'],
  ['cm', 'm'],
  ['V', 'mV'],
  ['A', 'mA'],
  ['ohm', 'kohm'],
  ['psi', 'kPa'],
  ['psi', 'bar'],
  ['bar', 'kPa'],
  ['lb', 'kg'],
  ['kg', 't'],
  ['oz', 'g'],
  ['s', 'min'],
  ['min', 'h'],
  ['mph', 'km/h'],
  ['degF', 'degC'],
  ['deg', 'rad'],
  ['deg', 'rev'],
  ['ac', 'ha'],
  ['gal', 'L'],
  ['rpm', 'Hz'],
  ['sq ft', 'sq in'],
  ['sq ft', 'sq m'],
];

const known: ReadonlyMap<string, readonly string[]> = gather();

function gather(): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>([
    // a sign that is left out
    ['%', ['']],
  ]);
  for (const [a, b] of pairs) {
    found.set(a, [...(found.get(a) ?? []), b]);
    found.set(b, [...(found.get(b) ?? []), a]);
  }
  return found;
}

/** The units that `unit` is taken for; none where it is confused with none, or is no unit. Empty text: left out. */
export function confusedUnits(unit: string): readonly string[] {
  return known.get(unit) ?? [];
}
