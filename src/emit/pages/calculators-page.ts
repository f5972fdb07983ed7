// The page of calculators. Without script each shows its formula, source, picture and a worked example; the client script
// turns the example into a form.

import { type Compiled, calculate, exampleOf, type Typed } from '../../calc/calculators/calculate.js';
import { compileCalculator } from '../../calc/calculators/compile.js';
import { calculators } from '../../calc/calculators/definitions.js';
import { calibrateLoads, exampleLoads } from '../../calc/calculators/loads.js';
import { sayResult } from '../../calc/calculators/say.js';
import { writePortable } from '../../calc/portable.js';
import { type Html, html } from '../html.js';
import { drawCalculator } from '../pictures/calculator-picture.js';
import { drawLoadPlot } from '../pictures/load-plot.js';
import { type CalculatorText, type CalculatorWords, calculatorWords } from '../words/calculators.js';
import { fillText } from '../words/pictures.js';
import type { Page } from './context.js';
import { renderPage } from './layout.js';
import { pair, writeFormula } from './values.js';

/** The file of the page. */
export function calculatorsPage(page: Page): string {
  const words = calculatorWords(page.voice.language);
  const contents = [
    ...calculators.map(({ id }) => [id, words.calculators[id]?.title ?? id] as const),
    ['loads', words.loads.title] as const,
  ];
  return renderPage(page, {
    kind: 'calculators',
    title: words.title,
    part: 'calculators',
    facts: {
      'data-surely': words.surely,
      'data-unread': words.unread,
      'data-none': words.noValue,
      ...Object.fromEntries(Object.entries(words.beyond).map(([kind, text]) => [`data-${kind}`, text])),
    },
    head: html`<h1>${words.title}</h1><p class="summary">${words.about}</p>`,
    body: html`<nav class="contents" aria-label="${words.contents}"><ul class="choices">${contents.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
<p class="aside">${words.uncertain}</p>
${calculators.map((calculator) => drawOne(page, compileCalculator(calculator), words))}${drawLoads(words, page.site.book.book.settings.units)}`,
  });
}

function drawOne({ voice }: Page, calculator: Compiled, words: CalculatorWords): Html {
  const { id, fields, outcomes } = calculator;
  const text = words.calculators[id];
  if (!text) throw new Error(`The calculator ${id} has no words`);
  const calculated = calculate(calculator, exampleOf(calculator));
  const labels = new Map([...Object.entries(text.fields), ...Object.entries(text.outcomes)]);
  const typed = new Map([...exampleOf(calculator)].map(([name, of]) => [name, written(of)]));
  const picture = drawCalculator({ id, title: text.title, calculated, typed, labels });
  return html`<section class="calculator" id="${id}" data-calculator="${writePortable(calculator)}"><h2>${text.title}</h2>
<p>${text.about}</p>
<div class="drawn">${picture}</div>
<form hidden>${fields.map((field) => drawField(id, field, text, words))}</form>
<table class="example"><caption>${words.example}</caption><tbody>${fields.map(({ name }) => html`<tr><th scope="row">${text.fields[name]}</th><td>${typed.get(name)}</td></tr>`)}</tbody></table>
<dl class="pairs outcomes" aria-live="polite">
${outcomes.map(({ name }) => {
  const result = calculated.results.find((one) => one.name === name);
  const said = result && 'values' in result ? sayResult(result, words.surely) : [];
  return html`<div><dt>${text.outcomes[name]}</dt><dd data-outcome="${name}">${said.map((line) => html`<span>${line}</span>`)}</dd></div>`;
})}
</dl>
<dl class="pairs aside">${outcomes.map((outcome) => pair(html`${words.formula}`, html`${text.outcomes[outcome.name]} = ${writeFormula(outcome.expr, (name) => nameIn(text, name), voice)}`))}
${pair(html`${words.source}`, html`${text.source}`)}</dl>
<p class="numbers-link" hidden><a href="#${id}">${words.link}</a></p>
</section>
`;
}

function nameIn(text: CalculatorText, name: string): string {
  const label = text.fields[name] ?? name;
  return label.charAt(0).toLowerCase() + label.slice(1);
}

function written({ text, unit }: Typed): string {
  return unit === '' ? text : `${text}\u00a0${unit}`;
}

