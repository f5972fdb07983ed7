// The words for keys: unknown, missing, misplaced.

import { type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import { askWhetherMeant, nearestNames } from '../diagnostic/nearest.js';
import type { Span } from '../text/source.js';
import type { Fault, FaultContext } from './schema-fault.js';
import { wordingAt } from './schema-lookup.js';
import { nameOf, type Place } from './schema-places.js';
import { expectationOf, helpOf, keySpan, oneOf, replaceBy, writeFlow } from './schema-words.js';
import type { FileKind } from './schemas.js';

/** A key that the map may not have. */
export function unknownKey(fault: Fault, context: FaultContext): Diagnostic {
  const name = fault.params.additionalProperty ?? '';
  const at = keySpan(fault.place.node, name);
  const written = fault.place.node.kind === 'map' ? fault.place.node.entries.map(({ key }) => key.text.value) : [];
  const here = Object.keys(fault.schema.properties ?? {});
  const free = here.filter((key) => !written.includes(key));
  const [near] = nearestNames(name, fault.standsFor === undefined ? free : [fault.standsFor, ...free]);
  if (context.kind === 'translation' && near === undefined && context.known('procedure').has(name)) {
    return typedTranslation(name, at);
  }
  const inside = fault.place.path.length === 0 ? kindNames[context.kind] : nameOf(fault.place);
  const expected = near ?? fault.standsFor;
  return diagnose({
    code: 'unknown-key',
    severity: 'error',
    message: `Unexpected key \`${name}\` in ${inside}, expected ${oneOf(expected === undefined ? here : [expected])}`,
    at,
    ...helpOf(near === undefined ? helpWithKey(name, fault, context) : askWhetherMeant([near])),
    ...(near === undefined ? {} : { fixes: [replaceBy(at, near, `Write \`${near}\``)] }),
  });
}

function helpWithKey(name: string, { standsFor, schema, place }: Fault, context: FaultContext): string {
  // `leaves` with ends and states side by side
  if (place.path.join() === 'leaves')
    return `Put states under the end that they are for, as in \`done: { ${name}: … }\`.`;
  if (standsFor !== undefined)
    return `\`${standsFor}\` is missing here: write it in place of \`${name}\` if that is meant.`;
  const elsewhere = (context.known(context.kind).get(name) ?? []).filter((title) => title !== schema.title);
  const titles = elsewhere.map((title) => title.toLowerCase()).join(', ');
  return titles === ''
    ? 'Write one of these keys, or take it out.'
    : `\`${name}\` is a key of: ${titles}. Move it there, or take it out.`;
}

const kindNames: Readonly<Record<FileKind, string>> = {
  book: 'the book',
  machine: 'a machine',
  header: 'a header',
  instruments: 'the instruments',
  tools: 'the tools',
  crops: 'the crops',
  states: 'the states',
  safety: 'the safety rules',
  terms: 'the terms',
  fleet: 'the fleet',
  issued: 'the issued cards',
  procedure: 'a procedure',
  translation: 'a translation',
};

function typedTranslation(name: string, at: Span): Diagnostic {
  return diagnose({
    code: 'typed-translation',
    severity: 'error',
    message: `Unexpected key \`${name}\` in a translation, expected texts alone`,
    at,
    help: `Take \`${name}\` out: it stands in the original, once for all languages.`,
    note: 'Numbers, states and branches that stand twice come to differ, and one of the two is then wrong.',
  });
}

/** A key that the map must have. */
export function missingKey(fault: Fault, context: FaultContext): Diagnostic {
  const name = fault.params.missingProperty ?? '';
  const { place } = fault;
  const [example] = wordingAt(context.kind, [...place.path, name]).examples ?? [];
  const inside = place.path.length === 0 ? kindNames[context.kind] : nameOf(place);
  const because = fault.params.property === undefined ? '' : ` that has \`${fault.params.property}\``;
  return diagnose({
    code: 'missing-key',
    severity: 'error',
    message: `\`${name}\` is missing in ${inside}${because}`,
    at: because ? keySpan(place.node, fault.params.property ?? '') : startOf(place),
    help: example === undefined ? `Add \`${name}:\`.` : `Add a line such as \`${name}: ${writeFlow(example)}\`.`,
  });
}

/** Where something is missing: at the first key of the map, which names it better than the whole map would. */
function startOf(place: Place): Span {
  const { node } = place;
  const first = node.kind === 'map' ? node.entries[0]?.key.at : undefined;
  return first ?? place.key?.at ?? node.at;
}

/** A key whose form no name may have. */
export function wrongKey(fault: Fault): Diagnostic {
  const name = fault.propertyName ?? '';
  return diagnose({
    code: 'bad-name',
    severity: 'error',
    message: `Unexpected name \`${name}\` in ${nameOf(fault.place)}, expected small letters, digits and \`_\`, a letter first`,
    at: keySpan(fault.place.node, name),
    help: 'Change the name, here and where it is used.',
  });
}

/** A second key where one is meant. */
export function tooManyKeys(fault: Fault): Diagnostic {
  const { node } = fault.place;
  const second = node.kind === 'map' ? node.entries[1] : undefined;
  return diagnose({
    code: 'unknown-key',
    severity: 'error',
    message: `Unexpected second key in ${nameOf(fault.place)}, ${expectationOf(fault.schema)}`,
    at: second?.key.at ?? node.at,
    help: 'Keep one of them.',
  });
}
