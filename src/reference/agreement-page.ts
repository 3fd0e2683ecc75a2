import { unitWord } from '../functions/unit-word';
import { escapeHtml, page } from './html';
import { comparisonRows, type ComparisonRow } from './agreement/comparisons';
import type { FarmRecord } from './agreement/farm-record';
import publishedFarms from './agreement/published-farms.json';
import { CatalogueModel } from './agreement/farm-estimates';
import { reasonFor, wishReason } from './agreement/reasons';
import { wishAnswers, wishBands, type WishAnswer, wishUnits } from './agreement/wish-of-record';
import {
  conversionTrials,
  growthTrials,
  modelledConversion,
  modelledDays,
  modelledShare,
  temperatureTrials,
} from './growth-trials';
import { seasonTrials } from './season-trials';

const shown = (value: number): string => String(Number(value.toPrecision(3)));

/** Words of a record as they are read: with m², °C and ° north. */
const readText = (text: string): string =>
  escapeHtml(unitWord(text).replace(/ degN\b/g, '° north'));

const verdictOf = ({ inside }: ComparisonRow): string =>
  inside === undefined ? 'not asked yet' : inside ? 'inside' : 'outside';

const marks: Readonly<Record<string, string>> = { inside: '✓', outside: '✗', 'not asked yet': '–' };

function tableRow(row: ComparisonRow): string {
  const { comparison, published, band, how, calls, model, ratio } = row;
  const verdict = verdictOf(row);
  const remarks = [row.why, how, reasonFor(row), comparison.note].filter(Boolean);
  const typed = [...new Set(calls)].map((call) => `<code>${escapeHtml(call)}</code>`);
  return `<tr class="${verdict.replaceAll(' ', '-')}">
<th scope="row">${readText(comparison.ask)}<span class="small">given: ${readText((comparison.given ?? []).join(', '))}</span></th>
<td data-head="Published">${published === null ? 'none' : shown(published)}</td>
<td data-head="Model">${model === undefined ? '' : shown(model)}</td>
<td data-head="Ratio">${ratio === undefined ? '' : ratio.toFixed(2)}</td>
<td data-head="Band">${band.map(shown).join(' to ')}</td>
<td data-head="Verdict">${marks[verdict] ?? ''} ${verdict}</td>
<td data-head="How">${readText(remarks.join('. '))}${typed.length > 0 ? `<details><summary>Formulas</summary>${typed.join('<br>')}</details>` : ''}</td>
</tr>`;
}

const part = (record: FarmRecord, rows: readonly ComparisonRow[]): string => `<section>
<h3 id="${escapeHtml(record.id)}">${readText(record.system)}</h3>
<p class="small">${readText(record.location)}. ${Object.values(record.sources ?? {})
  .map((source) => readText(source.replace(/, https?:\S+/g, '')))
  .join('; ')}.</p>
<table class="agreement"><thead><tr><th scope="col">What is asked</th><th scope="col">Published</th><th scope="col">Model</th><th scope="col">Model / published</th><th scope="col">Band</th><th scope="col">Verdict</th><th scope="col">How, and why</th></tr></thead>
<tbody>${rows.map(tableRow).join('\n')}</tbody></table>
</section>`;

interface Trial {
  readonly what: string;
  readonly source: string;
  readonly evidence: string;
  readonly band: readonly [number, number];
  readonly because?: string;
}

/** Trials of one kind: what was published, what the model gives, the ratio. */
function trialTable<T extends Trial>(
  title: string,
  unit: (trial: T) => string,
  trials: readonly T[],
  published: (trial: T) => number,
  modelled: (trial: T) => number,
): string {
  const rows = trials.map((trial) => {
    const [was, is] = [published(trial), modelled(trial)];
    const ratio = is / was;
    const inside = ratio >= trial.band[0] && ratio <= trial.band[1];
    const evidence = trial.evidence === 'read' ? '' : ` (${trial.evidence})`;
    return `<tr class="${inside ? 'inside' : 'outside'}">
<th scope="row">${escapeHtml(`${'species' in trial ? `${String(trial.species)}, ` : ''}${trial.what}`)}</th>
<td data-head="Published">${shown(was)} ${escapeHtml(unit(trial))}</td>
<td data-head="Model">${shown(is)}</td>
<td data-head="Ratio">${ratio.toFixed(2)}</td>
<td data-head="Band">${trial.band.map(shown).join(' to ')}</td>
<td data-head="Verdict">${inside ? '✓ inside' : '✗ outside'}</td>
<td data-head="Source">${escapeHtml(`${trial.source}${evidence}${trial.because === undefined ? '' : `; ${trial.because}`}`)}</td>
</tr>`;
  });
  return `<section><h3>${escapeHtml(title)}</h3>
<table class="agreement"><thead><tr><th scope="col">Trial</th><th scope="col">Published</th><th scope="col">Model</th><th scope="col">Model / published</th><th scope="col">Band</th><th scope="col">Verdict</th><th scope="col">Source</th></tr></thead>
<tbody>${rows.join('\n')}</tbody></table></section>`;
}

