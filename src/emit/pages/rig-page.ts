// What to say once of a machine so that each procedure opens at its version: how to tell stands here with and without script.

import { wordsOf } from '../book-text.js';
import { type Html, html } from '../html.js';
import { homeName, type Page, readerOf } from './context.js';
import { renderPage } from './layout.js';
import { drawFigure, drawTell } from './procedure-head.js';
import { questionsOf, serialsText } from './rig-facts.js';
import { optionName } from './rig-words.js';
import type { Home } from './site-map.js';

/** The file of the page. */
export function rigPage(page: Page, home: Home): string {
  const { voice } = page;
  const asked = questionsOf(home);
  const questions = [
    ...asked.options.map((id) => drawOption(page, home, id)),
    ...asked.software.map((module) => drawSoftware(page, home, module)),
    ...(asked.serial ? [drawSerial(page, home)] : []),
  ];
  return renderPage(page, {
    kind: 'rig-choice',
    title: voice.text('rig-title'),
    head: html`<h1>${voice.ui('rig-title')}</h1><p class="summary">${voice.ui(questions.length === 0 ? 'rig-none' : 'rig-why')}</p>`,
    body: html`${
      questions.length > 0 &&
      html`<form id="rig-form" class="questions" data-name="${homeName(page, home)}" data-kept="${voice.text('rig-kept')}" data-refused="${voice.text('rig-refused')}">
${questions}
<p><button class="button" type="submit" hidden>${voice.ui('rig-save')}</button></p>
<p class="status" role="status"></p>
</form>`
    }`,
  });
}

// without the script nothing could keep an answer: the script shows what is answered, the rest tells how to tell
function drawOption(page: Page, { machine }: Home, id: string): Html {
  const { voice } = page;
  const option = machine.options.find((one) => one.id === id);
  const name = optionName(id, machine, voice);
  const title = name.charAt(0).toUpperCase() + name.slice(1);
  const tell = option?.tell;
  const picture =
    tell?.figure && drawFigure(page, tell.figure.file.value, voice.plain(wordsOf(tell.figure.alt, readerOf(page))));
  const answers = [
    ['yes', voice.text('rig-yes')],
    ['no', voice.text('rig-no')],
    ['', voice.text('do-not-know')],
  ] as const;
  return html`<fieldset><legend>${title}</legend>
${tell && html`<p class="tell">${voice.say(wordsOf(tell.text, readerOf(page)))}</p>`}${picture}
${drawAnswers(`option-${id}`, answers)}</fieldset>
`;
}

function drawSoftware(page: Page, { machine }: Home, module: string): Html {
  const { voice } = page;
  const { versions = [], tell } = machine.software.find((one) => one.module.value === module) ?? {};
  const answers = [...versions.map(({ value }) => [value, value] as const), ['', voice.text('do-not-know')] as const];
  return html`<fieldset><legend>${voice.ui('rig-software', { module })}</legend>
${drawTell(page, tell)}
${drawAnswers(`software-${module}`, answers)}</fieldset>
`;
}

function drawSerial(page: Page, { machine }: Home): Html {
  const { voice } = page;
  const serials = serialsText([{}], machine, voice);
  return html`<div class="question"><label for="serial"><b>${voice.ui('rig-serial')}</b></label>
<p class="tell">${voice.ui('rig-serial-tell')}</p>${drawTell(page, machine.tell)}
<input id="serial" name="serial" type="text" autocomplete="off" autocapitalize="characters" spellcheck="false"${serials !== undefined && html` data-serials="${serials}" data-elsewhere="${voice.text('rig-serial-elsewhere', { serial: '#', range: '##' })}" aria-describedby="serial-said"`} hidden>
<p class="status" id="serial-said" role="status"></p></div>
`;
}

function drawAnswers(name: string, answers: readonly (readonly [value: string, words: string])[]): Html {
  return html`<div class="answers-row" hidden>${answers.map(
    ([value, words]) =>
      html`<label><input type="radio" name="${name}" value="${value}"${value === '' && html` checked`}> <span>${words}</span></label>`,
  )}</div>
`;
}

/** What a home says of the machine that is kept, filled by the client script; a link to say it. */
export function drawRigDoor(page: Page, home: Home, href: string): Html | undefined {
  const { voice } = page;
  const asked = questionsOf(home);
  if (asked.options.length + asked.software.length === 0 && !asked.serial) return undefined;
  const labels = Object.fromEntries(
    home.machine.options
      .filter(({ is }) => is === 'optional')
      .map(({ id }) => {
        const option = optionName(id, home.machine, voice);
        return [id, [voice.text('with-option', { option }), voice.text('without-option', { option })]];
      }),
  );
  const modules = Object.fromEntries(
    home.machine.software.map(({ module }) => [
      module.value,
      voice.text('software-is', { module: module.value, versions: '#' }),
    ]),
  );
  const words = { options: labels, software: modules, serial: voice.text('serial-is', { serial: '#' }) };
  return html`<p class="rig-known"><span id="rig-known" data-label="${voice.text('rig-known')}" data-words="${JSON.stringify(words)}"></span> <a href="${href}">${voice.ui('rig-title')}</a></p>
`;
}
