// The words of the calculators, in English and Spanish: what is asked for, what follows, and where a formula comes from.

/** The words of one calculator. Fields and outcomes by the names that its formulas have. */
export interface CalculatorText {
  readonly title: string;
  readonly about: string;
  readonly source: string;
  readonly fields: Readonly<Record<string, string>>;
  readonly outcomes: Readonly<Record<string, string>>;
}

export interface CalculatorWords {
  readonly title: string;
  readonly hint: string;
  readonly about: string;
  readonly uncertain: string;
  readonly formula: string;
  readonly source: string;
  readonly example: string;
  readonly unit: string;
  /** `{low}` and `{high}`, then the unit, are put in. */
  readonly surely: string;
  readonly unread: string;
  /** Why a number that can be read is none for its field: `{number}` is the bound, `{field}` another field. */
  readonly beyond: Readonly<Record<'least' | 'above' | 'most' | 'below' | 'larger', string>>;
  readonly noValue: string;
  readonly link: string;
  readonly contents: string;
  readonly calculators: Readonly<Record<string, CalculatorText>>;
  readonly loads: LoadWords;
}

/** The words of the load calibration, which is a table. */
export interface LoadWords {
  readonly title: string;
  readonly about: string;
  readonly source: string;
  readonly formula: string;
  readonly load: string;
  readonly shown: string;
  readonly scale: string;
  readonly error: string;
  readonly residual: string;
  readonly factor: string;
  readonly line: string;
  readonly scatter: string;
  readonly worst: string;
  /** `{load}` is put in. */
  readonly spoiler: string;
  readonly few: string;
  /** A row with one mass, or with something else than a mass; `{load}` is its number. */
  readonly amiss: string;
  /** What the picture shows; `{count}` is put in. */
  readonly picture: string;
  readonly alongAxis: string;
  readonly upwardAxis: string;
  readonly residualAxis: string;
}

const english: CalculatorWords = {
  title: 'Calculators',
  hint: 'Width, speed, shrink, losses, loads, sensors',
  about: 'They work without signal. Numbers stay on this phone.',
  uncertain:
    'Type a number as 20, 3 1/8 or 20 ± 0.25. With ± the result says how sure it is: two standard uncertainties, the inputs taken as independent and anywhere in their ranges (JCGM 100, 4.3.7).',
  formula: 'Formula',
  source: 'Source',
  example: 'Worked example',
  unit: 'Unit',
  surely: 'for sure {low} to {high}',
  unread: 'This cannot be read. Write a number such as 20, 3 1/8 or 20 ± 0.25.',
  beyond: {
    least: 'This cannot be: it is {number} or more.',
    above: 'This cannot be: it is more than {number}.',
    most: 'This cannot be: it is {number} or less.',
    below: 'This cannot be: it is less than {number}.',
    larger: 'This cannot be more than: {field}.',
  },
  noValue: 'No value with these numbers.',
  link: 'Link with these numbers',
  contents: 'What do you want to know?',
  calculators: {
    'width-area': {
      title: 'Width and area',
      about: 'Cutting width from rows, and the area of a pass.',
      source: 'Purdue Extension (rows by spacing); 1 ac = 43,560 sq ft',
      fields: { rows: 'Rows', spacing: 'Row spacing', distance: 'Length of the pass' },
      outcomes: { width: 'Width', area: 'Area' },
    },
    speed: {
      title: 'Speed from seconds',
      about: 'Drive a known distance at steady speed and take the time.',
      source: 'Iowa State University Extension, A3-24',
      fields: { distance: 'Distance', time: 'Time', wanted: 'Speed that is wanted' },
      outcomes: { speed: 'Speed', seconds: 'Time that the wanted speed takes' },
    },
    'width-error': {
      title: 'Wrong width, wrong yield',
      about: 'What a wrong width in the monitor does to area and yield. The two are no mirror images.',
      source: 'Purdue Extension, Wandering Swath Width Syndrome',
      fields: { cut: 'Width that is cut', logged: 'Width that the monitor has' },
      outcomes: { area_error: 'Area is off by', yield_error: 'Yield is off by' },
    },
    shrink: {
      title: 'Shrink and dry bushels',
      about: 'What is left of wet grain at the base moisture. Dry matter alone, without handling loss.',
      source: 'South Dakota State University Extension (D. Karki, 2020)',
      fields: {
        mass: 'Wet mass',
        moisture: 'Moisture of the grain',
        base: 'Base moisture',
        bushel: 'Legal mass of a bushel',
      },
      outcomes: {
        shrink: 'Water shrink',
        dry_mass: 'Mass at the base moisture',
        dry_bushels: 'Bushels at the base moisture',
      },
    },
    loss: {
      title: 'Loss from counts',
      about:
        'Seeds on the ground to loss. What falls behind the machine lies closer together than it was cut: the spread width sets that right.',
      source: 'University of Georgia and Purdue Extension (2 kernels of corn per sq ft are 1 bu/ac)',
      fields: {
        behind: 'Seeds in the frame behind the machine',
        before: 'Seeds there before the machine came',
        frame: 'Area of the frame',
        cut: 'Width that is cut',
        spread: 'Width of what is spread behind',
        seeds: 'Seeds in a bushel',
        bushel: 'Legal mass of a bushel',
      },
      outcomes: { loss: 'Loss', loss_mass: 'Loss by mass' },
    },
    'sensor-turn': {
      title: 'Turn of a sensor',
      about: 'How far to turn a sensor for the reading that is wanted. A plus is the way that raises the reading.',
      source: 'linear sensor, by definition',
      fields: { reading: 'Reading now', aim: 'Reading that is wanted', moves: 'Change of the reading for a degree' },
      outcomes: { turn: 'Turn' },
    },
    voltage: {
      title: 'Voltage window',
      about: 'A sensor that follows its supply reads shares of it: a reading in volts says little without the supply.',
      source: 'ratiometric output, by definition',
      fields: {
        supply: 'Supply',
        low: 'Low share of the supply',
        high: 'High share of the supply',
        reading: 'Reading',
      },
      outcomes: { at_low: 'Low end', at_high: 'High end', share: 'Reading as a share of the supply' },
    },
    following: {
      title: 'Speed that the height can follow',
      about: 'Two bounds: how fast the header rises, and how late it starts. The true limit is lower than both.',
      source: 'v = rate / slope; error = speed × delay × slope (kinematics)',
      fields: {
        rate: 'Lift speed at the cutter',
        steepness: 'Slope of the ground',
        delay: 'Delay',
        allowed: 'Height error that is allowed',
      },
      outcomes: { by_rate: 'By the lift speed', by_delay: 'By the delay', speed: 'The lower of both' },
    },
  },
  loads: {
    title: 'Load calibration',
    about: 'Loads that were weighed, against what the display showed.',
    source:
      'least squares through the origin (NIST StRD NoInt1); a load that the others do not bear out: R. D. Cook, S. Weisberg, 1982',
    formula: 'factor = sum (shown × weighed) / sum (shown²)',
    load: 'Load',
    shown: 'Shown',
    scale: 'Weighed',
    error: 'Error',
    residual: 'Rest',
    factor: 'Factor for the display',
    line: 'Straight line',
    scatter: 'Scatter of one load',
    worst: 'Largest error as it is',
    spoiler: 'Load {load} does not fit the others. Look at its ticket before you use the factor.',
    few: 'Two loads or more are needed.',
    amiss: 'Load {load}: a mass is missing or no number above zero. Nothing is worked out until it is right or empty.',
    picture:
      'Weighed against shown for {count} loads, with the line that fits them; marks on both axes at {ticks}. Below, what each load is off that line, marks at {rest}.',
    alongAxis: 'Shown',
    upwardAxis: 'Weighed',
    residualAxis: 'Rest of each load',
  },
};

