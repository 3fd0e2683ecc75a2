import { isoText } from '../core/serial-date';
import { type Card, cautionsOf, type Example, type Source, type Value } from '../functions/card';
import { expressionOf, namesIn } from '../functions/expression';
import { factName } from '../functions/formula';
import { findCard } from '../functions/card-list';
import { lookupTables } from '../functions/lookup-tables';
import { referencePage } from '../functions/metadata';
import type { Parameter } from '../functions/parameter';
import { plainFormula, plainSpillFormula, quoted } from '../functions/plain';
import { sourceLine } from '../functions/source-words';
import { columnLetters } from '../functions/cell-address';
import { readable, unitWord } from '../functions/unit-word';
import { cautionsBox, escapeHtml, page } from './html';
import { equationsMathml, formulaMathml, symbolMathml } from './mathematics';

/** A sentence as it is read, not typed: with °C and m². */

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const sourceItem = (source: Source): string => `<li>${escapeHtml(sourceLine(source))}</li>`;

/** A call as it is typed, left-out arguments at the end dropped. */
export function callText(card: Card, args: Example['args']): string {
  const texts = args.map((arg) =>
    arg === null ? '' : typeof arg === 'string' ? quoted(arg) : String(arg),
  );
  while (texts.at(-1) === '') texts.pop();
  return `=GILL.${card.id}(${texts.join(', ')})`;
}

const parameterRow = (parameter: Parameter): string => `<tr>
<th scope="row"><code>${escapeHtml(parameter.name)}</code></th>
<td class="meaning">${escapeHtml(parameter.meaning)}</td>
<td data-head="Unit">${escapeHtml(unitWord(parameter.unit) || 'none')}</td>
<td data-head="Takes">${escapeHtml(readable(parameter.takes))}</td>
<td data-head="Left out">${escapeHtml(parameter.optional ? (parameter.defaultText ?? 'may be left out') : 'needed')}</td>
</tr>`;

/** A value as its cell shows it: a day as a day, numbers without their last decimals. */
const shownValue = (value: Value, kind: 'number' | 'date' | 'text' | 'any' | undefined): string =>
  typeof value === 'string'
    ? value
    : kind === 'date'
      ? isoText(value)
      : String(Number(value.toPrecision(6)));

const columnHead = (name: string, unit: string): string =>
  escapeHtml(capital(unit && unit !== name ? `${name}, ${unitWord(unit)}` : name));

function resultPart(card: Card, { result }: Example): string {
  if (typeof result !== 'object') {
    return `<strong>${escapeHtml(shownValue(result, card.columns ? undefined : card.result.kind))}</strong>${card.columns || !card.result.unit ? '' : ` ${escapeHtml(unitWord(card.result.unit))}`}`;
  }
  const rows = result.map(
    (row) =>
      `<tr>${row.map((value, i) => `<td>${escapeHtml(shownValue(value, card.columns?.[i]?.kind))}</td>`).join('')}</tr>`,
  );
  const heads = (card.columns ?? []).map(
    ({ name, unit }) => `<th scope="col">${columnHead(name, unit)}</th>`,
  );
  return `<div class="scroll" tabindex="0"><table class="block"><thead><tr>${heads.join('')}</tr></thead><tbody>${rows.join('')}</tbody></table></div>`;
}

const exampleItem = (card: Card, example: Example): string => `<li>
<code>${escapeHtml(callText(card, example.args))}</code>
<div class="gives">${resultPart(card, example)}</div>
<p>${escapeHtml(example.says)}</p>
</li>`;

/** The plain form with the arguments in A2, B2, …; optional ones left out. */
function plainText(card: Card): string {
  const args = card.parameters.map((parameter, i) =>
    parameter.optional ? undefined : `${columnLetters(i)}2`,
  );
  return card.columns
    ? plainSpillFormula(
        card,
        args,
        1,
        card.columns.length - 1,
        (r, c) => `${columnLetters(8 + c)}${r + 2}`,
      )
    : plainFormula(card, args);
}

/** What is longer than a dozen lines is opened by whoever wants it. */
const plainBlock = (formula: string): string => {
  const block = `<pre>=${escapeHtml(formula)}</pre>`;
  return formula.length > 1000
    ? `<details><summary>The formula, ${formula.length.toLocaleString('en-GB')} characters long</summary>${block}</details>`
    : block;
};

const usage = (card: Card): string =>
  `GILL.${card.id}(${card.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ')})`;

