import { comingWork } from '../../ahead/coming-work';
import { isoText, serialOf } from '../../core/serial-date';
import type { Farm } from '../../plan/farm';
import { shownIn, toShown } from '../../plan/quantities';
import { NoPlanFound } from '../../plan/read-book';
import { tankYearOf } from '../../plan/tank-year-cells';
import { button } from '../button';
import { h } from '../dom';
import type { Host } from '../host';
import { comingView } from './coming-view';
import { openFarm, type OpenFarm, WrongCells } from './farm-of-host';
import { openBedView } from './open-bed-view';
import { planPart } from './plan-part';
import { tankPicture } from './tank-picture';
import { sentenceList, sentenceOf, sheetLink } from './words';

const today = (): number => {
  const now = new Date();
  return serialOf({ year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() });
};

/** The tanks as the Tank year sheet has them. */
function tanksPart(
  host: Host,
  { cells, suffix }: OpenFarm,
  farm: Farm,
  failed: (sentence: string) => void,
): HTMLElement | undefined {
  const year = tankYearOf(
    cells,
    farm.tanks.map(({ name }) => name),
    suffix,
  );
  if (!year) return undefined;
  const { unit } = shownIn('density', farm.units);
  const courses = year.tanks.map(({ name, limit, density }) => ({
    name,
    density,
    limit: limit === undefined ? undefined : toShown(limit, 'density', farm.units),
  }));
  const weeks = Math.max(0, ...courses.map(({ density }) => density.length));
  const days = Array.from({ length: weeks }, (_, week) => farm.asOf + 7 * week);
  return h(
    'section',
    { class: 'part', 'aria-label': 'The tanks through the year' },
    h('h3', {}, 'The tanks through the year'),
    tankPicture(courses, days, unit),
    h('div', { class: 'actions' }, sheetLink(host, year.sheet, failed)),
  );
}

/** The sheet on which a name of the plan stands. */
const sheetOf = ({ cells, suffix }: OpenFarm, name: string): string | undefined =>
  cells.name(name + suffix)?.sheet;

export function aheadView(host: Host): HTMLElement {
  const status = h('p', { class: 'quiet', role: 'status', tabindex: '-1' });
  const problem = h('div', { role: 'alert' });
  const parts = h('div', {});
  const fail = (...sentences: readonly string[]): void =>
    problem.replaceChildren(...sentences.map((says) => h('p', { class: 'problem' }, says)));
  let reading = false;

  function show(open: OpenFarm): void {
    const { farm } = open;
    const season = sheetOf(open, 'Season_from');
    parts.replaceChildren(
      comingView(comingWork(farm)),
      ...[tanksPart(host, open, farm, fail)].filter((part) => part !== undefined),
      ...(season === undefined
        ? []
        : [
            h(
              'section',
              { class: 'part', 'aria-label': 'The beds, week by week' },
              h('h3', {}, 'The beds, week by week'),
              h(
                'p',
                {},
                'The sheet Season shows which bed holds what in each week, what the market gets, seed, trays and hours.',
              ),
              h('div', { class: 'actions' }, sheetLink(host, season, fail)),
            ),
          ]),
      openBedView(farm),
      planPart(host, open, today(), (says) => void read(says)),
    );
  }

  async function read(says = ''): Promise<void> {
    if (reading) return;
    reading = true;
    fail();
    status.textContent = 'Reading the workbook …';
    // The words show before the work begins.
    await new Promise((resolve) => setTimeout(resolve, 20));
    try {
      const open = await openFarm(host);
      show(open);
      const { name, asOf } = open.farm;
      status.textContent = `${says === '' ? '' : `${says} `}${name}, day of the plan ${isoText(asOf)}.`;
      if (says !== '') status.focus();
    } catch (fault) {
      status.textContent = '';
      parts.replaceChildren();
      if (fault instanceof NoPlanFound) {
        parts.replaceChildren(
          h(
            'p',
            {},
            `${fault.message} Build one on the page Plan; then this page says what is to be done week by week, and plans fish and beds.`,
          ),
        );
      } else if (fault instanceof WrongCells) {
        fail('Nothing can be planned before these cells are put right:');
        parts.replaceChildren(
          ...[sentenceList(fault.sentences)].filter((element) => element !== undefined),
        );
      } else fail(`The workbook could not be read: ${sentenceOf(fault)}`);
    } finally {
      reading = false;
    }
  }

  void read();
  return h(
    'div',
    { class: 'ahead' },
    status,
    h(
      'div',
      { class: 'actions' },
      button('Read the workbook again', () => void read(), { small: true }),
    ),
    problem,
    parts,
  );
}
