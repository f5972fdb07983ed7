// Texts that YAML would cut, split, refuse or change: each gives one diagnostic at its place; its fix gives what was meant.

import { describe, expect, it } from 'vitest';
import { mend, read } from './reading.js';

interface Trap {
  readonly text: string;
  /** `code "underlined"`, all there are. */
  readonly faults: readonly string[];
  /** What the first fix makes of the text. */
  readonly mended: string;
  /** What is read, before and after the fix. */
  readonly value: unknown;
}

const one = (text: string, fault: string, mended: string, value: unknown): Trap => ({
  text,
  faults: [fault],
  mended,
  value,
});

const hashes: readonly Trap[] = [
  one('do: Turn bolt #4 now\nid: x\n', 'text-cut-by-hash "#4 now"', 'do: "Turn bolt #4 now"\nid: x\n', {
    do: 'Turn bolt #4 now',
    id: 'x',
  }),
  one('do: Turn it  #4 now\n', 'text-cut-by-hash "#4 now"', 'do: "Turn it  #4 now"\n', { do: 'Turn it  #4 now' }),
  one('do: Say "#1" #2  # a comment\n', 'text-cut-by-hash "#2"', `do: 'Say "#1" #2'  # a comment\n`, {
    do: 'Say "#1" #2',
  }),
  one('do: #4 bolt\nid: x\n', 'text-cut-by-hash "#4 bolt"', 'do: "#4 bolt"\nid: x\n', { do: '#4 bolt', id: 'x' }),
  one('do: "OK" #4 is lit\n', 'sign-before-text "\\""', `do: '"OK" #4 is lit'\n`, { do: '"OK" #4 is lit' }),
  one('- Turn bolt #4\n- x\n', 'text-cut-by-hash "#4"', '- "Turn bolt #4"\n- x\n', ['Turn bolt #4', 'x']),
  one(
    'do: Turn bolt\n  #4 and wait\nid: x\n',
    'text-cut-by-hash "#4 and wait"',
    'do: "Turn bolt\n  #4 and wait"\nid: x\n',
    { do: 'Turn bolt #4 and wait', id: 'x' },
  ),
  one('a: { do: Turn bolt #4, id: x }\nb: y\n', 'text-cut-by-hash "#4"', 'a: { do: "Turn bolt #4", id: x }\nb: y\n', {
    a: { do: 'Turn bolt #4', id: 'x' },
    b: 'y',
  }),
  one('a: [bolt #4, x]\n', 'text-cut-by-hash "#4"', 'a: ["bolt #4", x]\n', { a: ['bolt #4', 'x'] }),
  one('do: Turn bolt #4\r\nid: x\r\n', 'text-cut-by-hash "#4"', 'do: "Turn bolt #4"\r\nid: x\r\n', {
    do: 'Turn bolt #4',
    id: 'x',
  }),
];

const colons: readonly Trap[] = [
  one('do: Turn it: then stop\n', 'colon-in-text ":"', 'do: "Turn it: then stop"\n', { do: 'Turn it: then stop' }),
  one('do: Press LEARN:\nid: x\n', 'colon-in-text ":"', 'do: "Press LEARN:"\nid: x\n', { do: 'Press LEARN:', id: 'x' }),
  one(
    'do: Turn it\n  slowly and then: stop\nid: x\n',
    'colon-in-text ":"',
    'do: "Turn it\n  slowly and then: stop"\nid: x\n',
    { do: 'Turn it slowly and then: stop', id: 'x' },
  ),
  one('- Grease: two tubes\n- Oil\n', 'colon-in-text ":"', '- "Grease: two tubes"\n- Oil\n', [
    'Grease: two tubes',
    'Oil',
  ]),
  one('- Wheel bearing grease: two tubes\n', 'colon-in-text ":"', '- "Wheel bearing grease: two tubes"\n', [
    'Wheel bearing grease: two tubes',
  ]),
  one('a: { do: Wait: then go }\n', 'colon-in-text ":"', 'a: { do: "Wait: then go" }\n', {
    a: { do: 'Wait: then go' },
  }),
  one('a: [Note: wait, x]\n', 'colon-in-text ":"', 'a: ["Note: wait", x]\n', { a: ['Note: wait', 'x'] }),
];

