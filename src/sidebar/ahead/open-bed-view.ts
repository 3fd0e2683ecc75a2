import { PLANNED_WEEKS } from '../../ahead/asked';
import { bestForBed } from '../../ahead/open-bed';
import { choiceInWords, nothingForBed } from '../../ahead/report-lines';
import type { Farm } from '../../plan/farm';
import { button } from '../button';
import { freshId, h } from '../dom';
import { sentenceOf } from './words';

const WEEKS = Math.min(52, PLANNED_WEEKS.beds.max);

/** One bed is empty: the three crops that do most for the market there now, and why. */
export function openBedView(farm: Farm): HTMLElement {
  const id = freshId('open-bed');
  const open = farm.beds.find(({ crop }) => crop === undefined)?.name;
  const beds = h(
    'select',
    { id },
    ...farm.beds.map(({ name, crop }) =>
      h(
        'option',
        { value: name, selected: name === open },
        crop === undefined ? name : `${name} (${crop})`,
      ),
    ),
  );
  const said = h('div', { role: 'status' });
  const show = (): void => {
    try {
      const { bed, choices } = bestForBed(farm, beds.value, { weeks: WEEKS });
      said.replaceChildren(
        choices.length === 0
          ? h('p', {}, nothingForBed(bed))
          : h(
              'ol',
              { class: 'choices-for-bed' },
              ...choices.map((choice) =>
                h(
                  'li',
                  {},
                  h('p', {}, choiceInWords(choice, farm.currency)),
                  h('ul', { class: 'quiet' }, ...choice.reasons.map((why) => h('li', {}, why))),
                ),
              ),
            ),
      );
    } catch (fault) {
      said.replaceChildren(h('p', { class: 'problem' }, sentenceOf(fault)));
    }
  };
  return h(
    'section',
    { class: 'part', 'aria-label': 'An open bed' },
    h('h3', {}, 'An open bed: what goes in?'),
    farm.beds.length === 0
      ? h('p', { class: 'quiet' }, 'This farm has no beds.')
      : h(
          'div',
          {},
          h('div', { class: 'field' }, h('label', { for: id }, 'Bed'), beds),
          h('div', { class: 'actions' }, button('Name the three best crops', show)),
          said,
        ),
  );
}
