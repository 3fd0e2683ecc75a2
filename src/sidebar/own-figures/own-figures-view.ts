import { isoText } from '../../core/serial-date';
import { type OwnRecord, ownRecords, SURE } from '../../experience/figures-of-registers';
import { partOf } from '../../experience/records-text';
import { rowsOfFile } from '../../experience/switches-in-book';
import { acts } from '../../plan/own-figure-rows';
import { NoPlanFound } from '../../plan/read-book';
import { folded, sentenceList, sentenceOf, wideTable } from '../ahead/words';
import { button } from '../button';
import { h, say } from '../dom';
import type { Host } from '../host';
import { openFarm, type OpenFarm } from '../open-farm';
import { recordPicture } from './record-picture';
import { batchWord, differenceInWords, titleOf, withUnit } from './record-words';
import { lineOf, switchForm } from './switch-form';

const isWhole = (record: OwnRecord): boolean => partOf(record) === undefined;

/** What a record is, told from the same of another crop. */
const nameOf = (record: OwnRecord): string =>
  record.of === '' ? titleOf(record) : `${titleOf(record)}, ${record.of}`;

/** The figures of a record as a table. */
function figuresTable(record: OwnRecord): HTMLElement {
  const { unit, mean, range, interval, table, blend } = record;
  const shown = (value: number): string => withUnit(value, unit);
  const rows: (readonly [string, string])[] = [
    ['Own mean', `${shown(mean)}, ${batchWord(record, record.batches)}`],
    ['From … to', `${shown(range[0])} … ${shown(range[1])}`],
    [
      `True mean, ${100 * SURE} % sure`,
      interval ? `${shown(interval[0])} … ${shown(interval[1])}` : 'not known from one',
    ],
    ['Table', table ? shown(table.usual) : 'none'],
    ...(table
      ? [['Between both', `${shown(blend.figure)}, ${Math.round(100 * blend.own)} % own`] as const]
      : []),
  ];
  return wideTable(`${nameOf(record)}: the figures`, ['What', 'Figure'], rows);
}

function recordPart(
  host: Host,
  open: OpenFarm,
  record: OwnRecord,
  parts: readonly OwnRecord[],
): HTMLElement {
  const { unit } = record;
  return h(
    'section',
    { class: 'record', 'aria-label': nameOf(record) },
    h('h3', {}, titleOf(record)),
    h('p', {}, differenceInWords(record)),
    recordPicture(record),
    folded('The figures', false, figuresTable(record)),
    parts.length > 0 &&
      folded(
        'By season or month',
        false,
        wideTable(
          `${nameOf(record)}, by season or month`,
          ['In', 'Own', 'Of', 'True mean'],
          parts.map((part) => [
            partOf(part) ?? '',
            withUnit(part.mean, unit),
            batchWord(part, part.batches),
            part.interval
              ? `${withUnit(part.interval[0], unit)} … ${withUnit(part.interval[1], unit)}`
              : 'not known',
          ]),
        ),
      ),
    acts(record.figure) && lineOf(open, record) !== undefined && switchForm(host, open, record),
  );
}

/** What the records say, the fish first, then crop by crop. */
function recordsView(host: Host, open: OpenFarm, records: readonly OwnRecord[]): HTMLElement[] {
  const groups = [...new Set(records.map(({ of }) => of))];
  return groups.map((of, at) => {
    const own = records.filter((record) => record.of === of);
    const whole = own.filter(isWhole);
    return folded(
      `${of === '' ? 'The farm' : of}: ${whole.length} ${whole.length === 1 ? 'figure' : 'figures'}`,
      at === 0,
      ...whole.map((record) =>
        recordPart(
          host,
          open,
          record,
          own.filter((candidate) => candidate.figure === record.figure && !isWhole(candidate)),
        ),
      ),
    );
  });
}

const KEY =
  'In each picture the tall stroke is the table’s figure, with its range in grey; short strokes are your batches, the dot their mean, the bar through it where their true mean lies; the triangle is the figure between both.';

export function ownFiguresView(host: Host): HTMLElement {
  const status = h('p', { class: 'quiet', role: 'status' });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const body = h('div', {});

  function show(open: OpenFarm): void {
    const { farm, file, faults } = open.reading;
    if (!farm) {
      say(problem, 'Nothing can be counted before these cells are put right:');
      const list = sentenceList(faults.map(({ says }) => says));
      body.replaceChildren(...(list ? [list] : []));
      status.textContent = '';
      return;
    }
    const records = ownRecords(farm);
    status.textContent = `${farm.name}, registers up to ${isoText(farm.asOf)}.`;
    if (records.length === 0) {
      body.replaceChildren(
        h(
          'p',
          {},
          'The registers hold no finished batch, no second weighing and no sale yet: nothing to learn from. Note them down as they come.',
        ),
      );
      return;
    }
    const hasSheet = rowsOfFile(file).length > 0;
    const missing = records.some(
      (record) => isWhole(record) && acts(record.figure) && lineOf(open, record) === undefined,
    );
    body.replaceChildren(
      h(
        'p',
        {},
        'What your registers come to beside the tables. A farm’s few batches are weighed against the table: the more there are and the closer together they lie, the more they count.',
      ),
      h('p', { class: 'hint' }, KEY),
      ...(missing
        ? [
            h(
              'p',
              { class: 'caution' },
              hasSheet
                ? 'Some figures have no line on the sheet Own figures yet: renew the plan on the page Plan, then a switch stands below each.'
                : 'This workbook has no sheet Own figures yet: renew the plan on the page Plan, then a switch stands below each figure.',
            ),
          ]
        : []),
      ...recordsView(host, open, records),
    );
  }

  async function read(): Promise<void> {
    say(problem, undefined);
    status.textContent = 'Reading the workbook …';
    // The words show before the work begins.
    await new Promise((resolve) => setTimeout(resolve, 20));
    try {
      show(await openFarm(host));
    } catch (fault) {
      status.textContent = '';
      if (fault instanceof NoPlanFound) {
        body.replaceChildren(
          h(
            'p',
            {},
            `${fault.message} Build one on the page Plan; then this page says what its registers come to.`,
          ),
        );
      } else say(problem, `The workbook could not be read: ${sentenceOf(fault)}`);
    }
  }

  void read();
  return h(
    'div',
    { class: 'own-figures' },
    status,
    h(
      'div',
      { class: 'actions' },
      button('Read the workbook again', () => void read(), { small: true }),
    ),
    problem,
    body,
  );
}