const commas: readonly Trap[] = [
  one('- { do: Turn it, then stop. }\n', 'comma-in-text ","', '- { do: "Turn it, then stop." }\n', [
    { do: 'Turn it, then stop.' },
  ]),
  one(
    '- { id: x, do: Turn it, wait, and stop., then: done }\n',
    'comma-in-text ","',
    '- { id: x, do: "Turn it, wait, and stop.", then: done }\n',
    [{ id: 'x', do: 'Turn it, wait, and stop.', then: 'done' }],
  ),
  one(`- { do: Say "yes", then don't stop }\n`, 'comma-in-text ","', `- { do: 'Say "yes", then don''t stop' }\n`, [
    { do: `Say "yes", then don't stop` },
  ]),
  one(
    '- { do: Turn it,\n    then stop., id: x }\n',
    'comma-in-text ","',
    '- { do: "Turn it,\n    then stop.", id: x }\n',
    [{ do: 'Turn it, then stop.', id: 'x' }],
  ),
  one('a: { b: { c: x, y z } }\n', 'comma-in-text ","', 'a: { b: { c: "x, y z" } }\n', { a: { b: { c: 'x, y z' } } }),
  one('a: [Turn it, then stop.]\n', 'comma-in-text ","', 'a: ["Turn it, then stop."]\n', {
    a: ['Turn it, then stop.'],
  }),
  one('a: { limits: 3,6 V }\n', 'decimal-comma "3,6 V"', 'a: { limits: 3.6 V }\n', { a: { limits: '3.6 V' } }),
  one('a: { limits: 3,6 to 4,2 V, id: x }\n', 'decimal-comma "3,6 to 4,2 V"', 'a: { limits: 3.6 to 4.2 V, id: x }\n', {
    a: { limits: '3.6 to 4.2 V', id: 'x' },
  }),
  one('a: { limits: at least 2,5 V }\n', 'decimal-comma "at least 2,5 V"', 'a: { limits: at least 2.5 V }\n', {
    a: { limits: 'at least 2.5 V' },
  }),
  one('a: [3,6 V, x]\n', 'decimal-comma "3,6 V"', 'a: [3.6 V, x]\n', { a: ['3.6 V', 'x'] }),
  one('- { id: x do: Turn it }\n', 'missing-comma "do:"', '- { id: x, do: Turn it }\n', [{ id: 'x', do: 'Turn it' }]),
];

const braces: readonly Trap[] = [
  one('do: {hold} long\nid: x\n', 'brace-in-text "{hold}"', 'do: "{hold} long"\nid: x\n', {
    do: '{hold} long',
    id: 'x',
  }),
  one('do: {hold}\nid: x\n', 'brace-in-text "{hold}"', 'do: "{hold}"\nid: x\n', { do: '{hold}', id: 'x' }),
  one('do: {{ is a brace\nid: x\n', 'brace-in-text "{{"', 'do: "{{ is a brace"\nid: x\n', {
    do: '{{ is a brace',
    id: 'x',
  }),
  one('do: [OK] is shown\nid: x\n', 'brace-in-text "[OK]"', 'do: "[OK] is shown"\nid: x\n', {
    do: '[OK] is shown',
    id: 'x',
  }),
  one(
    '- { do: Hold {machine.learn_key} for {hold}., hold: 3 s }\n- x\n',
    'brace-in-text "{machine.learn_key}"',
    '- { do: "Hold {machine.learn_key} for {hold}.", hold: 3 s }\n- x\n',
    [{ do: 'Hold {machine.learn_key} for {hold}.', hold: '3 s' }, 'x'],
  ),
  one('- { do: {hold}, hold: 3 s }\n', 'brace-in-text "{hold}"', '- { do: "{hold}", hold: 3 s }\n', [
    { do: '{hold}', hold: '3 s' },
  ]),
  one('- { do: Press [C], hold: 3 s }\n', 'brace-in-text "[C]"', '- { do: "Press [C]", hold: 3 s }\n', [
    { do: 'Press [C]', hold: '3 s' },
  ]),
  one('a: [Hold {hold}, x]\n', 'brace-in-text "{hold}"', 'a: ["Hold {hold}", x]\n', { a: ['Hold {hold}', 'x'] }),
];

