import {
  type ComingTask,
  type ComingWeek,
  type ComingWork,
  weekInWords,
} from '../../ahead/coming-work';
import { isoText, isoWeekday, isoWeekText } from '../../core/serial-date';
import { h } from '../dom';
import { folded, sentenceList } from './words';

const dayNames = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/** "Mon 04-06" */
const dayInWords = (day: number): string =>
  `${dayNames[isoWeekday(day) - 1] ?? ''} ${isoText(day).slice(5)}`;

function taskList(tasks: readonly ComingTask[]): HTMLElement {
  const days = [...new Set(tasks.map(({ day }) => day))];
  return h(
    'dl',
    { class: 'tasks' },
    ...days.map((day) =>
      h(
        'div',
        {},
        h('dt', {}, h('time', { datetime: isoText(day) }, dayInWords(day))),
        ...tasks
          .filter((task) => task.day === day)
          .map(({ what, says }) =>
            h(
              'dd',
              { class: what },
              h('span', { class: 'kind' }, what === 'fish' ? 'Fish' : 'Bed'),
              ` ${says}`,
            ),
          ),
      ),
    ),
  );
}

const countWords = ({ tasks }: ComingWeek): string =>
  tasks.length === 0 ? 'nothing' : tasks.length === 1 ? '1 task' : `${tasks.length} tasks`;

const weekPart = (week: ComingWeek, place: number): HTMLElement =>
  folded(
    `${place === 0 ? 'This week' : isoWeekText(week.from)}, ${weekInWords(week)}: ${countWords(week)}`,
    place === 0,
    week.tasks.length === 0
      ? h('p', { class: 'quiet' }, 'No row of the registers asks for anything.')
      : taskList(week.tasks),
  );

/** What the rows of the registers ask for: this week, then the next four. */
export function comingView({ waiting, weeks, notes }: ComingWork): HTMLElement {
  return h(
    'section',
    { class: 'part', 'aria-label': 'To be done' },
    h('h3', {}, 'To be done'),
    waiting.length > 0 &&
      h(
        'div',
        { class: 'caution' },
        h(
          'p',
          {},
          'Planned, their day is gone, and nobody said what became of them. In the row: done as planned, clear the mark; done otherwise, write otherwise; not done, write not done.',
        ),
        taskList(waiting),
      ),
    ...weeks.map(weekPart),
    sentenceList(notes, 'plain-list quiet'),
  );
}