const spanish: CalculatorWords = {
  title: 'Calculadoras',
  hint: 'Ancho, velocidad, merma, pérdidas, cargas, sensores',
  about: 'Funcionan sin señal. Los números quedan en este teléfono.',
  uncertain:
    'Escriba un número como 20, 3 1/8 o 20 ± 0.25. Con ± el resultado dice cuán seguro es: dos incertidumbres típicas, con las entradas independientes y en cualquier punto de su intervalo (JCGM 100, 4.3.7).',
  formula: 'Fórmula',
  source: 'Fuente',
  example: 'Ejemplo resuelto',
  unit: 'Unidad',
  surely: 'con seguridad de {low} a {high}',
  unread: 'No se puede leer. Escriba un número como 20, 3 1/8 o 20 ± 0.25.',
  beyond: {
    least: 'No puede ser: es {number} o más.',
    above: 'No puede ser: es más de {number}.',
    most: 'No puede ser: es {number} o menos.',
    below: 'No puede ser: es menos de {number}.',
    larger: 'No puede ser más que: {field}.',
  },
  noValue: 'Sin valor con estos números.',
  link: 'Enlace con estos números',
  contents: '¿Qué quiere saber?',
  calculators: {
    'width-area': {
      title: 'Ancho y superficie',
      about: 'Ancho de corte según los surcos, y la superficie de una pasada.',
      source: 'Purdue Extension (surcos por distancia); 1 ac = 43 560 sq ft',
      fields: { rows: 'Surcos', spacing: 'Distancia entre surcos', distance: 'Largo de la pasada' },
      outcomes: { width: 'Ancho', area: 'Superficie' },
    },
    speed: {
      title: 'Velocidad según los segundos',
      about: 'Recorra una distancia conocida a velocidad constante y tome el tiempo.',
      source: 'Iowa State University Extension, A3-24',
      fields: { distance: 'Distancia', time: 'Tiempo', wanted: 'Velocidad deseada' },
      outcomes: { speed: 'Velocidad', seconds: 'Tiempo que lleva la velocidad deseada' },
    },
    'width-error': {
      title: 'Ancho erróneo, rendimiento erróneo',
      about: 'Lo que un ancho erróneo en el monitor hace con la superficie y el rendimiento. No son simétricos.',
      source: 'Purdue Extension, Wandering Swath Width Syndrome',
      fields: { cut: 'Ancho que se corta', logged: 'Ancho que tiene el monitor' },
      outcomes: { area_error: 'Error de la superficie', yield_error: 'Error del rendimiento' },
    },
    shrink: {
      title: 'Merma y bushels secos',
      about: 'Lo que queda del grano húmedo a la humedad base. Solo materia seca, sin pérdidas de manejo.',
      source: 'South Dakota State University Extension (D. Karki, 2020)',
      fields: {
        mass: 'Masa húmeda',
        moisture: 'Humedad del grano',
        base: 'Humedad base',
        bushel: 'Masa legal de un bushel',
      },
      outcomes: {
        shrink: 'Merma de agua',
        dry_mass: 'Masa a la humedad base',
        dry_bushels: 'Bushels a la humedad base',
      },
    },
    loss: {
      title: 'Pérdida según el conteo',
      about:
        'De las semillas en el suelo a la pérdida. Lo que cae detrás de la máquina queda más junto que lo cortado: el ancho de esparcido lo corrige.',
      source: 'University of Georgia y Purdue Extension (2 granos de maíz por sq ft son 1 bu/ac)',
      fields: {
        behind: 'Semillas en el marco detrás de la máquina',
        before: 'Semillas que había antes de la máquina',
        frame: 'Superficie del marco',
        cut: 'Ancho que se corta',
        spread: 'Ancho de lo que se esparce detrás',
        seeds: 'Semillas en un bushel',
        bushel: 'Masa legal de un bushel',
      },
      outcomes: { loss: 'Pérdida', loss_mass: 'Pérdida en masa' },
    },
    'sensor-turn': {
      title: 'Giro de un sensor',
      about: 'Cuánto girar un sensor para la lectura deseada. El signo más es el sentido que sube la lectura.',
      source: 'sensor lineal, por definición',
      fields: { reading: 'Lectura actual', aim: 'Lectura deseada', moves: 'Cambio de la lectura por grado' },
      outcomes: { turn: 'Giro' },
    },
    voltage: {
      title: 'Ventana de tensión',
      about:
        'Un sensor que sigue a su alimentación lee partes de ella: una lectura en voltios dice poco sin la alimentación.',
      source: 'salida ratiométrica, por definición',
      fields: {
        supply: 'Alimentación',
        low: 'Parte baja de la alimentación',
        high: 'Parte alta de la alimentación',
        reading: 'Lectura',
      },
      outcomes: { at_low: 'Extremo bajo', at_high: 'Extremo alto', share: 'Lectura como parte de la alimentación' },
    },
    following: {
      title: 'Velocidad que la altura puede seguir',
      about:
        'Dos límites: la rapidez con que sube el cabezal y lo tarde que empieza. El límite real es menor que ambos.',
      source: 'v = velocidad de subida / pendiente; error = velocidad × retardo × pendiente (cinemática)',
      fields: {
        rate: 'Velocidad de subida en la cuchilla',
        steepness: 'Pendiente del terreno',
        delay: 'Retardo',
        allowed: 'Error de altura permitido',
      },
      outcomes: { by_rate: 'Por la velocidad de subida', by_delay: 'Por el retardo', speed: 'La menor de ambas' },
    },
  },
  loads: {
    title: 'Calibración con cargas',
    about: 'Cargas pesadas, frente a lo que mostró la pantalla.',
    source:
      'mínimos cuadrados por el origen (NIST StRD NoInt1); una carga que las demás no confirman: R. D. Cook, S. Weisberg, 1982',
    formula: 'factor = suma (mostrado × pesado) / suma (mostrado²)',
    load: 'Carga',
    shown: 'Mostrado',
    scale: 'Pesado',
    error: 'Error',
    residual: 'Resto',
    factor: 'Factor para la pantalla',
    line: 'Recta',
    scatter: 'Dispersión de una carga',
    worst: 'Mayor error tal como está',
    spoiler: 'La carga {load} no concuerda con las demás. Revise su boleta antes de usar el factor.',
    few: 'Hacen falta dos cargas o más.',
    amiss:
      'Carga {load}: falta una masa o no es un número mayor que cero. No se calcula nada hasta que esté bien o vacía.',
    picture:
      'Lo pesado frente a lo mostrado en {count} cargas, con la recta que las ajusta; marcas en ambos ejes en {ticks}. Debajo, lo que cada carga se aparta de ella, marcas en {rest}.',
    alongAxis: 'Mostrado',
    upwardAxis: 'Pesado',
    residualAxis: 'Resto de cada carga',
  },
};

const tables: Readonly<Record<string, CalculatorWords>> = { en: english, es: spanish };

/** The words in a language; English where there is none. */
export function calculatorWords(language: string): CalculatorWords {
  return tables[language] ?? english;
}
