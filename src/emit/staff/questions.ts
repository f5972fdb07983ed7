// From a symptom to the first three questions: what the desk asks somebody on the telephone, and where each answer leads.

import type { ResolvedStep } from '../../model/resolved.js';
import { type Html, html } from '../html.js';
import { linkTo, type Page } from '../pages/context.js';
import type { Entry, Home } from '../pages/site-map.js';
import { plainCondition } from '../pages/states.js';
import { type Symptom, symptomFolder, symptomsOf } from '../pages/symptoms.js';
import { stepAnchor } from '../pages/ways.js';
import { indexFile, openSearch, type Search } from '../search/query.js';
import { buildSearch } from '../search/search-files.js';
import { stepLabel } from '../step-label.js';
import { drawRigs, rigName, say, staffFolder, staffPage } from './staff-page.js';

/** How many questions stand under a sign. */
const most = 3;

/** The page to choose the rig on. */
export function questionsStart(page: Page): string {
  return staffPage(page, {
    title: say(page, 'questions'),
    why: say(page, 'questions-why'),
    body: drawRigs(page, `${staffFolder}questions/`),
  });
}

interface Question {
  readonly words: string;
  readonly folder: string;
}

/** All signs of a rig, each with its questions. `page` is of no home: links go to the home's pages. */
export function questionsPage(bare: Page, home: Home): string {
  const page: Page = { ...bare, home };
  const search = searchOf(page, home);
  const signs = new Map<string, Symptom[]>();
  for (const symptom of symptomsOf(home).filter(({ entry }) => entry.procedure.status !== 'withdrawn')) {
    const sign = saySign(page, symptom);
    signs.set(sign, [...(signs.get(sign) ?? []), symptom]);
  }
  const rows = [...signs].map(([sign, symptoms]) => {
    const questions = questionsFor(page, { sign, symptoms, search, home });
    return html`<li><h2>${sign}</h2><ol>${questions.map(({ words, folder }) => html`<li>${words} <a href="${linkTo(page, folder)}">${titleAt(page, home, folder)}</a></li>`)}</ol></li>
`;
  });
  return staffPage(bare, {
    title: `${say(page, 'questions')} · ${rigName(page, home)}`,
    why: say(page, 'questions-why'),
    body: rows.length === 0 ? html`<p>${say(page, 'questions-none')}</p>` : html`<ul class="asked">${rows}</ul>`,
  });
}

function searchOf(page: Page, home: Home): Search {
  const { main } = buildSearch(home, page.site.book, page.voice);
  return openSearch([indexFile(main)]);
}

function saySign({ voice }: Page, { sign, not, limits }: Symptom): string {
  const words = voice.plain(sign);
  if (limits !== undefined) return voice.text('symptom-outside', { label: words, limits: voice.number(limits) });
  return not ? voice.text('symptom-not-seen', { expect: words }) : words;
}

interface Asked {
  readonly sign: string;
  readonly symptoms: readonly Symptom[];
  readonly search: Search;
  readonly home: Home;
}

/** What the sign itself points at first, then what fault-finding asks that the search finds for its words. */
function questionsFor(page: Page, { sign, symptoms, search, home }: Asked): readonly Question[] {
  const own = symptoms.flatMap((symptom) => ownQuestions(page, symptom));
  const near = search(sign, most).map(({ procedure }) => home.entries[procedure]);
  const found = near.flatMap((entry) => (entry?.procedure.kind === 'fault-finding' ? asksOf(page, entry) : []));
  const others = near.flatMap((entry) => (entry ? missedIn(page, entry) : []));
  const unique = new Map([...own, ...found, ...others].map((question) => [question.words, question]));
  return [...unique.values()].slice(0, most);
}

function ownQuestions(page: Page, symptom: Symptom): readonly Question[] {
  const { voice, site } = page;
  const { kind, condition, look, cause, sign, limits, entry } = symptom;
  const folder = symptomFolder(symptom);
  if (kind === 'work') return [...asksOf(page, entry), ...causesOf(page, entry)];
  if (condition) {
    const asked = say(page, 'ask-so', { condition: plainCondition(condition, site.book.world, voice) });
    return [{ words: `${asked} ${voice.plain(look)}`.trim(), folder }];
  }
  if (cause) return [{ words: say(page, 'ask-cause', { cause: voice.plain(cause) }), folder }];
  if (limits === undefined) return [];
  return [{ words: say(page, 'ask-limits', { label: voice.plain(sign), limits: voice.number(limits) }), folder }];
}

/** What a fault-finding procedure asks, in order. With several versions they lead to the choice. */
function asksOf({ voice }: Page, entry: Entry): readonly Question[] {
  const folderOf = (step: ResolvedStep): string =>
    entry.versions.length > 1 ? entry.folder : `${entry.versions[0].folder}#${stepAnchor(stepLabel(step))}`;
  return entry.procedure.steps
    .filter(({ ask }) => ask !== undefined)
    .map((step) => ({ words: voice.plain(step.ask), folder: folderOf(step) }));
}

/** What the branches of a procedure say may be the cause. */
function causesOf(page: Page, entry: Entry): readonly Question[] {
  const { voice } = page;
  return entry.procedure.steps.flatMap((step) => {
    const branches = [step.otherwise, ...step.when.values(), ...step.answers.map(({ branch }) => branch)];
    const folder = entry.versions.length > 1 ? entry.folder : `${entry.folder}#${stepAnchor(stepLabel(step))}`;
    return branches.flatMap((branch) =>
      branch?.because ? [{ words: say(page, 'ask-cause', { cause: voice.plain(branch.because) }), folder }] : [],
    );
  });
}

/** The conditions of a procedure that show when they are missed. */
function missedIn(page: Page, entry: Entry): readonly Question[] {
  const { voice, site } = page;
  if (entry.versions.length > 1) return [];
  return entry.procedure.requires.flatMap(({ ifMissed, condition, shownBy }, i) => {
    if (!ifMissed) return [];
    const asked = say(page, 'ask-so', { condition: plainCondition(condition, site.book.world, voice) });
    return [{ words: `${asked} ${voice.plain(shownBy)}`.trim(), folder: `${entry.folder}#first-${i + 1}` }];
  });
}

function titleAt({ voice }: Page, { entries }: Home, folder: string): Html {
  const entry = entries.find((one) => folder.startsWith(one.folder));
  return voice.say(entry?.procedure.title);
}