const signs: readonly Trap[] = [
  one('limits: > 4 %\nid: x\n', 'sign-before-text ">"', 'limits: at least 4 %\nid: x\n', {
    limits: 'at least 4 %',
    id: 'x',
  }),
  one('limits: %4\n', 'sign-before-text "%"', 'limits: 4 %\n', { limits: '4 %' }),
  one('a: { limits: >= 4 V, b: c }\n', 'sign-before-text ">="', 'a: { limits: at least 4 V, b: c }\n', {
    a: { limits: 'at least 4 V', b: 'c' },
  }),
  ...[
    '*Stop* now',
    '**LEARN** is held',
    '% of the width',
    '> 3 V on the ground',
    '>3.6 V',
    '@ the cab',
    '`LEARN` is held',
    '& wait',
    '&more to do',
    '! stop',
    '!Stop now',
    '| is shown',
    '- 3 V',
    '? is shown',
    ': is shown',
    ', then stop',
    '} is shown',
    '] is shown',
  ].map((text) =>
    one(`do: ${text}\nid: x\n`, `sign-before-text ${JSON.stringify(text[0])}`, `do: "${text}"\nid: x\n`, {
      do: text,
      id: 'x',
    }),
  ),
  one('do: "OK" is shown.\nid: x\n', 'sign-before-text "\\""', `do: '"OK" is shown.'\nid: x\n`, {
    do: '"OK" is shown.',
    id: 'x',
  }),
  one(`do: 'OK' is shown.\nid: x\n`, `sign-before-text "'"`, `do: "'OK' is shown."\nid: x\n`, {
    do: `'OK' is shown.`,
    id: 'x',
  }),
  one('do: "LOW", then "HIGH"\nid: x\n', 'sign-before-text "\\""', `do: '"LOW", then "HIGH"'\nid: x\n`, {
    do: '"LOW", then "HIGH"',
    id: 'x',
  }),
  one('- { do: "OK" is shown, id: x }\n', 'sign-before-text "\\""', `- { do: '"OK" is shown', id: x }\n`, [
    { do: '"OK" is shown', id: 'x' },
  ]),
  one('- { do: "OK", then stop, id: x }\n', 'sign-before-text "\\""', `- { do: '"OK", then stop', id: x }\n`, [
    { do: '"OK", then stop', id: 'x' },
  ]),
  one('- { do: % of it, id: x }\n', 'sign-before-text "%"', '- { do: "% of it", id: x }\n', [
    { do: '% of it', id: 'x' },
  ]),
  one('- { do: **LEARN** is held, id: x }\n', 'sign-before-text "*"', '- { do: "**LEARN** is held", id: x }\n', [
    { do: '**LEARN** is held', id: 'x' },
  ]),
  one('- > 3 V\n- x\n', 'sign-before-text ">"', '- "> 3 V"\n- x\n', ['> 3 V', 'x']),
];

const numbers: readonly Trap[] = [
  one('serials: 12345\n', 'text-read-as-number "12345"', 'serials: "12345"\n', { serials: '12345' }),
  one('serial: 007\n', 'text-read-as-number "007"', 'serial: "007"\n', { serial: '007' }),
  one(
    'software: { display: [3.10, "4.2"] }\n',
    'text-read-as-number "3.10"',
    'software: { display: ["3.10", "4.2"] }\n',
    { software: { display: ['3.10', '4.2'] } },
  ),
  one('applies: { software: 4.20 }\n', 'text-read-as-number "4.20"', 'applies: { software: "4.20" }\n', {
    applies: { software: '4.20' },
  }),
  one('serial: 1e5\n', 'text-read-as-number "1e5"', 'serial: "1e5"\n', { serial: '1e5' }),
  one('serial: 0x1F\n', 'text-read-as-number "0x1F"', 'serial: "0x1F"\n', { serial: '0x1F' }),
  one('phone: 0155501\n', 'text-read-as-number "0155501"', 'phone: "0155501"\n', { phone: '0155501' }),
];

