// English words for numbers in prose. The lists: common practice, no source.

import { caseless } from '../../../text/caseless.js';
import { type NumberLanguage, table, words } from './language.js';

/** English, as the rules on numbers know it. */
export const english: NumberLanguage = {
  numbers: table([
    ['one', 1],
    ['two', 2],
    ['three', 3],
    ['four', 4],
    ['five', 5],
    ['six', 6],
    ['seven', 7],
    ['eight', 8],
    ['nine', 9],
    ['ten', 10],
    ['eleven', 11],
    ['twelve', 12],
    ['fifteen', 15],
    ['twenty', 20],
    ['thirty', 30],
    ['forty', 40],
    ['fifty', 50],
    ['sixty', 60],
    ['ninety', 90],
  ]),
  shares: [
    ['half an? UNIT', 2],
    ['(?:a |one )?half-UNIT', 2],
    ['three quarters of an? UNIT', 3],
    ['three-quarters of an? UNIT', 3],
    ['(?:a |one )?quarter of an? UNIT', 1],
  ],
  ones: words('a an one'),
  andHalf: 'and a half',
  units: new Map(),
  decimalComma: false,
  joints: ['to'],
  pairs: new Map([['and', 'between']]),
  links: words('and but'),
  filling: new Set(
    words(`
      a an the of to in on at by for from with and or is are be it its this that these those as if not no do does
      must should can may will reads read shows show which what where how each every both all one two you your
    `),
  ),
  sameAs: new Map([
    ['wide', 'width'],
    ['high', 'height'],
    ['tall', 'height'],
    ['long', 'length'],
    ['deep', 'depth'],
    ['heavy', 'mass'],
    ['weigh', 'mass'],
    ['weight', 'mass'],
    ['hot', 'temperature'],
    ['warm', 'temperature'],
    ['held', 'hold'],
    ['raise', 'raised'],
    ['lifted', 'raised'],
    ['top', 'raised'],
    ['lowered', 'ground'],
    ['bottom', 'ground'],
  ]),
  ofWords: words('of for from at in on to between'),
  owners: { machine: 'machine', header: 'header' },
  holds: words('hold press key'),
  waits: words('wait stay remain'),
  shows: words('show shows read reads'),
  claims: words(`
    is are be read reads show shows to at between has have measure measures weigh weighs cover covers stay stays hold
    holds give gives need needs for least most than wait
  `),
  having: ['of'],
  verdicts: words('right correct normal fine good usual expected').map((word) => `is ${word}`),
  about: words('about around exactly roughly'),
  extents: words('wide high tall long deep warm hot'),
  duties: ['must', 'shall', 'has to', 'have to', 'should'],
  changes: words('by within per every each'),
  rates: words('each every per a an'),
  recurring: words('every each per'),
  othersBefore: [
    ...words('another after until before from plus minus over under above below beyond past not say'),
    ...['more than', 'less than', 'instead of', 'difference of', 'by about'],
    ...['that reads', 'that read', 'which reads', 'that shows', 'which shows'],
  ],
  othersBehind: [
    ...words('more less higher lower longer shorter wider narrower apart away off out range scale supply battery fuse'),
    ...words('either per before after later earlier step steps mark marks free'),
    ...['or more', 'at a time', 'of play', 'at half', 'from the', 'from its', 'from each', 'from both', 'from a'],
  ],
  hedges: [
    ...words('if unless example e.g suppose would could might wrong fault faulty broken worn was were once instead'),
    ...['never', 'too', 'means', 'used to', 'than that', 'than this'],
  ],
  outsides: ['outside', 'outside of', 'out of', 'beyond'],
  faults: words('fault faults faulty broken dead'),
  bushel: {
    before: /\b(?:a|one|the|each|every|per|legal|standard) bushel\b(?!.*\bbushel)/i,
    behind: /^\s*(?:to|in|for|of)?\s*(?:a|an|one|the|each|every|per|legal) (?:legal |standard )?bushel\b/i,
  },
  traded:
    /\b(?:base|standard|market|legal) moisture\b|\b(?:bought|sold|traded|paid|delivered) (?:at|by|with|on|to)\b.*\bmoisture\b/i,
  lots: [...words('ear wet light heavy damp green frozen shrink shrunk sample load loads'), 'test weight'],
  headerWords: [
    [caseless(String.raw`\bdraper\b`), ['draper', 'flex-draper']],
    [caseless(String.raw`\bpick-?up\b`), ['pickup']],
    // a draper is a platform, too
    [caseless(String.raw`\bplatform\b`), ['platform', 'flex-platform', 'draper', 'flex-draper']],
    [caseless(String.raw`\b(?:corn head|row header|\d+[ -]rows?)\b`), ['row']],
    [caseless(String.raw`\bflex(?:ible)?\b`), ['flex-platform', 'flex-draper', 'row', 'pickup']],
    [caseless(String.raw`\brigid\b`), ['platform', 'draper', 'row', 'pickup']],
  ],
  mosts: ['at most', 'up to', 'no more than', 'not more than', 'a maximum of'],
  times: words('time times try tries'),
  often: new Map([
    ['once', 1],
    ['twice', 2],
  ]),
};