const trialTables = (): string =>
  [
    `<h2 id="growth">Growth and feed in trials</h2>`,
    trialTable(
      'Days from weight to weight',
      () => 'days',
      growthTrials,
      (trial) => trial.days,
      modelledDays,
    ),
    trialTable(
      'Growth at one temperature over that at another',
      () => '',
      temperatureTrials,
      (trial) => trial.share,
      modelledShare,
    ),
    trialTable(
      'Feed conversion',
      () => '',
      conversionTrials,
      (trial) => trial.conversion,
      modelledConversion,
    ),
    `<h2 id="crops">Crops in season</h2>`,
    trialTable(
      'Yields and days',
      (trial) => trial.unit,
      seasonTrials,
      (trial) => trial.published,
      (trial) => trial.answer(new CatalogueModel()),
    ),
  ].join('\n');

const wishParts = { tanks: 'Tanks', feed: 'Feed', beds: 'Bed area' } as const;

/** What was typed, in words. */
function wishWords({ wish }: WishAnswer): string {
  const { species, kgPerMonth } = wish.fish;
  const fish = [species, kgPerMonth === undefined ? '' : `${shown(kgPerMonth)} kg a month`];
  const market = wish.market.map(
    ({ crop, unit, perWeek }) =>
      `${crop}, ${shown(perWeek)} ${unit === 'kg' ? 'kg' : 'pieces'} a week`,
  );
  return [fish.filter(Boolean).join(', '), ...market].filter(Boolean).join('; ');
}

function wishTable(answer: WishAnswer): string {
  const rows = answer.rows.map((row) => {
    const { what, published, model, ratio, inside } = row;
    return `<tr class="${inside ? 'inside' : 'outside'}">
<th scope="row">${wishParts[what]}, ${wishUnits[what]}</th>
<td data-head="Published">${shown(published)}</td>
<td data-head="Proposed">${shown(model)}</td>
<td data-head="Ratio">${ratio.toFixed(2)}</td>
<td data-head="Band">${wishBands[what].map(shown).join(' to ')}</td>
<td data-head="Verdict">${inside ? '✓ inside' : '✗ outside'}</td>
<td data-head="Why">${readText(wishReason(answer, row) ?? '')}</td>
</tr>`;
  });
  return `<section><h3>${readText(answer.record.system)}</h3>
<p class="small">Wished for: ${readText(wishWords(answer))}.</p>
<details><summary>The wish as a file</summary><code>${escapeHtml(JSON.stringify(answer.wish))}</code></details>
<table class="agreement"><thead><tr><th scope="col">What is asked</th><th scope="col">Published</th><th scope="col">Proposed</th><th scope="col">Proposed / published</th><th scope="col">Band</th><th scope="col">Verdict</th><th scope="col">Why</th></tr></thead>
<tbody>${rows.join('\n')}</tbody></table></section>`;
}

/** Systems as somebody would wish for them who knows only what they are to sell. */
function wishSection(records: readonly FarmRecord[]): string {
  const answers = wishAnswers(records);
  const figures = answers.flatMap(({ rows }) => rows);
  const inside = figures.filter((figure) => figure.inside).length;
  return `<h2 id="wishes">From a wish to a plan</h2>
<p>${answers.length} records state what a system sold, fish or crops, and what it was built of. Here the wish page is given what was sold, the kind of bed, the number of tanks and the weights of the fish where they are stated, and nothing else of what was built; ${inside} of ${figures.length} figures lie inside the band, the same for every system. What was sold is sometimes reckoned by the record’s own yield and size: of fish from the density at harvest and the volume, of heads from plants on the area. Several records are trials in one system. Where air and water are not stated, crops get the air and fish the water that suits them, all year. Where a record has several treatments, the first is taken.</p>
${answers.map(wishTable).join('\n')}`;
}

/** Systems of the project's own data file. */
export const publishedRecords = publishedFarms as unknown as readonly FarmRecord[];

/** "How well it agrees": the functions beside whole systems that were published. */
export function agreementPage(records: readonly FarmRecord[] = publishedRecords): string {
  const rows = comparisonRows(records);
  const count = (verdict: string): number =>
    rows.filter((row) => verdictOf(row) === verdict).length;
  const asked = records.filter(({ compare = [] }) => compare.length > 0);
  return page(
    'How well it agrees',
    `<nav><a href="index.html">All functions</a></nav>
<main>
<h1>How well it agrees</h1>
<p class="lead">What the functions give for whole systems that others built, ran and published.</p>
<p>Of ${rows.length} figures of ${asked.length} records ${count('inside')} lie inside the band that the record allows, ${count('outside')} outside it with the reason beside them, and ${count('not asked yet')} wait for a function. Each answer comes from the inputs that the record states, by the same rule for every system; nothing is fitted to its own answer. Where a record is silent the usual figure of the table stands in, and the band is wider. Most publications were seen as abstracts, opening pages or quoted tables. Below stand the same systems <a href="#wishes">entered by their wish</a>, and trials of <a href="#growth">growth and feed</a> and of <a href="#crops">crops</a>, compared in the same way.</p>
<h2>Whole systems</h2>
${asked
  .map((record) =>
    part(
      record,
      rows.filter((row) => row.record === record),
    ),
  )
  .join('\n')}
${wishSection(records)}
${trialTables()}
</main>`,
  );
}
