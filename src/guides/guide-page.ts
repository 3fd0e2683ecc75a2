import { findCard } from '../functions/card-list';
import { referencePage } from '../functions/metadata';
import { cellAddress, columnLetters } from '../plan/addresses';
import { cautionsBox, escapeHtml, page } from '../reference/html';
import {
  type Cell,
  type Command,
  type Guide,
  isScript,
  placeOf,
  type Script,
  type Section,
  type Shown,
  shownAfter,
  type Step,
  stepsOf,
  withShown,
} from './guide';
import { WIDTH } from './drawing';
import type { Picture } from './picture';
import { sheetFigures } from './sheet-figures';

export const TERMINAL = 'npm run --silent gillbed --';

/** Where the guides find the written reference. */
const REFERENCE = '../reference/';

/** A sentence as it is read, not typed: with °C and m². */

/** A formula with each GILL function leading to its page. */
const linked = (formula: string): string =>
  escapeHtml(formula).replace(/GILL\.([A-Z0-9.]+)(?=\()/g, (whole, id: string) =>
    findCard(id) ? `<a href="${REFERENCE}${referencePage(id)}">${whole}</a>` : whole,
  );

const lines = (shows: string | readonly (readonly string[])[]): string =>
  typeof shows === 'string'
    ? escapeHtml(shows)
    : shows.map((row) => row.map(escapeHtml).join(' &nbsp; ')).join('<br>');

function typedRow(cell: Cell): string {
  const typed =
    'enter' in cell
      ? escapeHtml(String(cell.enter))
      : cell.formula !== undefined
        ? `<code>${linked(cell.formula)}</code>`
        : '<span class="small">changes by itself</span>';
  const shows = cell.shows === undefined ? '' : `<strong>${lines(cell.shows)}</strong>`;
  const says =
    !('enter' in cell) && cell.says !== undefined
      ? `<br><span class="small">${escapeHtml(cell.says)}</span>`
      : '';
  return `<tr><th scope="row">${cell.at}</th><td>${typed}</td><td>${shows}${says}</td></tr>`;
}

/** Plain entries of a step as the block that they fill: easier to copy than a list of cells. */
function entriesGrid(cells: readonly Cell[]): string {
  const shown: Shown = new Map(
    cells.flatMap((cell) =>
      'enter' in cell ? [[cell.at, { text: String(cell.enter), computed: false }]] : [],
    ),
  );
  return grid(shown, 'Type');
}

function cellsTable(cells: readonly Cell[]): string {
  const entries = cells.filter((cell) => 'enter' in cell);
  const rest = cells.filter((cell) => !('enter' in cell));
  // A few entries beside formulas are labels: they read best in one list, in the order of typing.
  const block = rest.length === 0 || entries.length > rest.length + 2;
  const listed = block ? rest : cells;
  const list =
    listed.length === 0
      ? ''
      : `<div class="scroll" tabindex="0"><table class="typed">
<thead><tr><th>Cell</th><th>Type</th><th>It shows</th></tr></thead>
<tbody>${listed.map(typedRow).join('\n')}</tbody>
</table></div>`;
  return (block ? entriesGrid(cells) : '') + list;
}

/** Cells as they stand on a sheet, with letters above and numbers beside. */
function grid(shown: Shown, caption: string): string {
  const places = [...shown.keys()].map(placeOf);
  const columns = Math.max(...places.map(({ column }) => column)) + 1;
  const first = Math.min(...places.map(({ row }) => row));
  const rows = Math.max(...places.map(({ row }) => row)) + 1;
  const heads = Array.from(
    { length: columns },
    (_, c) => `<th scope="col">${columnLetters(c)}</th>`,
  );
  const body = Array.from({ length: rows - first }, (_, i) => {
    const r = first + i;
    const cells = Array.from({ length: columns }, (_, c) => {
      const cell = shown.get(cellAddress(r, c));
      const kinds = [
        ...(cell?.computed ? ['computed'] : []),
        ...(cell && /^[-\d.]+( %)?$/.test(cell.text) ? ['number'] : []),
      ];
      const look = kinds.length > 0 ? ` class="${kinds.join(' ')}"` : '';
      return `<td${look}>${escapeHtml(cell?.text ?? '')}</td>`;
    });
    return `<tr><th scope="row">${r + 1}</th>${cells.join('')}</tr>`;
  });
  return `<div class="scroll" tabindex="0"><table class="sheet"><caption>${caption}</caption>
<thead><tr><td></td>${heads.join('')}</tr></thead>
<tbody>${body.join('\n')}</tbody>
</table></div>`;
}

export const scriptLine = ({ script, args = [] }: Script): string =>
  `npm run ${script}${args.length > 0 ? ` -- ${args.join(' ')}` : ''}`;

function runPart(run: Command | Script): string {
  if (isScript(run)) return `<pre><kbd>${escapeHtml(scriptLine(run))}</kbd></pre>`;
  return `<pre><kbd>${escapeHtml(`${TERMINAL} ${run.command}`)}</kbd></pre>
<pre class="printed"><samp>${run.prints.map(escapeHtml).join('\n')}</samp></pre>`;
}

/** Drawn when the page is made, so that it cannot say anything else than the steps. */
function pictureOf({ alt, draw }: Picture, steps: readonly Step[], shown: Shown): string {
  const { height, inside } = draw(sheetFigures(steps, shown));
  return `<svg class="picture" role="img" viewBox="0 0 ${WIDTH} ${height}" aria-label="${escapeHtml(withShown(alt, shown))}">${inside}</svg>`;
}

function stepItem(steps: readonly Step[]): string {
  const shown = shownAfter(steps);
  const { what, cells, run, then, picture } = steps.at(-1) as Step;
  return `<li><p>${escapeHtml(withShown(what, shown))}</p>
${cells ? cellsTable(cells) : ''}${run ? runPart(run) : ''}
${then === undefined ? '' : `<p>${escapeHtml(withShown(then, shown))}</p>`}${picture ? pictureOf(picture, steps, shown) : ''}</li>`;
}

const wordsTable = ([heads = [], ...rows]: readonly (readonly string[])[]): string =>
  `<div class="scroll" tabindex="0"><table>
<thead><tr>${heads.map((head) => `<th scope="col">${escapeHtml(head)}</th>`).join('')}</tr></thead>
<tbody>${rows
    .map((row) => `<tr>${row.map((text) => `<td>${escapeHtml(text)}</td>`).join('')}</tr>`)
    .join('\n')}</tbody>
</table></div>`;

/** The page of one guide; its steps are numbered through all sections. */
export function guidePage(guide: Guide): string {
  const all = stepsOf(guide);
  const section = ({
    title,
    paragraphs = [],
    cautions = [],
    table,
    steps = [],
    points = [],
    screenshot,
  }: Section): string => {
    const before = steps[0] ? all.indexOf(steps[0]) : 0;
    const items = steps.map((_, i) => stepItem(all.slice(0, before + i + 1)));
    return `<section>${title === undefined ? '' : `<h2>${escapeHtml(title)}</h2>`}
${paragraphs.map((text) => `<p>${escapeHtml(text)}</p>`).join('\n')}
${cautionsBox(cautions)}${table ? wordsTable(table) : ''}
${points.length > 0 ? `<ul>${points.map((text) => `<li>${escapeHtml(text)}</li>`).join('\n')}</ul>` : ''}
${items.length > 0 ? `<ol class="steps" start="${before + 1}">${items.join('\n')}</ol>` : ''}${
      screenshot
        ? `\n<img class="screenshot" src="${escapeHtml(screenshot.file)}" alt="${escapeHtml(screenshot.alt)}">`
        : ''
    }
</section>`;
  };
  const last = shownAfter(all);
  const files = Object.entries(guide.files ?? {}).slice(0, 1);
  const body = `<nav><a href="index.html">All guides</a> · <a href="${REFERENCE}index.html">All functions</a></nav>
<main>
<h1>${escapeHtml(guide.title)}</h1>
<p class="lead">${escapeHtml(guide.question)}</p>
<p>${escapeHtml(guide.leads)}</p>
${cautionsBox(guide.cautions)}
${guide.sections.map(section).join('\n')}
${
  last.size === 0
    ? ''
    : `<section><h2>The sheet at the end</h2>\n${grid(last, 'What is shaded was computed; long blocks with their first rows')}</section>`
}
${files
  .map(
    ([name, text]) =>
      `<section><h2>The file ${escapeHtml(name)}</h2>\n<pre>${escapeHtml(text)}</pre></section>`,
  )
  .join('\n')}
</main>`;
  return page(guide.title, body, { root: REFERENCE, styles: ['guides.css'] });
}
