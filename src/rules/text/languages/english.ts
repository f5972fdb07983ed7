// English words for the rules on language.
// After ASD-STE100 (one instruction a sentence, imperative, active voice, no -ing forms) and the human-factors notes on
// written procedures (quantities and no `slowly`, `properly`). The lists themselves: common practice, no source.

import { caseless } from '../../../text/caseless.js';
import { type Language, vagueWords, wordSet } from './language.js';

const orders = wordSet(`
  accept add adjust align apply ask assemble attach avoid bleed bring carry centralise choose climb coat collect
  compare confirm connect crouch decide delete detach disassemble disconnect discharge disengage dismount engage enter
  erase examine fasten feel fetch fill find fold follow get give go grab hang heat identify insert inspect install
  keep lay lean let loosen lubricate make measure move pick pour prepare prevent proceed push put raise read reconnect
  refill refit reinstall release remove repeat replace reset restart retighten return rotate run scrape search select
  send separate shake show sit slacken spin spread stand stay stow straighten swap take tell thread tighten torque try
  unbolt uncouple unfold unhook unlatch unlock unplug unscrew untie use verify wait walk warn wash weigh wipe withdraw
  write
`);

const orderOrThing = wordSet(`
  block blow bolt brake brush call catch center centre chain change charge check clamp clean clear close coil cool count
  couple cover cut dip drain drill drive drop dry empty feed file fit float flush free grease grip guide hit hold hook
  jack lever level lift line load lock look lower mark match name note oil open paint park pin place plug point power
  press prime pull pump record rest ride rock roll screw seal secure set shift shut sign slide split spray start step
  stop store strap support sweep swing switch tape tap test tick tie tilt time touch trim turn twist unload watch work wrap
`);

const somebody =
  '(?:you|whoever|anyone|anybody|someone|somebody|everyone|people|persons?|bystanders?|helpers?|operators?|him|them)';

const limb = '(?:hands?|fingers?|arms?|f(?:oo|ee)t|legs?|toes?|eyes?|skin|body|face|limbs?)';

const participles =
  '\\p{L}+ed|bent|blown|bought|brought|broken|built|cut|done|drawn|driven|fed|found|given|held|hung|kept|laid|left|let|lit|made|put|raised|read|run|screwed|seen|sent|set|shown|shut|split|stood|swept|taken|thrown|told|torn|turned|undone|worn|wound|written';

const things = wordSet(`
  anything bearing bearings bring building bushing bushings casing ceiling clearing clothing coating coupling couplings
  covering crossing decking during evening everything fitting fittings flooring footing fling gearing heading housing
  housings king leaning lining marking markings meaning morning mounting mountings nothing opening openings piping
  plumbing railing reading readings ring rings setting settings sling something spring springs steering sting string
  strings swing thing things tubing turning wading warning warnings wing wings wiring wring lightning including
  according following being cling ping king fring sing bling
`);