const resultWords = (card: Card): string =>
  card.columns
    ? `Fills a block of cells: ${card.columns.map((c) => (c.unit && c.unit !== c.name ? `${c.name} (${unitWord(c.unit)})` : c.name)).join(', ')}.`
    : `${capital(card.result.meaning)}${card.result.unit ? `, ${unitWord(card.result.unit)}` : ''}.`;

/** What the facts in a formula are, as their table says it. */
function factMeanings({ formula, parameters }: Card): readonly (readonly [string, string])[] {
  if (typeof formula !== 'object') return [];
  const names = Object.values(formula).flatMap((text) => namesIn(expressionOf(text)));
  return [...new Set(names)].flatMap((name) => {
    const [owner, fact] = factName(name) ?? [];
    const prefix = parameters.find((parameter) => parameter.name === owner)?.table?.prefix;
    const table = lookupTables.find((lookup) => lookup.prefix === prefix);
    const found = [
      ...(table?.columns ?? []),
      ...(table?.matrices ?? []),
      ...(table?.matrices.map(({ heads }) => heads) ?? []),
    ].find((column) => column.fact === fact);
    if (!table || !found) return [];
    const unit = found.unit ? `, ${unitWord(found.unit)}` : '';
    return [[name, `${found.label}${unit} (${table.sheet} table)`] as const];
  });
}

/** The formula in mathematical signs, with what they stand for. */
function formulaPart(card: Card): string {
  const { formula, symbols = {} } = card;
  if (formula === undefined) return '';
  const legend = [...Object.entries(symbols), ...factMeanings(card)].map(
    ([name, meaning]) => `<dt>${symbolMathml(name)}</dt><dd>${escapeHtml(meaning)}</dd>`,
  );
  const set = typeof formula === 'string' ? equationsMathml(formula) : formulaMathml(formula);
  return `\n${set}${legend.length > 0 ? `\n<dl class="legend">${legend.join('\n')}</dl>` : ''}`;
}

/** The page of one function in the written reference. */
export function functionPage(card: Card): string {
  const seeAlso = (card.seeAlso ?? []).map((id) => {
    const other = findCard(id);
    return `<li><a href="${referencePage(id)}">GILL.${escapeHtml(id)}</a> ${escapeHtml(other?.summary ?? '')}</li>`;
  });
  const section = (title: string, content: string): string =>
    content === '' ? '' : `<section><h2>${title}</h2>\n${content}\n</section>\n`;
  const body = `<nav><a href="index.html">All functions</a> · ${escapeHtml(card.subject)}</nav>
<main>
<h1>GILL.${escapeHtml(card.id)}</h1>
<p class="lead">${escapeHtml(card.summary)}.</p>
<p class="usage"><code>=${escapeHtml(usage(card))}</code></p>
${cautionsBox(cautionsOf(card))}
${section(
  'Arguments',
  card.parameters.length === 0
    ? '<p>None.</p>'
    : `<table class="arguments">
<thead><tr><th>Argument</th><th>Meaning</th><th>Unit</th><th>Takes</th><th>Left out</th></tr></thead>
<tbody>${card.parameters.map(parameterRow).join('\n')}</tbody>
</table>
<p class="small">Every argument with a unit also takes text with another unit, such as "78 degF" or "1100 gal".${
        card.columns ? '' : ' Ranges of equal shape are worked row by row.'
      }</p>`,
)}
${section('Result', `<p>${escapeHtml(resultWords(card))}</p>`)}
${section(
  'Examples',
  `<ul class="examples">${card.examples.map((example) => exampleItem(card, example)).join('\n')}</ul>`,
)}
${section('Method', `<p>${escapeHtml(card.method)}</p>${formulaPart(card)}`)}
${section('Where it holds', `<p>${escapeHtml(card.validity)}</p>`)}
${section('Sources', `<ul>${card.sources.map(sourceItem).join('\n')}</ul>`)}
${section(
  'Without Gillbed',
  `<p>The same value with the spreadsheet’s own functions, arguments in ${escapeHtml(
    card.parameters.length === 0 ? 'no cells' : 'A2, B2 and so on',
  )}${card.columns ? '; this is the last cell of the second row, the block beginning in I2' : ''}. Tables are looked up on the Crops and Species sheets of a Gillbed workbook.</p>
${plainBlock(plainText(card))}`,
)}
${section('See also', seeAlso.length > 0 ? `<ul>${seeAlso.join('\n')}</ul>` : '')}
</main>`;
  return page(`GILL.${card.id}`, body);
}
