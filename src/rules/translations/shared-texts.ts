// The texts of the shared files, each with all of its languages.

import type { Book } from '../../model/book.js';
import type { Text } from '../../model/text.js';

/** What hazards, rules, machines, headers, states, events, instruments and tools say to people. */
export function* sharedTexts({
  hazards,
  rules,
  machines,
  headers,
  states,
  events,
  instruments,
  tools,
}: Book): Iterable<Text> {
  for (const { what, harm, avoid } of hazards.values()) yield* [what, harm, avoid];
  for (const { label } of rules) if (label) yield label;
  for (const { name, tell, options, software } of machines.values()) {
    yield name;
    for (const one of [tell, ...[...options, ...software].map((part) => part.tell)]) {
      if (one?.text) yield one.text;
      if (one?.figure) yield one.figure.alt;
    }
  }
  for (const { name, tell } of headers.values()) {
    yield name;
    if (tell?.text) yield tell.text;
    if (tell?.figure) yield tell.figure.alt;
  }
  for (const things of [states, events, instruments, tools]) {
    for (const { label } of things.values()) if (label) yield label;
  }
}