const separators: readonly Trap[] = [
  one('do:Turn it\nid: x\n', 'missing-space "do:"', 'do: Turn it\nid: x\n', { do: 'Turn it', id: 'x' }),
  one('- { do:Turn it, id: x }\n', 'missing-space "do:"', '- { do: Turn it, id: x }\n', [{ do: 'Turn it', id: 'x' }]),
  one('do:\u00a0Turn it\n', 'missing-space "do:"', 'do: Turn it\n', { do: 'Turn it' }),
  one('steps:\n  -id: x\n   do: y\n  - id: z\n', 'missing-space "-id:"', 'steps:\n  - id: x\n    do: y\n  - id: z\n', {
    steps: [{ id: 'x', do: 'y' }, { id: 'z' }],
  }),
  one('do: "OK\nid: x\n', 'unclosed-quote "\\""', 'do: "OK"\nid: x\n', { do: 'OK', id: 'x' }),
  one("do: 'OK\nid: x\n", `unclosed-quote "'"`, "do: 'OK'\nid: x\n", { do: 'OK', id: 'x' }),
  one('- { do: "OK, id: x }\n', 'unclosed-quote "\\""', '- { do: "OK", id: x }\n', [{ do: 'OK', id: 'x' }]),
  one('a: { b: 1, c: { d: 2 }\ne: 3\n', 'unclosed-bracket "{"', 'a: { b: 1, c: { d: 2 } }\ne: 3\n', {
    a: { b: 1, c: { d: 2 } },
    e: 3,
  }),
  one('a: [x, y\nb: 1\n', 'unclosed-bracket "["', 'a: [x, y]\nb: 1\n', { a: ['x', 'y'], b: 1 }),
  one('a: { b: [x, y }\nc: 1\n', 'unclosed-bracket "["', 'a: { b: [x, y] }\nc: 1\n', { a: { b: ['x', 'y'] }, c: 1 }),
  one('a: none\n  - x\nb: 1\n', 'wrong-indent "-"', 'a: "none\n  - x"\nb: 1\n', { a: 'none - x', b: 1 }),
  one('a:\n  - x\n    - y\nb: 1\n', 'wrong-indent "-"', 'a:\n  - "x\n    - y"\nb: 1\n', { a: ['x - y'], b: 1 }),
  one('a: [x\n  - y, z]\n', 'wrong-indent "-"', 'a: ["x\n  - y", z]\n', { a: ['x - y', 'z'] }),
  one('a: [\n- x\n- y\n]\nb: 1\n', 'yaml-syntax "-"', 'a: [\n   x\n , y\n]\nb: 1\n', { a: ['x', 'y'], b: 1 }),
  one('a: [\n  - x,\n  - y z\nb: 1\n', 'yaml-syntax "-"', 'a: [\n     x,\n     y z]\nb: 1\n', {
    a: ['x', 'y z'],
    b: 1,
  }),
  one('a: { b: 1 }}\nc: 1\n', 'extra-bracket "}"', 'a: { b: 1 }\nc: 1\n', { a: { b: 1 }, c: 1 }),
  one(
    'id: x\ndo: Turn\n  expect: y\n  then: done\nby: 2\n',
    'wrong-indent "expect"',
    'id: x\ndo: Turn\nexpect: y\nthen: done\nby: 2\n',
    { id: 'x', do: 'Turn', expect: 'y', then: 'done', by: 2 },
  ),
  one(
    'parameters:\n  raised: 2.6 to 3.4 V\n   coast_time: 60 s\n  hold_time: 2 s\n',
    'wrong-indent "coast_time"',
    'parameters:\n  raised: 2.6 to 3.4 V\n  coast_time: 60 s\n  hold_time: 2 s\n',
    { parameters: { raised: '2.6 to 3.4 V', coast_time: '60 s', hold_time: '2 s' } },
  ),
  one(
    'parameters:\n  raised: 2.6 to 3.4 V\ncoast_time: 60 s\n  hold_time: 2 s\n  step: 5 V\n',
    'wrong-indent "coast_time"',
    'parameters:\n  raised: 2.6 to 3.4 V\n  coast_time: 60 s\n  hold_time: 2 s\n  step: 5 V\n',
    { parameters: { raised: '2.6 to 3.4 V', coast_time: '60 s', hold_time: '2 s', step: '5 V' } },
  ),
  one('do: Watch the\n  tire: it must turn\n', 'colon-in-text ":"', 'do: "Watch the\n  tire: it must turn"\n', {
    do: 'Watch the tire: it must turn',
  }),
  one('a:\n\tb: 1\n\tc: 2\n', 'tab-indent "\\t"', 'a:\n  b: 1\n  c: 2\n', { a: { b: 1, c: 2 } }),
  one('steps:\n  - id: x\n\tdo: y\n  - id: z\n', 'tab-indent "\\t"', 'steps:\n  - id: x\n    do: y\n  - id: z\n', {
    steps: [{ id: 'x', do: 'y' }, { id: 'z' }],
  }),
  one('a: x\n\tb: 1\n', 'tab-indent "\\t"', 'a: x\nb: 1\n', { a: 'x', b: 1 }),
  one('a:\n\u00a0\u00a0b: 1\n', 'odd-space-indent "\u00a0\u00a0"', 'a:\n  b: 1\n', { a: { b: 1 } }),
];

