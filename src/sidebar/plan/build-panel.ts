import type { Host } from '../host';
import type { Farm } from '../../plan/farm';
import type { FormulaMode } from '../../plan/live-or-plain';
import { planWorkbook } from '../../plan/plan';
import { button, setUsable } from '../button';
import { freshId, h, say } from '../dom';
import type { Wrong } from './draft';

export interface BuildPanel {
  readonly element: HTMLElement;
  /** The farm as it can be built; undefined while something is missing or wrong. */
  readonly offer: (farm: Farm | undefined, faults: Faults) => void;
  /** Shows what will be built, as the button does. */
  readonly ask: () => void;
}

/** What keeps a farm from being built. */
export interface Faults {
  readonly open: number;
  /** Faults in parts of the farm file that the form does not show. */
  readonly elsewhere: readonly Wrong[];
  /** Goes to the first field that is missing or wrong. */
  readonly goThere: () => void;
}

const modes: readonly (readonly [FormulaMode, string, string])[] = [
  ['live', 'GILL formulas', 'They answer with a sentence when an entry is wrong. Needs Gillbed.'],
  ['plain', 'Plain formulas', 'The same numbers for anybody, without Gillbed.'],
];

/**
 * Writes the plan into the workbook: a word of warning first, then progress, then where it is; `built` gets the
 * words about that.
 */
export function buildPanel(host: Host, built: (said: readonly Node[]) => void): BuildPanel {
  let farm: Farm | undefined;
  let mode: FormulaMode = 'live';
  const group = freshId('mode');
  const choices = modes.map(([value, title, says]) =>
    h(
      'label',
      { class: 'option' },
      h('input', {
        type: 'radio',
        name: group,
        value,
        checked: value === mode,
        on: {
          change: () => {
            mode = value;
          },
        },
      }),
      h('span', {}, h('strong', {}, title), h('span', { class: 'quiet' }, ` ${says}`)),
    ),
  );
  const waits = h('p', { class: 'quiet', role: 'status' });
  const elsewhere = h('ul', { class: 'elsewhere' });
  let goThere = (): void => undefined;
  const show = button('Show me the first', () => goThere(), { small: true });
  const build = button('Build the plan', () => void ask(), { look: 'primary' });
  const stage = h('div', { class: 'stage' });

  const rest = (...nodes: readonly Node[]): void => stage.replaceChildren(...nodes);

  async function ask(): Promise<void> {
    if (!farm) return;
    const typed = farm;
    const { countedFarm } = await import('../../experience/taken-over');
    // Meanwhile something else may have been typed.
    if (farm !== typed) return;
    const plan = planWorkbook(countedFarm(typed), { formulas: mode });
    const go = button('Build now', () => void run(plan), { look: 'primary' });
    const title = h(
      'p',
      { tabindex: '-1' },
      `${plan.sheets.length} new sheets: ${plan.sheets.map((sheet) => sheet.name).join(', ')}.`,
    );
    rest(
      h(
        'div',
        { class: 'ask', role: 'group', 'aria-label': 'Before the plan is built' },
        title,
        h('p', { class: 'caution' }, host.buildWarning),
        h(
          'div',
          { class: 'actions' },
          go,
          button('Not now', () => {
            rest();
            build.focus();
          }),
        ),
      ),
    );
    title.focus();
  }

  async function run(plan: ReturnType<typeof planWorkbook>): Promise<void> {
    const stop = new AbortController();
    const bar = h('fluent-progress-bar', { max: 100, 'aria-label': 'Building the plan' });
    const status = h('p', { class: 'quiet', role: 'status' }, 'Beginning …');
    const cancel = button('Cancel', () => {
      stop.abort();
      status.textContent = 'Stopping; what was made is being removed …';
    });
    setUsable(build, false);
    rest(bar, status, h('div', { class: 'actions' }, cancel));
    cancel.focus();
    try {
      const report = await host.build(
        plan,
        (share, doing) => {
          bar.setAttribute('value', String(Math.round(share * 100)));
          if (doing !== undefined && !stop.signal.aborted) status.textContent = `${doing} …`;
        },
        stop.signal,
      );
      const done = h('p', { class: 'done', role: 'status', tabindex: '-1' }, 'The plan stands.');
      const links = report.sheets.map((name) =>
        h(
          'button',
          { type: 'button', class: 'link', on: { click: () => void host.goTo(name, 'A1') } },
          name,
        ),
      );
      const said = [
        done,
        h('p', { class: 'links' }, ...links),
        ...(report.notes ?? []).map((note) => h('p', { class: 'caution' }, note)),
      ];
      rest(...said);
      done.focus();
      built(said);
    } catch (thrown) {
      const said = h('p', { class: 'problem', role: 'alert', tabindex: '-1' });
      say(said, thrown instanceof Error ? thrown.message : String(thrown));
      rest(said);
      said.focus();
    } finally {
      setUsable(build, farm !== undefined);
    }
  }

  return {
    element: h(
      'section',
      { class: 'build', 'aria-label': 'Build' },
      h('fieldset', {}, h('legend', {}, 'Formulas in the sheets'), ...choices),
      h('div', { class: 'actions' }, build),
      waits,
      elsewhere,
      h('div', { class: 'actions' }, show),
      stage,
    ),
    ask: () => void ask(),
    offer: (offered, faults) => {
      farm = offered;
      setUsable(build, farm !== undefined);
      const { open } = faults;
      goThere = faults.goThere;
      show.hidden = open === faults.elsewhere.length;
      elsewhere.replaceChildren(
        ...faults.elsewhere.map(({ path, sentence }) =>
          h('li', { class: 'problem' }, h('code', {}, path), ` in the farm file: ${sentence}.`),
        ),
      );
      waits.textContent = farm
        ? ''
        : `${open === 1 ? 'One field is' : `${open} fields are`} still to be filled in or put right before the plan can be built.`;
    },
  };
}
