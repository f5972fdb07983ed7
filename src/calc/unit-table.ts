// The table of units: symbol, size as an exact fraction of base units, UCUM code, system, counterpart.
// Sizes: NIST SP 811 (2008) Appendix B, exact definitions only; the angle's base unit is the revolution.

import type { Dimension } from './dimension.js';
import { dimension, dimensionless, multiplyDimensions, raiseDimension } from './dimension.js';
import type { Rational } from './rational.js';
import { add, divide, fromDecimal, multiply, one, rational } from './rational.js';
import type { Unit } from './unit-type.js';

type System = Unit['system'];

/** Symbol, size, UCUM code (empty: none), counterpart in the other system (empty: none). */
type Row = readonly [symbol: string, size: string, ucum: string, counterpart?: string];

const length = dimension({ length: 1 });
const area = dimension({ length: 2 });
const volume = dimension({ length: 3 });
const mass = dimension({ mass: 1 });
const time = dimension({ time: 1 });
const force = dimension({ length: 1, mass: 1, time: -2 });
const energy = multiplyDimensions(force, length);
const power = multiplyDimensions(energy, raiseDimension(time, -1));
const current = dimension({ current: 1 });
const voltage = multiplyDimensions(power, raiseDimension(current, -1));
const resistance = multiplyDimensions(voltage, raiseDimension(current, -1));
const pressure = multiplyDimensions(force, raiseDimension(area, -1));

const poundForce = '4.4482216152605'; // 0.45359237 kg * 9.80665 m/s^2
const psi = `${poundForce}/0.00064516`;
const horsepower = `550*0.3048*${poundForce}`;

