// Edits of the base book, each with all that is to be said of it.

import type { Edit } from './books.js';

const learn = 'sensors/learn-height-range.md';

/** Of a change in the procedure whose revision stays. */
const kept = 'learn-height-range: kept';

export const edits: readonly (readonly [name: string, edits: readonly Edit[], lines: readonly string[]])[] = [
  [
    'a limit of one machine',
    [[learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.6 to 1.0 V']],
    [
      kept,
      'learn-height-range technical: Value “Height sensor, header fully raised”, limits (tarn-60): 0.73 to 0.97 V in use (book limits 0.7 to 1.0 V) → 0.63 to 0.97 V in use (book limits 0.6 to 1.0 V)',
    ],
  ],
  [
    'a limit that another unit spells',
    [[learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 700 to 1000 mV']],
    [
      kept,
      'learn-height-range text: Value “Height sensor, header fully raised”, limits (tarn-60): written otherwise, the same value: 0.73 to 0.97 V in use (book limits 0.7 to 1.0 V) → 0.73 to 0.97 V in use (book limits 700 to 1000 mV)',
    ],
  ],
  [
    'a digit more, which changes no resolution where an instrument has its own',
    [[learn, 'limits: 2.6 to 3.4 V', 'limits: 2.60 to 3.40 V']],
    [
      kept,
      'learn-height-range text: Value “Sensor travel”, limits: written otherwise, the same value: 2.64 to 3.36 V in use (book limits 2.6 to 3.4 V) → 2.64 to 3.36 V in use (book limits 2.60 to 3.40 V)',
    ],
  ],
  [
    'a parameter of a header',
    [['headers/row-12x20.yaml', 'on_ground: 3.6 to 4.2 V', 'on_ground: 3.5 to 4.2 V']],
    [
      'book technical: Header “12-row header, 20 in rows”, Parameter on_ground, number: 3.6 to 4.2 V → 3.5 to 4.2 V',
      kept,
      'learn-height-range technical: Value “Height sensor, header on the ground”, limits: 3.63 to 4.17 V in use (book limits 3.6 to 4.2 V) → 3.53 to 4.17 V in use (book limits 3.5 to 4.2 V)',
    ],
  ],
  [
    'a parameter in other digits',
    [['headers/row-12x20.yaml', 'working_width: 20 ft', 'working_width: 240 in']],
    [
      'book text: Header “12-row header, 20 in rows”, Parameter working_width, number: written otherwise, the same value: 20 ft → 240 in',
    ],
  ],
  [
    'a time, which the words of the step and not those of the card take from it',
    [[learn, 'hold: 2 to 3 s', 'hold: 2 to 4 s']],
    [kept, 'learn-height-range technical: Step 6 (store-low), time to hold: 2 to 3 s → 2 to 4 s'],
  ],
  [
    'words of a step',
    [[learn, 'do: Read the height sensor on the display.', 'do: Read the sensor on the display.']],
    [
      kept,
      'learn-height-range text: Step 2 (read-on-ground), what to do: Read the height sensor on the display. → Read the sensor on the display.',
    ],
  ],
  [
    'a number in the words of a card, which is technical',
    [[learn, 'card: Hold {machine.learn_key} 2 to 3 s, HIGH', 'card: Hold {machine.learn_key} 2 to 5 s, HIGH']],
    [
      kept,
      'learn-height-range technical: Step 8 (store-high), words for the card (tarn-40): Hold LEARN 2 to 3 s, HIGH STORED → Hold LEARN 2 to 5 s, HIGH STORED',
      'learn-height-range technical: Step 8 (store-high), words for the card (tarn-60): Hold SET RANGE 2 to 3 s, HIGH STORED → Hold SET RANGE 2 to 5 s, HIGH STORED',
    ],
  ],
  [
    'a word that a machine calls something, in words of steps too',
    [['machines/tarn-60.yaml', 'SET RANGE', 'STORE']],
    [
      'book technical: Machine “Tarn 60”, Word learn_key, words: SET RANGE → STORE',
      kept,
      'learn-height-range text: Step 6 (store-low), what to do (tarn-60): Hold SET RANGE for 2 to 3 s. → Hold STORE for 2 to 3 s.',
      'learn-height-range text: Step 8 (store-high), what to do (tarn-60): Hold SET RANGE for 2 to 3 s. → Hold STORE for 2 to 3 s.',
      'learn-height-range text: Step 8 (store-high), words for the card (tarn-60): Hold SET RANGE 2 to 3 s, HIGH STORED → Hold STORE 2 to 3 s, HIGH STORED',
    ],
  ],
  [
    'a step that is gone',
    [
      [
        learn,
        '  - id: lower-again\n    do: Lower the header until the feeder house stops.\n    hazard: [moving-header]\n    sets: { header: on-ground }\n',
        '',
      ],
    ],
    [kept, 'learn-height-range safety: Step 5 (lower-again): gone: Lower the header until the feeder house stops.'],
  ],
  [
    'a step that is new',
    [[learn, '  - id: store-low\n', '  - { id: look, do: Look at the display. }\n  - id: store-low\n']],
    [kept, 'learn-height-range technical: Step 6 (look): new: Look at the display.'],
  ],
  [
    'a step for one machine',
    [
      [
        learn,
        '  - id: store-low\n',
        '  - { id: look, do: Look at the display., only: { machine: tarn-60 } }\n  - id: store-low\n',
      ],
    ],
    [kept, 'learn-height-range technical: Step 6 (look) (tarn-60): new: Look at the display.'],
  ],
  [
    'a step that moved',
    [
      [learn, '  - id: void\n    do: Leave automatic height off.\n    then: call-service\n', ''],
      [
        learn,
        '  - id: park\n',
        '  - id: void\n    do: Leave automatic height off.\n    then: call-service\n  - id: park\n',
      ],
    ],
    [kept, 'learn-height-range technical: Step 9 (void): moved: step 10 → step 9'],
  ],
  [
    'a step that has another name, where others lead to it',
    [
      [learn, '  - id: void\n', '  - id: give-up\n'],
      [learn, 'engaged., go: void', 'engaged., go: give-up'],
      [learn, 'engaged., go: void', 'engaged., go: give-up'],
    ],
    ['learn-height-range text: Step 10 (give-up): renamed: void → give-up'],
  ],
  [
    'a value that has another name, where it is read and worked with',
    [
      [learn, '  raised:\n    label', '  fully_raised:\n    label'],
      [learn, 'on_ground - raised', 'on_ground - fully_raised'],
      [learn, 'measure: [raised, travel]', 'measure: [fully_raised, travel]'],
      [learn, 'reads {raised} with', 'reads {fully_raised} with'],
    ],
    ['learn-height-range text: Value “fully_raised”: renamed: raised → fully_raised'],
  ],
  [
    'where a branch leads',
    [
      [
        learn,
        'measure: on_ground\n    when: { outside: call-service }',
        'measure: on_ground\n    when: { outside: stop }',
      ],
    ],
    [
      kept,
      'learn-height-range technical: Step 2 (read-on-ground), where a reading outside the limits leads: call service → stop',
    ],
  ],
  [
    'what a step leaves so, of a state that safety rules look at',
    [
      [
        learn,
        'hazard: [moving-header]\n    sets: { header: raised }',
        'hazard: [moving-header]\n    sets: { header: working-height }',
      ],
    ],
    [kept, 'learn-height-range safety: Step 3 (raise), what it leaves so: Header: Raised → Header: Working height'],
  ],
  [
    'a caution of a step',
    [
      [
        learn,
        'until the feeder house stops.\n    hazard: [moving-header]\n    sets',
        'until the feeder house stops.\n    sets',
      ],
    ],
    [kept, 'learn-height-range safety: Step 1 (lower), caution: gone: The header moves without warning.'],
  ],
  [
    'words of a caution, which cards print',
    [['safety.yaml', 'Let nobody near it', 'Let nobody stand near it']],
    [
      'book safety: Caution “The header moves without warning.”, how to avoid it: Let nobody near it while the engine runs. → Let nobody stand near it while the engine runs.',
    ],
  ],
  [
    'the severity of a hazard',
    [['safety.yaml', 'severity: may-kill', 'severity: may-injure']],
    ['book safety: Caution “The header moves without warning.”, severity: may kill → may injure'],
  ],
  [
    'a condition',
    [[learn, 'is: at least 100 degF', 'is: at least 110 degF']],
    [
      kept,
      'learn-height-range technical: Condition “Oil temperature”: Oil temperature: at least 100 °F (at least 37.8 °C) → Oil temperature: at least 110 °F (at least 43.4 °C)',
    ],
  ],
  [
    'a condition that is gone',
    [[learn, '  - { state: engine, is: low-idle, shown-by: The engine runs at its lowest speed. }\n', '']],
    [kept, 'learn-height-range safety: Condition “Engine”: gone: Engine: Low idle'],
  ],
  [
    'how long a condition must hold',
    [[learn, 'is out., throughout: true }', 'is out. }']],
    [kept, 'learn-height-range safety: Condition “Automatic height”, throughout: gone: throughout'],
  ],
  [
    'a bundle that rules name, said once',
    [['safety.yaml', 'key: removed, motion: stopped, header: on-stop', 'motion: stopped, header: on-stop']],
    ['book safety: Bundle of conditions safe-to-go-under, condition: gone: Key: Removed'],
  ],
  [
    'a safety rule',
    [['safety.yaml', 'unchanged: [header, engine]', 'unchanged: [header]']],
    ['book safety: Safety rule nothing-moves-over-people, what must not change: gone: Engine'],
  ],
  [
    'what a safety rule is called',
    [['safety.yaml', '{ id: under-the-header, when', '{ id: under-the-header, label: Under the header, when']],
    ['book text: Safety rule “Under the header”, name: new: Under the header'],
  ],
  [
    'what follows from what',
    [['states.yaml', 'then: { key: in, electrics: live }', 'then: { key: in }']],
    [
      'book safety: What follows from what: when Engine: Low idle or Working speed: Key: In; Electrics: Live → when Engine: Low idle or Working speed: Key: In',
    ],
  ],
  [
    'a value that a state may have',
    [
      [
        'states.yaml',
        'motion:    { label: Moving parts, is: [running, coasting, stopped] }',
        'motion:    { label: Moving parts, is: [running, coasting, stopped, locked] }',
      ],
    ],
    ['book safety: State “Moving parts”, Value “Locked”: new'],
  ],
  [
    'an instrument, and the limits in use that follow from it',
    [['instruments.yaml', '± 0.02 V', '± 0.04 V']],
    [
      'book technical: Instrument “Display reading”, accuracy: ± 0.02 V → ± 0.04 V',
      kept,
      'learn-height-range technical: Value “Height sensor, header on the ground”, limits: 3.63 to 4.17 V in use (book limits 3.6 to 4.2 V) → 3.65 to 4.15 V in use (book limits 3.6 to 4.2 V)',
      'learn-height-range technical: Value “Height sensor, header fully raised”, limits (tarn-40): 0.73 to 1.07 V in use (book limits 0.7 to 1.1 V) → 0.75 to 1.05 V in use (book limits 0.7 to 1.1 V)',
      'learn-height-range technical: Value “Height sensor, header fully raised”, limits (tarn-60): 0.73 to 0.97 V in use (book limits 0.7 to 1.0 V) → 0.75 to 0.95 V in use (book limits 0.7 to 1.0 V)',
      'learn-height-range technical: Value “Sensor travel”, limits: 2.64 to 3.36 V in use (book limits 2.6 to 3.4 V) → 2.67 to 3.33 V in use (book limits 2.6 to 3.4 V)',
    ],
  ],
  [
    'rigs that a procedure is no longer for',
    [
      [learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-40]'],
      [learn, ', tarn-60: 0.7 to 1.0 V', ''],
    ],
    ['learn-height-range technical: Rigs that it is no longer for: tarn-60'],
  ],
  ['a revision without a change', [[learn, 'revision: 3', 'revision: 4']], ['learn-height-range: idle']],
  [
    'a revision that goes with its change',
    [
      [learn, 'revision: 3', 'revision: 4'],
      [learn, 'people: 1', 'people: 2'],
    ],
    ['learn-height-range technical: people: 1 → 2'],
  ],
  ['a revision that goes down', [[learn, 'revision: 3', 'revision: 2']], ['learn-height-range: lowered']],
  [
    'a review, which asks for no revision',
    [[learn, 'on: 2026-09-02, by: Service desk', 'on: 2026-10-02, by: Service desk']],
    ['learn-height-range text: review: 2026-09-02; Service desk; 2027-08-01 → 2026-10-02; Service desk; 2027-08-01'],
  ],
  [
    'a procedure that is withdrawn',
    [[learn, 'status: released', 'status: withdrawn']],
    ['learn-height-range safety: status: released → withdrawn'],
  ],
  [
    'a machine that fits another header',
    [['machines/tarn-60.yaml', 'headers: [row-12x20]', 'headers: [row-12x20, platform-30]']],
    ['book technical: Machine “Tarn 60”, header that fits: new: platform-30'],
  ],
  [
    'a machine that is new, and the procedure that is for it',
    [
      [
        'machines/tarn-80.yaml',
        '',
        'name: Tarn 80\ntell: The plate reads TARN 80.\nheaders: [row-12x20]\nwords: { learn_key: LEARN }\nparameters:\n  sensor_reads: 0.25 to 4.75 V\n',
      ],
      [learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-40, tarn-60, tarn-80]'],
      [learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-60: 0.7 to 1.0 V, tarn-80: 0.7 to 1.0 V'],
    ],
    ['book technical: Machine “Tarn 80”: new', 'learn-height-range technical: Rigs that it is for now: tarn-80'],
  ],
  [
    'a machine that has another name everywhere',
    [
      [
        'machines/tarn-61.yaml',
        '',
        'name: Tarn 60\ntell: The plate inside the cab door reads TARN 60.\nheaders: [row-12x20]\nwords: { learn_key: SET RANGE }\nparameters:\n  sensor_reads: 0.25 to 4.75 V\n',
      ],
      ['machines/tarn-60.yaml', '', ''],
      [learn, 'machine: [tarn-40, tarn-60]', 'machine: [tarn-40, tarn-61]'],
      [learn, 'tarn-60: 0.7 to 1.0 V', 'tarn-61: 0.7 to 1.0 V'],
    ],
    ['book text: Machine “tarn-61”: renamed: tarn-60 → tarn-61'],
  ],
  [
    'prose',
    [[learn, 'with the header at the top.', 'with the header up.']],
    [
      kept,
      'learn-height-range text: Text “Why the range is learned” (tarn-40): Why the range is learned The display reads 0.73 to 1.07 V with the header at the top. → Why the range is learned The display reads 0.73 to 1.07 V with the header up.',
      'learn-height-range text: Text “Why the range is learned” (tarn-60): Why the range is learned The display reads 0.73 to 0.97 V with the header at the top. → Why the range is learned The display reads 0.73 to 0.97 V with the header up.',
    ],
  ],
  [
    'the telephone number on every card',
    [['book.yaml', '555-0134', '555-0135']],
    ['book technical: Telephone number, printed on every card: 555-0134 → 555-0135'],
  ],
];