const families: Readonly<Record<string, readonly Trap[]>> = {
  hashes,
  colons,
  commas,
  braces,
  signs,
  numbers,
  separators,
};

for (const [name, traps] of Object.entries(families)) {
  describe(`traps: ${name}`, () => {
    it.each(traps)('$text', ({ text, faults, mended, value }) => {
      const before = read(text);
      expect(before.faults).toEqual(faults);
      expect(before.value).toEqual(value);
      expect(mend(text, before.diagnostics)).toBe(mended);
    });
    it.each(traps)('mended: $mended', ({ mended, value }) => {
      const after = read(mended);
      expect(after.faults).toEqual([]);
      expect(after.value).toEqual(value);
    });
  });
}

describe('what may be a comment', () => {
  it.each([
    ['kind: setup # or calibration\n', { kind: 'setup' }, 'kind: setup  # or calibration\n'],
    ['do: Turn bolt # 4\n', { do: 'Turn bolt' }, 'do: Turn bolt  # 4\n'],
  ])('is one diagnostic with both ways out: %s', (text, value, asComment) => {
    const { diagnostics, value: found } = read(text);
    expect(found).toEqual(value);
    expect(diagnostics.map(({ code }) => code)).toEqual(['text-cut-by-hash']);
    const [quoted, comment] = diagnostics[0]?.fixes ?? [];
    expect([quoted?.safe, comment?.safe]).toEqual([false, false]);
    expect(mend(text, [{ ...diagnostics[0]!, fixes: [comment!] }])).toBe(asComment);
  });
});