const table: readonly (readonly [Dimension, System, readonly Row[]])[] = [
  [
    length,
    'us',
    [
      ['in', '0.0254', '[in_i]', 'mm'],
      ['ft', '0.3048', '[ft_i]', 'm'],
      ['yd', '0.9144', '[yd_i]', 'm'],
      ['mi', '1609.344', '[mi_i]', 'km'],
      ['mile', '1609.344', '[mi_i]', 'km'],
      ['mil', '0.0000254', '[mil_i]', 'um'],
    ],
  ],
  [
    length,
    'si',
    [
      ['um', '0.000001', 'um', 'mil'],
      ['mm', '0.001', 'mm', 'in'],
      ['cm', '0.01', 'cm', 'in'],
      ['m', '1', 'm', 'ft'],
      ['km', '1000', 'km', 'mi'],
    ],
  ],
  [
    area,
    'us',
    [
      ['sq in', '0.00064516', '[sin_i]', 'cm²'],
      ['sq ft', '0.09290304', '[sft_i]', 'm²'],
      ['sq yd', '0.83612736', '[syd_i]', 'm²'],
      ['sq mi', '1609.344*1609.344', '[mi_i]2', 'km²'],
      ['ac', '43560*0.09290304', '43560.[sft_i]', 'ha'],
      ['acre', '43560*0.09290304', '43560.[sft_i]', 'ha'],
    ],
  ],
  [
    area,
    'si',
    [
      ['ha', '10000', 'har', 'ac'],
      ['sq m', '1', 'm2', 'sq ft'],
    ],
  ],
  [
    volume,
    'us',
    [
      ['cu in', '0.000016387064', '[cin_i]', 'cm³'],
      ['cu ft', '0.028316846592', '[cft_i]', 'm³'],
      ['cu yd', '0.764554857984', '[cyd_i]', 'm³'],
      ['gal', '0.003785411784', '[gal_us]', 'L'],
      ['qt', '0.000946352946', '[qt_us]', 'L'],
      ['pt', '0.000473176473', '[pt_us]', 'L'],
      ['fl oz', '0.0000295735295625', '[foz_us]', 'mL'],
      ['bu_volume', '0.03523907016688', '[bu_us]', 'hL'],
    ],
  ],
  [
    volume,
    'si',
    [
      ['mL', '0.000001', 'mL', 'fl oz'],
      ['L', '0.001', 'L', 'gal'],
      ['hL', '0.1', 'hL', 'bu_volume'],
      ['cu m', '1', 'm3', 'cu ft'],
    ],
  ],
  [
    mass,
    'us',
    [
      ['oz', '0.028349523125', '[oz_av]', 'g'],
      ['lb', '0.45359237', '[lb_av]', 'kg'],
      ['short ton', '907.18474', '[ston_av]', 't'],
      ['cwt', '45.359237', '[scwt_av]', 'kg'],
    ],
  ],
  [
    mass,
    'si',
    [
      ['mg', '0.000001', 'mg'],
      ['g', '0.001', 'g', 'oz'],
      ['kg', '1', 'kg', 'lb'],
      ['t', '1000', 't', 'short ton'],
    ],
  ],
  [dimension({ bushels: 1 }), 'us', [['bu', '1', '']]],
  [
    dimension({ angle: 1 }),
    'both',
    [
      ['rev', '1', 'circ'],
      ['deg', '1/360', 'deg'],
      ['arcmin', '1/21600', "'"],
      ['rad', '1/2', 'rad'],
      ['mrad', '1/2000', 'mrad'],
    ],
  ],
  [
    time,
    'both',
    [
      ['us', '0.000001', 'us'],
      ['ms', '0.001', 'ms'],
      ['s', '1', 's'],
      ['min', '60', 'min'],
      ['h', '3600', 'h'],
      ['day', '86400', 'd'],
      ['week', '604800', 'wk'],
    ],
  ],
  [
    dimension({ length: 1, time: -1 }),
    'us',
    [
      ['mph', '0.44704', '[mi_i]/h', 'km/h'],
      ['fpm', '0.00508', '[ft_i]/min', 'm/min'],
    ],
  ],
  [dimension({ angle: 1, time: -1 }), 'both', [['rpm', '1/60', 'circ/min']]],
  [
    dimension({ time: -1 }),
    'both',
    [
      ['Hz', '1', 'Hz'],
      ['kHz', '1000', 'kHz'],
      ['MHz', '1000000', 'MHz'],
    ],
  ],
  [force, 'us', [['lbf', poundForce, '[lbf_av]', 'N']]],
  [
    force,
    'si',
    [
      ['N', '1', 'N', 'lbf'],
      ['kN', '1000', 'kN', 'lbf'],
    ],
  ],
  [
    energy,
    'us',
    [
      ['lb·ft', `${poundForce}*0.3048`, '[lbf_av].[ft_i]', 'N·m'],
      ['ft·lb', `${poundForce}*0.3048`, '[ft_i].[lbf_av]', 'N·m'],
      ['lb·in', `${poundForce}*0.0254`, '[lbf_av].[in_i]', 'N·m'],
      ['in·lb', `${poundForce}*0.0254`, '[in_i].[lbf_av]', 'N·m'],
    ],
  ],
  [
    energy,
    'si',
    [
      ['J', '1', 'J'],
      ['kJ', '1000', 'kJ'],
      ['MJ', '1000000', 'MJ'],
      ['N·m', '1', 'N.m', 'lb·ft'],
      ['kWh', '3600000', 'kW.h'],
    ],
  ],
  [pressure, 'us', [['psi', psi, '[psi]', 'kPa']]],
  [
    pressure,
    'si',
    [
      ['Pa', '1', 'Pa', 'psi'],
      ['hPa', '100', 'hPa', 'psi'],
      ['kPa', '1000', 'kPa', 'psi'],
      ['MPa', '1000000', 'MPa', 'psi'],
      ['mbar', '100', 'mbar', 'psi'],
      ['bar', '100000', 'bar', 'psi'],
    ],
  ],
  [power, 'us', [['hp', horsepower, '[HP]', 'kW']]],
  [
    power,
    'both',
    [
      ['mW', '0.001', 'mW'],
      ['W', '1', 'W'],
    ],
  ],
  [power, 'si', [['kW', '1000', 'kW', 'hp']]],
  [
    dimension({ length: 3, time: -1 }),
    'us',
    [
      ['gpm', '0.003785411784/60', '[gal_us]/min', 'L/min'],
      ['cfm', '0.028316846592/60', '[cft_i]/min', 'm³/min'],
    ],
  ],
  [
    voltage,
    'both',
    [
      ['uV', '0.000001', 'uV'],
      ['mV', '0.001', 'mV'],
      ['V', '1', 'V'],
      ['kV', '1000', 'kV'],
    ],
  ],
  [
    current,
    'both',
    [
      ['uA', '0.000001', 'uA'],
      ['mA', '0.001', 'mA'],
      ['A', '1', 'A'],
    ],
  ],
  [
    resistance,
    'both',
    [
      ['mohm', '0.001', 'mOhm'],
      ['ohm', '1', 'Ohm'],
      ['kohm', '1000', 'kOhm'],
      ['Mohm', '1000000', 'MOhm'],
    ],
  ],
  [
    dimensionless,
    'both',
    [
      ['%', '0.01', '%'],
      ['ppm', '0.000001', '[ppm]'],
    ],
  ],
  [dimension({ temperature: 1 }), 'both', [['K', '1', 'K']]],
];