/** English, as the rules on language know it. */
export const english: Language = {
  bare: (word) => word.toLowerCase().replaceAll('’', "'"),
  abbreviations: wordSet('e.g i.e approx no nos fig figs vs max min incl resp ca cf dr mr mrs st jr sr inc'),
  orders,
  orderOrThing,
  ordersToPeople: wordSet(`
    add ask attach call climb compare confirm connect count disconnect disengage engage enter fetch fit go grab insert
    inspect install loosen measure press pull push put read record release remove repeat replace scrape select sign stow
    switch take tell tick tighten unbolt unhook unlatch unlock unplug unscrew verify wait walk weigh wipe write
  `),
  companions: wordSet('keep stay see mind remember note let make leave avoid be do use try give prevent'),
  oneMovement: new Map([
    ['press', wordSet('hold release turn')],
    ['push', wordSet('hold turn release')],
    ['pull', wordSet('hold release turn')],
    ['turn', wordSet('hold release push pull')],
    ['lift', wordSet('hold turn')],
    ['hold', wordSet('press turn push pull release move lift look read watch')],
    ['go', wordSet('get look fetch see')],
    ['come', wordSet('get look see')],
    ['try', wordSet('get find move turn')],
    ['wait', wordSet('watch look')],
    ['stop', wordSet('look start listen')],
    ['open', wordSet('close shut')],
    ['close', wordSet('open')],
    ['raise', wordSet('lower')],
    ['lower', wordSet('raise')],
    ['start', wordSet('stop')],
    ['lock', wordSet('unlock')],
    ['fold', wordSet('unfold')],
    ['engage', wordSet('disengage')],
    ['extend', wordSet('retract')],
  ]),
  objects: wordSet(`
    the a an this that these those it them each every both all one two three four some any your its their his her
    another everything everybody
  `),
  particles: wordSet('off out up down on in back away over'),
  joiners: wordSet('and then &'),
  adverbs: wordSet('then now first next again also once afterwards finally immediately at last please only just'),
  conditions: wordSet(`
    if when while before after once until unless with without as on in at for from to where whenever by during under
    beside behind above below
  `),
  subordinators: wordSet('until till when while that which who so where whether as if before after because unless'),
  purposes: wordSet('to'),
  negations: wordSet('no never nothing nobody none neither'),
  tellers: wordSet(`
    the a an this these those it its you your we our they their he she his her there someone somebody everyone
    everybody each every both nobody no another some any must should shall one
  `),
  isParticiple: (word) => /^\p{L}{2,}ing$/u.test(word) && !things.has(word),
  beforeParticiple: wordSet(`
    start stop begin keep finish avoid go try continue resume prevent is are was were be been being by without for of
    before after while when from in on at and or not than the a an this its their with about like as to until if
    your each every both no any some stops starts keeps begins off out up down
  `),
  passiveOrder: caseless(
    `(?<![\\p{L}])(?:must|should|shall|has to|have to|needs? to|is to|are to|ought to) (?:not |never |always |first |then |also |only )*be (?:\\p{L}+ly )?(?:${participles})(?![\\p{L}])`,
  ),
  besideThing: wordSet('with for of without'),
  thingFirst: false,
  doneWith: wordSet('with'),
  doerEndings: /(?:er|or)$/,
  conditionals: wordSet('if when whenever before unless where'),
  watching: wordSet('watch check look read see inspect examine observe feel measure listen confirm verify show tell'),
  clockwise: /\bclockwise\b/i,
  counterClockwise: /\b(?:counter|anti)[- ]?clockwise\b/i,
  left: /\bleft\b/i,
  right:
    /(?<!\b(?:is|are|be|was|reads?|stands?|all) )\bright\b(?! (?:away|now|angles?|value|reading|order|size|place|way|time|amount|one)\b)/i,
  ownEnd: /\bfrom (?:its (?:own )?(?:end|side)|the (?:end|outside))\b/i,
  threaded: /\b(?:screw|bolt|nut|stud|spindle|threaded|turnbuckle)s?\b/i,
  seenFrom:
    /\b(?:seen|viewed|watched|looked at|look|looking|face|facing)\b|\bfrom (?:above|below|behind|beneath|underneath|the|its|his|your)\b/i,
  faced:
    /\b(?:(?:knob|dial|switch|cap|lid|valve|tap|crank|handle|drain plug)s?|(?:hand ?|steering )wheels?|(?<!hex |allen )keys?|drive|walk|steer)\b/i,
  yes: wordSet('yes'),
  no: wordSet('no'),
  kills: caseless(
    `\\b(?:kills? ${somebody}|${somebody} (?:(?:can|could|may|might|will|would|must) )?(?:be killed|dies?)|death|deadly|lethal|fatal(?! error))\\b`,
  ),
  injures: caseless(
    `\\b(?:${somebody} (?:(?:can|could|may|might|will|would) )?(?:be|is|are|get) (?:crushed|cut|burn(?:ed|t)|scalded|injured|hurt|trapped|caught|struck|hit|pulled in|blinded|poisoned|thrown|run over)|(?:crush|cut|burn|scald|injure|hurt|trap|catch|strike|hit|blind|poison|break|pull|throw|tear|run)s? (?:in |off |over )?(?:(?:a|an|the|your) )?(?:${somebody}|${limb})|takes? (?:off (?:an?|the|your) ${limb}|(?:an?|the|your) ${limb} off)|(?:goes|go|gets?) (?:through|under|into) (?:the|your) ${limb})\\b`,
  ),
  stepWords: 'steps?',
  stepJoints: 'and|to|through|or',
  stepOwners: caseless(String.raw`^\s*(?:of|in|on|from)\b(?! this (?:page|procedure))`),
  stepped: caseless(String.raw`\b(?:dial|knob|notch(?:es)?|gear|lever|ladder|stairs?|scale|setting)s?\b`),
  setToStep: caseless(
    String.raw`\b(?:set|turn|click|adjust|move)\b(?:(?!\b(?:go|back|return|on|proceed|continue|skip)\b).)*\bto\s*$`,
  ),
  repeats: caseless(String.raw`\b(?:repeat|redo)\b[^.]*\b(?:until|till)\b`),
  counted: caseless(String.raw`\b(?:at most|no more than|not more than|up to|once|twice|times|never|not)\b`),
  beforehand: String.raw`\bbefore (?:(?:you|doing|starting|beginning) (?:(?:do|start|begin) )?(?:this|so|it|with this)|you (?:start|begin)|this(?: step)?(?=[,.;]|$)|(?:you )?VERB)`,
  going: wordSet('go get crawl reach lie climb step stand kneel slide creep walk lean'),
  placeWords: new Map([
    ['under', ['underneath', 'beneath', 'below', 'in under']],
    ['in', ['into']],
    ['beside', ['next to']],
  ]),
  leavesCab: caseless(
    String.raw`^(?:climb (?:back )?(?:down|out|off)|get (?:back )?(?:down|off|out(?= of|\s*[.,;]))|step (?:down|out)(?= of| from|\s*[.,;])|leave the (?:cab|seat)|dismount)(?!\p{L})`,
  ),
  cab: 'cab',
  devices: wordSet('display scale ticket gauge meter multimeter tape stopwatch caliper tester thermometer'),
  readOff: caseless(
    String.raw`\b(?:on|off|from|with|by) (?:(?:the|a|its) )?(?:[\p{L}-]+ )?([\p{L}-]+)(?=\s*(?:[.,;:)]|$))`,
  ),
  vague: vagueWords({
    'properly|correctly|adequately|appropriately|satisfactorily|suitably|sufficiently': 'what is seen when it is right',
    'proper|adequate|appropriate|satisfactory|suitable|sufficient|acceptable|reasonable|reasonably':
      'which one, or how much',
    '(?:as|if|when|where|whenever) (?:needed|necessary|required|appropriate|applicable)(?! (?:by|in|for)\\b)':
      'what decides it',
    'as (?:soon|far|well) as possible|if possible|where possible': 'what to do where it is not possible',
    'etc|and so on|and so forth|and the like': 'the rest of the list',
    'and/or': '`and` or `or`',
    'periodically|regularly|from time to time|occasionally': 'after how many hours or days',
    'excessive|excessively': 'how much is too much',
    'be (?:very )?careful|take care(?! of)|(?:use|exercise) (?:caution|care)': 'what to keep away from, and how',
  }),
  unmeasured: vagueWords({
    'slowly|quickly|fast enough|rapidly|briefly|gradually': 'a speed or a time',
    'gently|firmly|tightly|lightly|carefully|with care': 'a force, a torque, or what is felt or seen',
    'a few|a little|a bit|some time|for a while|for a moment|several|slightly|somewhat': 'a number',
    'approximately|roughly': 'the two ends between which it may lie',
  }),
};
