import { demoFarm } from '../../plan/demo-farm';
import { type Farm, wholeFarm } from '../../plan/farm';
import type { Host } from '../host';
import { button } from '../button';
import { freshId, h } from '../dom';
import { afterChanges, openFarm, whenIdle } from '../open-farm';
import type { Page } from '../page';
import { today } from '../today';
import { adviceOn } from './advice';
import { balanceOf } from './balance';
import { balanceView } from './balance-view';
import { renewPanel } from './renew-panel';
import { buildPanel } from './build-panel';
import { type Checked, Draft, type Json } from './draft';
import { changeUnits } from './entries';
import { farmFiles, parseFarmFile } from './farm-files';
import { cropsToSell, newFarm, suggestForCrops, suggestForSpecies } from './new-farm';
import { planSections } from './plan-sections';

const CHECK_AFTER_MS = 120;

const example = (): Json => structuredClone(demoFarm) as unknown as Json;

/** Records of the days are kept in the workbook, where they are written down; the form says so. */
function logsText(draft: Draft): string {
  const number = (list: string, singular: string): string => {
    const n = draft.list(list).length;
    return n === 0 ? '' : `${n} ${n === 1 ? singular : `${singular}s`}`;
  };
  const brought = [number('waterTests', 'water test'), number('harvests', 'harvest')].filter(
    Boolean,
  );
  return [
    'Water tests and harvests are written down on the sheets “Water log” and “Harvest log”, not here.',
    brought.length > 0
      ? `This farm brings ${brought.join(' and ')} along, and the new sheets begin with them.`
      : '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** A place for the variants, which are loaded when somebody asks for them. */
function variantsPlace(
  host: Host,
  take: (json: Json, origin: string) => void,
  file: () => string | undefined,
): HTMLElement {
  const place = h('div', { class: 'variants' });
  const show = button(
    'Variants side by side',
    () => {
      void import('./variants-view').then(({ variantsPart, wholeFarm }) => {
        const from = () => {
          const text = file();
          return text === undefined ? undefined : wholeFarm(text);
        };
        const part = variantsPart({ host, today: today(), take }, from);
        place.replaceChildren(part);
        part.querySelector('button')?.focus();
      });
    },
    { small: true },
  );
  place.append(h('div', { class: 'actions' }, show));
  return place;
}

/** The form over one farm: fields, what is wrong or unwise beside them, the balance, and the build. */
function farmForm(
  draft: Draft,
  origin: string,
  host: Host,
  {
    startAgain,
    open,
    isOfBook = false,
  }: {
    readonly startAgain: () => void;
    readonly open: (json: Json, origin: string) => void;
    /** The farm was kept in the open workbook, whose cells may have gone on since. */
    readonly isOfBook?: boolean;
  },
): HTMLElement {
  const sections = planSections(draft, host);
  const build = buildPanel(host);
  const balance = h('section', { class: 'balance', 'aria-label': 'Balance of feed and beds' });
  const logs = h('p', { class: 'quiet logs' });
  const from = h('p', { class: 'quiet', role: 'status' }, origin);
  const unitsId = freshId('units');
  const units = h(
    'select',
    { id: unitsId, class: 'short' },
    h('option', { value: 'metric' }, 'metric'),
    h('option', { value: 'US' }, 'US'),
  );
  let species = draft.get('stock.species');
  let crops = cropsToSell(draft);

  const asKept = draft.file();
  let ofBook: Farm | undefined;

  function show({ farm, soFar, wrong }: Checked): void {
    const advice = adviceOn(soFar, farm);
    for (const section of sections) section.tell(wrong, advice);
    // As long as nobody typed into the form, the balance is that of the cells.
    const shown = ofBook && draft.file() === asKept ? wholeFarm(ofBook) : soFar;
    balance.replaceChildren(...balanceView(balanceOf(shown), shown.units));
    const seen = new Set(sections.flatMap((section) => section.paths()));
    build.offer(farm, {
      open: wrong.length,
      elsewhere: wrong.filter((wrong) => !seen.has(wrong.path)),
      goThere: () => sections.find((section) => section.focusFirstOpen()),
    });
  }

  const check = (): void => show(draft.check());

  const refresh = (): void => {
    for (const section of sections) for (const group of section.groups) group.refresh();
    units.value = draft.get('units') === 'US' ? 'US' : 'metric';
    logs.textContent = logsText(draft);
  };
  let timer: ReturnType<typeof setTimeout> | undefined;
  draft.onChange(() => {
    const chosen = draft.get('stock.species');
    if (chosen !== species) {
      const before = typeof species === 'string' ? species : undefined;
      species = chosen;
      suggestForSpecies(draft, before);
    }
    const before = crops;
    crops = cropsToSell(draft);
    suggestForCrops(draft, before);
    clearTimeout(timer);
    timer = setTimeout(() => {
      refresh();
      check();
    }, CHECK_AFTER_MS);
  });
  units.addEventListener('change', () =>
    changeUnits(draft, units.value === 'US' ? 'US' : 'metric'),
  );
  refresh();
  // A form that has everything folded says nothing; where something is to fill in, it begins there.
  check();
  sections.find((section) => section.unfoldIfIncomplete());

  const element = h(
    'div',
    { class: 'farm' },
    h(
      'div',
      { class: 'farm-bar' },
      from,
      h('div', { class: 'short' }, h('label', { for: unitsId }, 'Units'), units),
    ),
    farmFiles(draft, (json, name) => {
      draft.replace(json);
      from.textContent = `Opened from ${name}.`;
    }),
    balance,
    ...sections.map((section) => section.element),
    logs,
    build.element,
    renewPanel(host),
    variantsPlace(host, open, () => draft.file()),
    h(
      'div',
      { class: 'actions' },
      button('Start again', startAgain, { look: 'subtle', small: true }),
    ),
  );
  if (isOfBook) {
    const readCells = async (): Promise<void> => {
      if (!element.isConnected) return;
      ofBook = (await openFarm(host)).reading.farm;
      check();
    };
    // A workbook that cannot be read is the check's to name: the form shows its own farm then.
    const follow = (): void => void readCells().catch(() => (ofBook = undefined));
    whenIdle(follow);
    afterChanges(host, element, () => whenIdle(follow));
  }
  return element;
}

function render(panel: HTMLElement, host: Host): void {
  const open = (json: Json, origin: string, isOfBook = false): void => {
    panel.replaceChildren(
      farmForm(new Draft(json), origin, host, { startAgain: start, open, isOfBook }),
    );
  };
  /** Sizing is loaded when somebody asks for it. */
  async function wish(): Promise<void> {
    const { wishView } = await import('./wish-view');
    const view = wishView(
      today(),
      (json, origin = 'Proposed for your wish; what nobody said is preset.') => open(json, origin),
      start,
      host,
    );
    panel.replaceChildren(view.element);
    view.focus();
  }
  function start(): void {
    panel.replaceChildren(
      h(
        'div',
        { class: 'start' },
        h('h2', {}, 'Plan a farm'),
        h(
          'p',
          {},
          'Tell Gillbed about the fish, the beds and the market, and it writes a planning workbook: feed, stocking, sowing dates, water and money, sheet by sheet.',
        ),
        h(
          'div',
          { class: 'actions stacked' },
          button('Start from a wish', () => void wish(), { look: 'primary' }),
          button('Start with my own farm', () => open(newFarm(today()), 'A new farm.')),
          button('Look at an example farm', () => open(example(), 'Quillwater, an invented farm.')),
        ),
        farmFiles(undefined, (json, name) => open(json, `Opened from ${name}.`)),
        variantsPlace(host, open, () => undefined),
      ),
    );
  }
  start();
  void host.readFarm().then(
    (kept) => {
      // In Excel the whole file would have to be read for every look at the cells.
      if (kept !== undefined)
        open(parseFarmFile(kept), 'Kept in this workbook.', host.kind === 'workbench');
    },
    // A workbook whose farm cannot be read is one without a farm.
    () => undefined,
  );
}

/** The guided form from which the planning workbook is built. */
export const planPage: Page = { id: 'plan', title: 'Plan', render };
