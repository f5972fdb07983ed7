// The words of the pages for desk and staff, in every language of the interface. `{name}` is a place that the page fills.

const english = {
  staff: 'For desk and staff',
  'staff-why':
    'What this book covers, when it has to be looked at again, and what was checked. No customer is named here.',
  questions: 'From a symptom to the first three questions',
  'questions-why': 'Somebody calls. Ask for machine and header first, then take the sign that comes nearest.',
  'questions-none': 'This book has no symptom for this rig yet.',
  'ask-so': 'Is it so: {condition}?',
  'ask-cause': 'May this be it: {cause}',
  'ask-limits': 'What does it read: {label}? It must be {limits}.',
  changes: 'After a change, unit by unit',
  'changes-why': 'What has to be done again on a unit, with each of its headers, at the version that is right for it.',
  'changes-version': 'Find out first which version it is',
  coverage: 'Coverage: rigs and procedures',
  'coverage-why': 'A dot: the procedure is released for this rig. How far it was tried stands beside it.',
  'coverage-none': 'not for it',
  'tried-machine': 'tried on the machine',
  'tried-desk': 'read at the desk',
  'tried-none': 'not tried',
  reviews: 'Reviews due',
  'reviews-why': 'By date. The dates come from the book: each procedure says its own, or the book says how often.',
  'reviews-calendar': 'The same as a calendar file',
  'reviews-none': 'No date of a review follows from this book.',
  'reviews-undated': 'No date of a review',
  'review-of': 'Review: {title}',
  'review-last': 'last on {on}, by {by}',
  procedure: 'Procedure',
  'due-on': 'Due on',
  'last-review': 'Last review',
  proofs: 'What was checked and proved',
  'proofs-why':
    'The order of steps was followed on every path. A number of states that was not reached proves nothing beyond it.',
  'proofs-proved': 'Proved: {count} of {all} versions of procedures.',
  'proofs-open': 'Not proved, or wrong:',
  'proofs-rules': 'Safety rules of this book, and where they were asked',
  'proofs-rule': '{steps} steps in {variants} versions',
  'proofs-rule-idle': 'never triggers: it guards nothing in this book',
  'proofs-states': '{states} states looked at, {steps} steps',
  'proofs-not': "Not checked: whether this book agrees with the machines' manuals, and whatever its rules do not say.",
  'proofs-data': 'All of it as data',
  waivers: 'Warnings that were waived',
  'waivers-why':
    'A warning that is right in general and wrong in one place, with the reason that its author gave. An error is never waived.',
  'waivers-none': 'Nothing is waived in this book.',
  terms: 'Words',
  'terms-why': 'The word to write, the words that the search understands beside it, and the words never to write.',
  'terms-none': 'This book lists no words.',
  'terms-also': 'also understood',
  'terms-never': 'never written',
  rules: 'Every rule explained',
  'rules-why': 'What each diagnostic means, why it matters, a bad and a good example.',
  releases: 'What changed since the last release',
  'releases-why':
    'Releases against each other and against the book as it is: limits, steps, safety and rigs, by meaning. Whether new words still mean the same, only a reader can say.',
  'releases-since': 'Since the release {from}',
  'releases-from-to': 'From {from} to {to}',
  issued: 'Cards out of date',
  'issued-why':
    'Printed cards that were issued, held against what would be printed now. Customers are named only where the book lets them be shown.',
  'issued-some': 'Out of date: {count} of {all} issued cards.',
  'issued-none': 'None of {all} issued cards is out of date.',
  'issued-now': 'now {revision}',
  'issued-on': 'issued {on}',
  'releases-kept': 'Printed cards of these look current, and are not: the revision did not go up.',
  guard: 'Numbers that a slip of the fingers could change without any check noticing',
  clinic: 'Practice and clinic',
  'clinic-why':
    'Practise without a machine: readings are offered, nothing is recorded. For a clinic there is a handout to print for each rig, with a sheet to sign.',
  'clinic-practise': 'Practise',
  'clinic-handout': 'Handout',
  'handout-title': 'Clinic',
  'handout-how':
    'Scan a code, or type the address, and practise without a machine: readings are offered, nothing is recorded.',
  'handout-held': 'Held by',
  'handout-on': 'Date',
  'handout-at': 'Place',
  'handout-sign': 'Who was there',
  'handout-name': 'Name',
  'handout-farm': 'Farm',
  'handout-signature': 'Signature',
  'handout-code': 'Code to scan: practise {title}',
  'choose-rig': 'Which rig?',
  units: 'Stickers of units',
  'units-why': 'To print and put into the cabs. Scanned with a phone, a sticker opens its unit.',
  error: 'error',
  warning: 'warning',
  hint: 'hint',
  'in-file': 'in {file}',
} as const;

export type StaffKey = keyof typeof english;