function drawField(
  id: string,
  { name, units, example }: Compiled['fields'][number],
  text: CalculatorText,
  words: CalculatorWords,
): Html {
  const label = text.fields[name] ?? name;
  const key = `${id}-${name}`;
  const only = units[0]?.symbol ?? '';
  const unit =
    units.length > 1
      ? html`<select name="${name}.unit" aria-label="${words.unit}: ${label}">${units.map(({ symbol }) => html`<option>${symbol}</option>`)}</select>`
      : only !== '' && html`<span class="unit">${only}</span>`;
  return html`<p class="field"><label for="${key}">${label}</label><span class="typed"><input id="${key}" name="${name}" value="${example}" inputmode="text" autocomplete="off" autocapitalize="off" spellcheck="false">${unit}</span><span class="fault" id="${key}-fault" hidden></span></p>
`;
}

const loadRows = 8;

/** The units of the loads, that of the book's system first: it is the one of the example. */
const loadUnits = { us: ['lb', 'kg'], si: ['kg', 'lb'] } as const;

function drawLoads({ loads: words, ...others }: CalculatorWords, system: keyof typeof loadUnits): Html {
  const units = loadUnits[system];
  const [unit] = units;
  const results = calibrateLoads(exampleLoads);
  if (!results) throw new Error('The example has too few loads');
  const plot = {
    points: exampleLoads,
    unit,
    slope: results.slope,
    height: 0,
    along: words.alongAxis,
    upward: words.upwardAxis,
    residual: words.residualAxis,
  };
  const picture = drawLoadPlot(plot, {
    title: words.title,
    describe: (axes) => fillText(words.picture, { count: String(exampleLoads.length), ...axes }),
  });
  const numbers = [
    ['factor', words.factor, results.factor],
    ['worst', words.worst, results.worst],
    ['line', words.line, `${results.line}`],
    ['scatter', words.scatter, `${results.scatter} ${unit}`],
  ] as const;
  const cell = (column: string, label: string, value: number | undefined, row: number): Html =>
    html`<td><input name="${column}" value="${value ?? ''}" inputmode="decimal" autocomplete="off" aria-label="${label}, ${words.load} ${row + 1}"></td>`;
  return html`<section class="calculator" id="loads" data-loads data-few="${words.few}" data-amiss="${words.amiss}" data-spoiler="${words.spoiler}" data-picture="${words.picture}" data-along="${words.alongAxis}" data-upward="${words.upwardAxis}" data-residual="${words.residualAxis}"><h2>${words.title}</h2>
<p>${words.about}</p>
<div class="drawn">${picture}</div>
<form hidden><p class="field"><label for="loads-unit">${others.unit}</label><span class="typed"><select id="loads-unit" name="unit">${units.map((one) => html`<option>${one}</option>`)}</select></span></p>
<table><thead><tr><th scope="col">${words.load}</th><th scope="col">${words.shown}</th><th scope="col">${words.scale}</th><th scope="col">${words.error}</th></tr></thead>
<tbody>${Array.from({ length: loadRows }, (_, row) => html`<tr><th scope="row">${row + 1}</th>${cell('shown', words.shown, exampleLoads[row]?.shown, row)}${cell('scale', words.scale, exampleLoads[row]?.scale, row)}<td class="error">${results.errors[row]}</td></tr>`)}</tbody></table></form>
<table class="example"><caption>${others.example}</caption><thead><tr><th scope="col">${words.load}</th><th scope="col">${words.shown}, ${unit}</th><th scope="col">${words.scale}, ${unit}</th><th scope="col">${words.error}</th><th scope="col">${words.residual}, ${unit}</th></tr></thead>
<tbody>${exampleLoads.map(({ shown, scale }, row) => html`<tr><th scope="row">${row + 1}</th><td>${shown}</td><td>${scale}</td><td>${results.errors[row]}</td><td>${results.residuals[row]}</td></tr>`)}</tbody></table>
<p class="note" data-note role="status"></p>
<dl class="pairs outcomes" aria-live="polite">${numbers.map(([name, label, value]) => html`<div><dt>${label}</dt><dd data-outcome="${name}"><span>${value}</span></dd></div>`)}</dl>
<dl class="pairs aside">${pair(html`${others.formula}`, html`${words.formula}`)}
${pair(html`${others.source}`, html`${words.source}`)}</dl>
<p class="numbers-link" hidden><a href="#loads">${others.link}</a></p>
</section>
`;
}