function size(text: string): Rational {
  const [above = '', ...below] = text.split('/');
  const product = (factors: string): Rational =>
    factors.split('*').reduce((so, factor) => multiply(so, fromDecimal(factor) ?? one), one);
  return below.reduce((so, factor) => divide(so, product(factor)), product(above));
}

const units = new Map<string, Unit>();
const counterparts = new Map<string, string>();
for (const [kind, system, rows] of table) {
  for (const [symbol, text, ucum, counterpart] of rows) {
    const pi = symbol.endsWith('rad') ? -1 : 0;
    const unit = { symbol, dimension: kind, factor: size(text), pi, system };
    units.set(symbol, ucum === '' ? unit : { ...unit, ucum });
    if (counterpart !== undefined) counterparts.set(symbol, counterpart);
  }
}

// the zero of the Celsius scale is 273.15 K, of the Fahrenheit scale 459.67 * 5/9 K (SP 811, B.9)
const celsius = fromDecimal('273.15') ?? one;
const fahrenheit = rational(5, 9);
const fahrenheitZero = add(celsius, multiply(rational(-32), fahrenheit));
const temperature = dimension({ temperature: 1 });
units.set('degC', {
  symbol: 'degC',
  dimension: temperature,
  factor: one,
  pi: 0,
  offset: celsius,
  ucum: 'Cel',
  system: 'si',
});
units.set('degF', {
  symbol: 'degF',
  dimension: temperature,
  factor: fahrenheit,
  pi: 0,
  offset: fahrenheitZero,
  ucum: '[degF]',
  system: 'us',
});
counterparts.set('degC', 'degF').set('degF', 'degC');

/** Every unit that is one word (or two: `sq ft`), by its symbol. */
export const simpleUnits: ReadonlyMap<string, Unit> = units;

/** The symbol of the unit that shows the same in the other system. */
export function counterpartOf(symbol: string): string | undefined {
  return counterparts.get(symbol);
}

/** What people write instead of a symbol, in small letters without spaces and dots, and the symbol that they mean. */
export const unitsByOtherWords: ReadonlyMap<string, string> = new Map(
  Object.entries({
    in: 'inch inches inchs zoll',
    ft: 'foot feet foots',
    yd: 'yard yards',
    mi: 'miles',
    mm: 'millimeter millimeters millimetre millimetres',
    cm: 'centimeter centimeters centimetre centimetres',
    m: 'meter meters metre metres',
    km: 'kilometer kilometers kilometre kilometres',
    'sq ft': 'sqft squarefeet squarefoot ft2',
    'sq in': 'sqin squareinch squareinches in2',
    ac: 'acres',
    ha: 'hectare hectares',
    'cu ft': 'cuft cubicfeet ft3',
    'cu in': 'cuin cubicinches in3',
    'm²': 'm2 sqm squaremeter squaremeters',
    'm³': 'm3 cum cubicmeter',
    gal: 'gallon gallons',
    L: 'liter liters litre litres ltr',
    lb: 'lbs pound pounds',
    oz: 'ounce ounces',
    'short ton': 'ton tons shortton shorttons',
    t: 'tonne tonnes',
    kg: 'kgs kilogram kilograms',
    g: 'gram grams',
    bu: 'bushel bushels',
    deg: 'degree degrees degs',
    rev: 'revolution revolutions turn turns revs',
    rad: 'radian radians',
    s: 'sec secs second seconds',
    ms: 'millisecond milliseconds',
    min: 'mins minute minutes',
    h: 'hr hrs hour hours',
    day: 'days',
    week: 'weeks',
    'km/h': 'kph kmh kmph',
    mph: 'mileperhour milesperhour',
    rpm: 'rpms r/min',
    Hz: 'hertz cps',
    lbf: 'poundforce lbsf',
    N: 'newton newtons',
    lb·ft: 'ftlb ftlbs lbft lbfft footpounds footpound',
    N·m: 'nm newtonmeter newtonmeters',
    Pa: 'pascal',
    kPa: 'kilopascal',
    psi: 'psig lbin2',
    bar: 'bars',
    hp: 'horsepower',
    kW: 'kilowatt kilowatts',
    W: 'watt watts',
    gpm: 'galpermin',
    V: 'volt volts vdc',
    mV: 'millivolt millivolts',
    A: 'amp amps ampere amperes',
    mA: 'milliamp milliamps',
    ohm: 'ohms Ω ω',
    kohm: 'kohms kω kiloohm',
    '%': 'percent pct',
    degC: 'c celsius centigrade degreec degreesc degc',
    degF: 'f fahrenheit degreef degreesf',
    K: 'kelvin kelvins',
  }).flatMap(([symbol, words]) => words.split(' ').map((word) => [word, symbol] as const)),
);