describe('what is left alone', () => {
  it.each([
    ['do: Turn bolt  # a comment\n', { do: 'Turn bolt' }],
    ['do: Turn bolt  #\n', { do: 'Turn bolt' }],
    ['people: 2 # both in the cab\n', { people: 2 }],
    ['do: Turn bolt#4\n', { do: 'Turn bolt#4' }],
    ['a:   # above a part\n  b: 1\n', { a: { b: 1 } }],
    ['a: # above a list\n- b\n', { a: ['b'] }],
    ['tools:  # nothing yet\nid: x\n', { tools: null, id: 'x' }],
    ['# alone\na: 1\n  # indented\nb: 2\n', { a: 1, b: 2 }],
    ['a: { b: 1,  # one\n  c: 2 }\n', { a: { b: 1, c: 2 } }],
    ['do: Turn it, then stop.\n', { do: 'Turn it, then stop.' }],
    ['do: Hold {machine.learn_key} for {hold}.\n', { do: 'Hold {machine.learn_key} for {hold}.' }],
    ['do: At 10:00 or 12:30\n', { do: 'At 10:00 or 12:30' }],
    ['at: 10:00\n', { at: '10:00' }],
    ['a:\n  - x\nb:\n- y\n', { a: ['x'], b: ['y'] }],
    ['a:\n- b: 1\n  c:\n    - d: 2\n- b: 3\n', { a: [{ b: 1, c: [{ d: 2 }] }, { b: 3 }] }],
    ['wait: 3 s\n  or more\nid: x\n', { wait: '3 s or more', id: 'x' }],
    ['url: https://book.example/a#b\n', { url: 'https://book.example/a#b' }],
    ['a: { url: https://book.example/a, b: x }\n', { a: { url: 'https://book.example/a', b: 'x' } }],
    ["do: Don't stop\n", { do: "Don't stop" }],
    ["a: { do: Don't stop, id: x }\n", { a: { do: "Don't stop", id: 'x' } }],
    ['is: off\nto: no\n', { is: 'off', to: 'no' }],
    ['a: { yes: { go: x }, no: y }\n', { a: { yes: { go: 'x' }, no: 'y' } }],
    ['serials: 70-00100 to 70-04999\nserial: RH-0042\n', { serials: '70-00100 to 70-04999', serial: 'RH-0042' }],
    ['software: at least 4.2\n', { software: 'at least 4.2' }],
    ['unit: "%"\naccuracy: ± 0.02 V\nmore: -3 to +4 V\n', { unit: '%', accuracy: '± 0.02 V', more: '-3 to +4 V' }],
    ['also: [corn head, maize header]\nn: [1, 2,3]\n', { also: ['corn head', 'maize header'], n: [1, 2, 3] }],
    [
      'any-order: [[a, b], [c, d]]\n',
      {
        'any-order': [
          ['a', 'b'],
          ['c', 'd'],
        ],
      },
    ],
    ['do: |\n  Turn: it #4 {x\n\n  > now\nid: x\n', { do: 'Turn: it #4 {x\n\n> now\n', id: 'x' }],
    ['do: >-\n  Turn: it\n  #4\nid: x\n', { do: 'Turn: it #4', id: 'x' }],
    ['do: "Turn: it #4,\n  then {x}"\nid: x\n', { do: 'Turn: it #4, then {x}', id: 'x' }],
    ['do: Turn it\n  and wait\n\n  long\nid: x\n', { do: 'Turn it and wait\nlong', id: 'x' }],
    ['a: {\n  b: 1,\n  c: [\n    x,\n  ],\n}\nd: 1\n', { a: { b: 1, c: ['x'] }, d: 1 }],
    ['a: { b: { c: 1 }}\nd: [{ e: 1 }, { e: 2 }]\n', { a: { b: { c: 1 } }, d: [{ e: 1 }, { e: 2 }] }],
    ['a: {}\nb: []\nc: ""\n', { a: {}, b: [], c: '' }],
    ['"a b": 1\n\'c: d\': 2\n', { 'a b': 1, 'c: d': 2 }],
    ['steps:\n- id: a\n- id: b\n  do: c\n', { steps: [{ id: 'a' }, { id: 'b', do: 'c' }] }],
    ['- - a\n  - b\n- c\n', [['a', 'b'], 'c']],
    [
      'limits: { tarn-40: 0.9 ± 0.2 V, tarn-60: 0.7 to 1.0 V }\n',
      { limits: { 'tarn-40': '0.9 ± 0.2 V', 'tarn-60': '0.7 to 1.0 V' } },
    ],
  ])('%s', (text, value) => {
    const found = read(text);
    expect(found.faults).toEqual([]);
    expect(found.value).toEqual(value);
  });
});
