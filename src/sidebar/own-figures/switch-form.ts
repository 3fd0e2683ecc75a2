import type { OwnRecord } from '../../experience/figures-of-registers';
import { rowsOfFile, type SwitchedCell, switchedCells } from '../../experience/switches-in-book';
import { takenOver, type Way } from '../../experience/taken-over';
import { partOf } from '../../experience/records-text';
import { figureWords, FEWEST_BATCHES, rowKey } from '../../plan/own-figure-rows';
import { sentenceOf } from '../ahead/words';
import { button } from '../button';
import { freshId, h, say } from '../dom';
import type { Host } from '../host';
import { openFarm, type OpenFarm, typeInto } from '../open-farm';
import { withUnit } from './record-words';

/** The line of the workbook's sheet Own figures that holds the switch of a record. */
export function lineOf({ reading }: OpenFarm, record: OwnRecord) {
  const part = partOf(record);
  const key = rowKey({
    figure: figureWords[record.figure],
    ...(record.of !== '' && { of: record.of }),
    ...(part !== undefined && { part }),
  });
  return rowsOfFile(reading.file).find((line) => rowKey(line) === key);
}

const words: Readonly<Record<Way, string>> = {
  table: 'the table',
  own: 'the own figure',
  blend: 'the figure between both',
};

/** Whether cells still hold what was written into them. */
async function isAsWritten(host: Host, cells: readonly SwitchedCell[]): Promise<boolean> {
  const { cells: now } = await openFarm(host);
  return cells.every((cell) => {
    const { value } = now.at(cell);
    return (value === '' ? undefined : value) === cell.value;
  });
}

/** Which figure counts: looked at, written into the workbook's own cells, and taken back. */
export function switchForm(host: Host, open: OpenFarm, record: OwnRecord): HTMLElement {
  const line = lineOf(open, record);
  const { unit, mean, table, blend, batches } = record;
  const said = h('p', { class: 'done', role: 'status', tabindex: '-1' });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const back = h('div', { class: 'actions' });
  const name = freshId('counts');
  const now = (line?.['use'] as Way | undefined) ?? 'table';
  const figures: readonly (readonly [Way, string])[] = [
    ['table', table === undefined ? 'Table' : `Table: ${withUnit(table.usual, unit)}`],
    ['own', `Own: ${withUnit(mean, unit)}`],
    ['blend', `Between both: ${withUnit(blend.figure, unit)}`],
  ];
  const radios = new Map(
    figures.map(([way]) => [
      way,
      h('input', { type: 'radio', name, value: way, checked: way === now }),
    ]),
  );
  const few = h('input', { type: 'checkbox', checked: line?.['few'] === 'yes' });
  const fewNeeded = batches < FEWEST_BATCHES;

  async function write(): Promise<void> {
    say(problem, undefined);
    back.replaceChildren();
    said.textContent = '';
    const way = [...radios].find(([, radio]) => radio.checked)?.[0] ?? 'table';
    try {
      if (fewNeeded && way !== 'table' && !few.checked) {
        few.focus();
        throw new Error(
          `It rests on ${batches} of the ${FEWEST_BATCHES} batches that it needs: tick that few are enough, or choose the table.`,
        );
      }
      const fresh = await openFarm(host);
      const { farm, file } = fresh.reading;
      if (!farm) throw new Error('A cell of the workbook is wrong: read it again to see which.');
      const switched = takenOver(farm, { ...file }, { record, way, fewAreEnough: few.checked });
      const cells = switchedCells(fresh.reading, switched, fresh.cells);
      if (cells.length === 0) {
        said.textContent = `It counts with ${words[way]} already.`;
        return;
      }
      await typeInto(host, cells);
      said.textContent = `The plan counts with ${words[way]} from now on.`;
      back.replaceChildren(
        button('Take it back', () => void takeBack(cells), { small: true, look: 'subtle' }),
      );
      said.focus();
    } catch (fault) {
      say(problem, sentenceOf(fault));
    }
  }

  async function takeBack(cells: readonly SwitchedCell[]): Promise<void> {
    try {
      if (!(await isAsWritten(host, cells))) {
        throw new Error('Somebody typed over it since: it stays as it is.');
      }
      await typeInto(
        host,
        cells.map(({ before, ...cell }) => ({ ...cell, value: before })),
      );
      back.replaceChildren();
      for (const [way, radio] of radios) radio.checked = way === now;
      said.textContent = 'It is as it was.';
      said.focus();
    } catch (fault) {
      say(problem, sentenceOf(fault));
    }
  }

  return h(
    'div',
    { class: 'switch' },
    h(
      'fieldset',
      {},
      h('legend', {}, 'Which counts'),
      ...figures.map(([way, label]) =>
        h('label', { class: 'option' }, radios.get(way) as HTMLElement, h('span', {}, label)),
      ),
    ),
    fewNeeded &&
      h('label', { class: 'option tick' }, few, h('span', {}, 'Few batches are enough for me')),
    h(
      'div',
      { class: 'actions' },
      button('Write it into the workbook', () => void write(), { small: true }),
    ),
    problem,
    said,
    back,
  );
}
