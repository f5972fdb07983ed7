// Spanish words for numbers in prose. Names are compared without accents: those lists are without them. The lists: common
// practice, no source.

import { type NumberLanguage, table, words } from './language.js';

/** Spanish, as the rules on numbers know it. */
export const spanish: NumberLanguage = {
  numbers: table([
    ['un una uno', 1],
    ['dos', 2],
    ['tres', 3],
    ['cuatro', 4],
    ['cinco', 5],
    ['seis', 6],
    ['siete', 7],
    ['ocho', 8],
    ['nueve', 9],
    ['diez', 10],
    ['once', 11],
    ['doce', 12],
    ['quince', 15],
    ['veinte', 20],
    ['treinta', 30],
    ['cuarenta', 40],
    ['cincuenta', 50],
    ['sesenta', 60],
    ['noventa', 90],
  ]),
  units: table([
    ['pulgada pulgadas', 'in'],
    ['pie pies', 'ft'],
    ['milímetro milímetros', 'mm'],
    ['centímetro centímetros', 'cm'],
    ['metro metros', 'm'],
    ['segundo segundos', 's'],
    ['minuto minutos', 'min'],
    ['hora horas', 'h'],
    ['voltio voltios', 'V'],
    ['grado grados', 'deg'],
    ['vuelta vueltas', 'rev'],
    ['libra libras', 'lb'],
    ['kilo kilos kilogramo kilogramos', 'kg'],
    ['acre acres', 'ac'],
    ['hectárea hectáreas', 'ha'],
  ]),
  decimalComma: true,
  joints: words('a hasta'),
  pairs: new Map([['y', 'entre']]),
  links: words('y pero'),
  filling: new Set(
    words(`
      el la los las un una unos unas de del al en por para con sin y o es son se que su sus este esta como cada
      debe deben puede hay lo le
    `),
  ),
  sameAs: new Map([
    ['ancha', 'ancho'],
    ['alto', 'altura'],
    ['alta', 'altura'],
    ['largo', 'longitud'],
    ['larga', 'longitud'],
    ['peso', 'masa'],
    ['pesa', 'masa'],
  ]),
  ofWords: words('de del desde en entre para a'),
  owners: { machine: 'maquina', header: 'cabezal' },
  holds: words('mantenga pulse tecla'),
  waits: words('espere espera quedes permanezca'),
  shows: words('muestra muestran marca marcan lee leen'),
  claims: words('es son ser estar mide miden lee leen muestra a entre tiene pesa cubre durante menos mucho espere'),
  having: ['de'],
  about: ['unos', 'unas', 'exactamente', 'aproximadamente', 'alrededor de'],
  extents: [...words('ancho alto'), 'de ancho', 'de alto', 'de largo'],
  duties: ['debe', 'deben', 'tiene que'],
  changes: words('por cada'),
  rates: words('cada por'),
  othersBefore: [
    ...words('otro otra otros otras hasta sobre bajo'),
    ...['después de', 'despues de', 'antes de', 'más de', 'mas de', 'menos de', 'encima de', 'debajo de', 'por unos'],
    ...['que lee', 'que leen', 'que muestra'],
  ],
  othersBehind: [
    ...words('más mas menos antes después despues libre libres del'),
    ...['de la', 'de el', 'de los', 'de las', 'de su', 'de sus', 'de cada'],
  ],
  hedges: [
    ...words('si ejemplo sería seria podría podria roto rota rotos rotas gastado gastada gastados gastadas era fue'),
    ...words('nunca demasiado demasiada demasiados demasiadas significa'),
    ...['que eso', 'que esto'],
  ],
  mosts: ['hasta', 'como máximo', 'no más de', 'a lo sumo', 'máximo'],
  times: words('vez veces'),
  often: new Map(),
};
