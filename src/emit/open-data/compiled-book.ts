// The compiled book as one open JSON file. Its shape is documented by schema/compiled-book.schema.json.

import type { Machine } from '../../model/book.js';
import type { ResolvedBook } from '../../model/resolved.js';
import { rigLabel } from '../../model/rig.js';
import type { Text, Words } from '../../model/text.js';
import { anyone, isSameForAll, type Reader, wordsOf } from '../book-text.js';
import type { SiteMap } from '../pages/site-map.js';
import { endProcedures } from '../step-label.js';
import { plainProcedure, withoutMissing } from './plain-procedure.js';

type Plain = Readonly<Record<string, unknown>>;

/** `data/book.json`, with the pages that the site has. */
export function compileOpenBook(resolved: ResolvedBook, map: SiteMap): string {
  const { book } = resolved;
  const { settings } = book;
  const words = (text: Text | undefined): Words | undefined => text && wordsOf(text, anyone);
  const open = {
    format: 'stepgauge-book',
    version: 1,
    title: words(settings.title),
    owner: words(settings.owner),
    phone: settings.phone.value,
    url: settings.url.value,
    languages: settings.languages,
    units: settings.units,
    decision: settings.decision,
    jobs: settings.jobs.map(({ id, label }) => ({ id: id.value, label: words(label) })),
    machines: [...book.machines.values()].map(plainMachine),
    headers: [...book.headers.values()].map(({ id, name, type }) => ({ id, name: wordsOf(name), type: type.value })),
    states: plainStates(resolved),
    events: [...book.events.values()].map(({ id, label }) => ({ id, label: wordsOf(label) })),
    hazards: plainHazards(resolved, map),
    terms: book.terms.map(({ use, also, never }) => ({
      use: Object.fromEntries([...use].map(([language, { value }]) => [language, value])),
      also: also.map(({ value }) => value),
      never: never.map(({ value }) => value),
    })),
    variants: plainVariants(resolved, map),
  };
  return `${JSON.stringify(open)}\n`;
}

function plainMachine(machine: Machine): Plain {
  const { serials } = machine;
  return withoutMissing({
    id: machine.id,
    name: wordsOf(machine.name),
    headers: machine.headers.map(({ value }) => value),
    options: machine.options.map(({ id, is, label }) => withoutMissing({ id, is, label: label && wordsOf(label) })),
    serials: serials && withoutMissing({ from: serials.from, to: serials.to }),
    software: Object.fromEntries(
      machine.software.map(({ module, versions }) => [module.value, versions.map(({ value }) => value)]),
    ),
  });
}

function plainStates({ world }: ResolvedBook): readonly Plain[] {
  return world.variables.map((variable) =>
    withoutMissing({
      id: variable.id,
      label: variable.label,
      values: variable.values.map((id) => withoutMissing({ id, label: variable.valueLabels.get(id) })),
      quantity: variable.quantity,
      start: variable.start,
      restore: variable.restore,
      safe: variable.safe,
    }),
  );
}

// a hazard whose words differ by rig has one text for each machine and header
function plainHazards({ book }: ResolvedBook, { homes }: SiteMap): readonly Plain[] {
  return [...book.hazards.values()].map(({ id, severity, what, harm, avoid }) => {
    const read = (reader: Reader): Plain => ({
      what: wordsOf(what, reader),
      harm: wordsOf(harm, reader),
      avoid: wordsOf(avoid, reader),
    });
    const texts = [what, harm, avoid].every(isSameForAll)
      ? [read(anyone)]
      : homes.map(({ machine, header, keys }) => ({
          machine: machine.id,
          header: header.id,
          ...read({ machine, keys }),
        }));
    return { id, severity: severity.value, texts };
  });
}

function plainVariants(resolved: ResolvedBook, map: SiteMap): readonly Plain[] {
  const pages = new Map<string, Plain[]>();
  for (const { machine, header, entries } of map.homes) {
    for (const { variant, folder, code } of entries.flatMap(({ versions }) => versions)) {
      const list = pages.get(variant.id) ?? [];
      list.push({ machine: machine.id, header: header.id, path: folder, code });
      pages.set(variant.id, list);
    }
  }
  return resolved.variants
    .filter(({ id }) => pages.has(id))
    .map((variant) => ({
      id: variant.id,
      hash: variant.hash,
      rigs: variant.rigs.map(rigLabel),
      pages: pages.get(variant.id) ?? [],
      procedure: plainProcedure(variant.procedure),
      ends: endProcedures(variant).map(({ procedure, ends, prefix }) => ({
        ends,
        procedure: plainProcedure(procedure, prefix),
      })),
    }));
}