const spanish: Readonly<Record<StaffKey, string>> = {
  staff: 'Para mesa y personal',
  'staff-why':
    'Qué cubre este libro, cuándo hay que volver a mirarlo y qué se revisó. Aquí no se nombra a ningún cliente.',
  questions: 'De un síntoma a las tres primeras preguntas',
  'questions-why': 'Alguien llama. Pregunte primero por máquina y cabezal, y tome la señal más cercana.',
  'questions-none': 'Este libro todavía no tiene síntomas para este equipo.',
  'ask-so': '¿Está así: {condition}?',
  'ask-cause': 'Puede ser esto: {cause}',
  'ask-limits': '¿Cuánto marca: {label}? Debe ser {limits}.',
  changes: 'Después de un cambio, unidad por unidad',
  'changes-why':
    'Qué hay que volver a hacer en una unidad, con cada uno de sus cabezales, en la versión correcta para ella.',
  'changes-version': 'Averigüe primero qué versión es',
  coverage: 'Cobertura: equipos y procedimientos',
  'coverage-why': 'Un punto: el procedimiento está liberado para este equipo. Al lado dice hasta dónde se probó.',
  'coverage-none': 'no es para él',
  'tried-machine': 'probado en la máquina',
  'tried-desk': 'leído en la mesa',
  'tried-none': 'sin probar',
  reviews: 'Revisiones pendientes',
  'reviews-why':
    'Por fecha. Las fechas vienen del libro: cada procedimiento dice la suya, o el libro dice cada cuánto.',
  'reviews-calendar': 'Lo mismo como archivo de calendario',
  'reviews-none': 'De este libro no sigue ninguna fecha de revisión.',
  'reviews-undated': 'Sin fecha de revisión',
  'review-of': 'Revisión: {title}',
  'review-last': 'la última el {on}, por {by}',
  procedure: 'Procedimiento',
  'due-on': 'Fecha',
  'last-review': 'Última revisión',
  proofs: 'Qué se revisó y se demostró',
  'proofs-why':
    'El orden de los pasos se siguió por todos los caminos. Un número de estados que no se alcanzó no demuestra nada más allá.',
  'proofs-proved': 'Demostrado: {count} de {all} versiones de procedimientos.',
  'proofs-open': 'Sin demostrar, o mal:',
  'proofs-rules': 'Reglas de seguridad de este libro, y dónde se preguntaron',
  'proofs-rule': '{steps} pasos en {variants} versiones',
  'proofs-rule-idle': 'nunca se activa: no protege nada en este libro',
  'proofs-states': '{states} estados vistos, {steps} pasos',
  'proofs-not': 'No se revisó: si este libro coincide con los manuales de las máquinas, ni lo que sus reglas no dicen.',
  'proofs-data': 'Todo como datos',
  waivers: 'Avisos que se dispensaron',
  'waivers-why':
    'Un aviso que es correcto en general y no en un lugar, con la razón que dio su autor. Un error nunca se dispensa.',
  'waivers-none': 'En este libro no se dispensa nada.',
  terms: 'Palabras',
  'terms-why': 'La palabra que se escribe, las que la búsqueda entiende además, y las que no se escriben nunca.',
  'terms-none': 'Este libro no lista palabras.',
  'terms-also': 'también se entiende',
  'terms-never': 'no se escribe nunca',
  rules: 'Cada regla explicada',
  'rules-why': 'Qué significa cada mensaje, por qué importa, un ejemplo malo y uno bueno. En inglés.',
  releases: 'Qué cambió desde la última versión congelada',
  'releases-why':
    'Versiones congeladas entre sí y contra el libro como está: límites, pasos, seguridad y equipos, por su significado. Si las palabras nuevas dicen lo mismo, solo lo sabe quien las lee.',
  'releases-since': 'Desde la versión congelada {from}',
  'releases-from-to': 'De {from} a {to}',
  issued: 'Tarjetas vencidas',
  'issued-why':
    'Tarjetas impresas que se entregaron, comparadas con lo que se imprimiría ahora. Los clientes se nombran solo donde el libro lo permite.',
  'issued-some': 'Vencidas: {count} de {all} tarjetas entregadas.',
  'issued-none': 'Ninguna de las {all} tarjetas entregadas está vencida.',
  'issued-now': 'ahora {revision}',
  'issued-on': 'entregada el {on}',
  'releases-kept': 'Las tarjetas impresas de estos parecen vigentes y no lo son: la revisión no subió.',
  guard: 'Números que un desliz de los dedos podría cambiar sin que nada lo note',
  clinic: 'Práctica y taller',
  'clinic-why':
    'Practique sin máquina: se ofrecen lecturas y nada se registra. Para un taller hay una hoja para imprimir de cada equipo, con una lista para firmar.',
  'clinic-practise': 'Practicar',
  'clinic-handout': 'Hoja',
  'handout-title': 'Taller',
  'handout-how':
    'Escanee un código, o escriba la dirección, y practique sin máquina: se ofrecen lecturas y nada se registra.',
  'handout-held': 'A cargo de',
  'handout-on': 'Fecha',
  'handout-at': 'Lugar',
  'handout-sign': 'Quiénes estuvieron',
  'handout-name': 'Nombre',
  'handout-farm': 'Campo',
  'handout-signature': 'Firma',
  'handout-code': 'Código para escanear: practicar {title}',
  'choose-rig': '¿Qué equipo?',
  units: 'Etiquetas de unidades',
  'units-why': 'Para imprimir y poner en las cabinas. Escaneada con un teléfono, una etiqueta abre su unidad.',
  error: 'error',
  warning: 'aviso',
  hint: 'consejo',
  'in-file': 'en {file}',
};

const tables: Readonly<Record<string, Readonly<Record<StaffKey, string>>>> = { en: english, es: spanish };

/** Every key in every language, for a test that holds them together. */
export const staffTables = tables;

/** A word of the staff pages; a language without a table reads English. */
export function staffWord(
  language: string,
  key: StaffKey,
  parts: Readonly<Record<string, string | number>> = {},
): string {
  return (tables[language] ?? english)[key].replaceAll(/\{([a-z]+)\}/g, (_, name: string) => {
    const part = parts[name];
    if (part === undefined) throw new Error(`The words \`${key}\` lack their \`${name}\``);
    return String(part);
  });
}
