// Makes books of N procedures, the same for the same N: what the speed of a build is measured on.

/** A generator of numbers from 0 to 1 that begins anew for the same seed. */
function chance(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

const words =
  'header height sensor ground raise lower feeder house reel drum knife belt chain screw bracket display lamp arm shoe skid'.split(
    ' ',
  );

/** Path to text: the shared files of `base`, and `count` procedures of some four kilobytes each. */
export function generateBook(base, count) {
  const random = chance(count);
  const files = new Map([...base].filter(([path]) => !path.endsWith('.md')));
  for (let i = 0; i < count; i += 1) {
    const name = `check-${String(i).padStart(5, '0')}`;
    files.set(`sensors/${name}.md`, procedure(i, random));
  }
  return files;
}

function sentence(random, length) {
  const some = Array.from({ length }, () => words[Math.floor(random() * words.length)]);
  return `Look at the ${some.join(' and the ')}.`;
}

function procedure(index, random) {
  const low = (3 + random() * 0.4).toFixed(2);
  const high = (Number(low) + 0.6).toFixed(2);
  const steps = Array.from({ length: 9 }, (_, i) =>
    [
      `  - id: look-${i}`,
      `    do: ${sentence(random, 4)}`,
      `    expect: ${sentence(random, 3)}`,
      ...(i % 3 === 0
        ? ['    hazard: [moving-header]', `    sets: { header: ${i % 2 === 0 ? 'on-ground' : 'raised'} }`]
        : []),
    ].join('\n'),
  );
  const prose = Array.from(
    { length: 6 },
    (_, i) => `## Part ${i + 1}\n\n${Array.from({ length: 3 }, () => sentence(random, 6)).join(' ')}\n`,
  );
  return `---
title: Check number ${index}
kind: inspection
summary: ${sentence(random, 3)}
revision: ${1 + (index % 5)}
status: released
reviewed: { on: 2026-09-02, by: Service desk, next: 2027-08-01 }
verified:
  - { machine: tarn-40, how: on-machine, by: R. Quill, on: 2026-09-02 }
applies: { machine: [tarn-40, tarn-60], header: { type: row } }
skill: operator
people: 1
time: 15 min
tools: none
supplies: none
hazards: [moving-header]
requires:
  - { state: engine, is: low-idle, shown-by: The engine runs at its lowest speed. }
  - { state: automatic-height, is: "off", shown-by: The automatic lamp is out., throughout: true }
  - state: threshing-drive
    is: disengaged
    throughout: true
    shown-by: The threshing lamp is out.
    if-missed: Nothing is stored in place ${index} and no message appears.
values:
  reading:
    label: Sensor ${index}, header on the ground
    quantity: voltage
    limits: ${low} to ${high} V
    inside: machine.sensor_reads
    read-with: display
    source: common practice
  second:
    label: Sensor ${index}, a little later
    quantity: voltage
    limits: ${low} to ${high} V
    inside: machine.sensor_reads
    read-with: display
    source: common practice
steps:
${steps.join('\n')}
  - id: read
    do: Read both on the display.
    measure: [reading, second]
    when: { outside: call-service }
  - id: park
    do: Lower the header to the ground.
    hazard: [moving-header]
    sets: { header: on-ground }
leaves: { header: on-ground }
---

The display reads {reading} and then {second}.

${prose.join('\n')}`;
}
