import { demoFarm } from '../../plan/demo-farm';
import { NoPlanFound } from '../../plan/read-book';
import type { Host } from '../host';
import { button } from '../button';
import { freshId, h, say } from '../dom';
import { afterChanges, type OpenFarm, openFarm, typeInto, whenIdle } from '../open-farm';
import type { Page } from '../page';
import { today } from '../today';
import { adviceOn } from './advice';
import { balanceOf } from './balance';
import { balanceView } from './balance-view';
import { BookDraft } from './book-draft';
import { renewPanel } from './renew-panel';
import { buildPanel } from './build-panel';
import { type Checked, Draft, type Json, type Wrong } from './draft';
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
  if (draft.isOfBook)
    return 'What happened is written down in the registers, under Note or on their sheets. Figures that the form does not show are typed on the sheets.';
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
        part.setAttribute('open', '');
        place.replaceChildren(part);
        part.querySelector<HTMLElement>('summary')?.focus();
      });
    },
    { small: true },
  );
  place.append(h('div', { class: 'actions' }, show));
  return place;
}

interface FormOptions {
  readonly startAgain: () => void;
  readonly open: (json: Json, origin: string) => void;
  /** The same, for a farm that is chosen to be the plan: it is only asked whether to build it. */
  readonly choose: (json: Json, origin: string) => void;
  readonly asksAtOnce?: boolean;
  /** The plan stands in the workbook, which says so in `said`. */
  readonly built: (said: readonly Node[]) => void;
}

/** What is wrong in cells that the form does not show, each with the way to it. */
const faultsElsewhere = (host: Host, wrong: readonly Wrong[]): HTMLElement[] =>
  wrong.map(({ sentence, where }) =>
    h(
      'li',
      { class: 'problem' },
      where &&
        h(
          'button',
          {
            type: 'button',
            class: 'link',
            on: { click: () => void host.goTo(where.sheet, where.address) },
          },
          `${where.sheet}!${where.address}`,
        ),
      where ? ` ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}` : sentence,
    ),
  );

/** The form over one farm: fields, what is wrong or unwise beside them, the balance, and the build or renewal. */
function farmForm(
  draft: Draft,
  origin: string,
  host: Host,
  { startAgain, open, choose, asksAtOnce = false, built }: FormOptions,
): HTMLElement {
  const renew = draft.isOfBook ? renewPanel(host) : undefined;
  const sections = planSections(draft, host, (list) =>
    renew?.want(list, draft.list(list).length + 1),
  );
  const build = draft.isOfBook ? undefined : buildPanel(host, built);
  const balance = h('section', { class: 'balance', 'aria-label': 'Balance of feed and beds' });
  const logs = h('p', { class: 'quiet logs' });
  const elsewhere = h('ul', { class: 'elsewhere' });
  const from = h('p', { class: 'quiet', role: 'status' }, origin);
  const unitsId = freshId('units');
  const units = h(
    'select',
    {
      id: unitsId,
      class: 'short',
      disabled: draft.isOfBook,
      ...(draft.isOfBook && { title: 'A workbook keeps the units that its plan was made in.' }),
    },
    h('option', { value: 'metric' }, 'metric'),
    h('option', { value: 'US' }, 'US'),
  );
  let species = draft.get('stock.species');
  let crops = cropsToSell(draft);

  function show({ farm, soFar, wrong }: Checked): void {
    const advice = adviceOn(soFar, farm);
    for (const section of sections) section.tell(wrong, advice);
    // What follows from the registers does so once their workbook can be read.
    balance.replaceChildren(
      ...(draft.isOfBook && !farm
        ? [
            h(
              'p',
              { class: 'verdict watch' },
              'The balance shows again once what is wrong in the workbook is put right.',
            ),
          ]
        : balanceView(balanceOf(soFar), soFar.units)),
    );
    const seen = new Set(sections.flatMap((section) => section.paths()));
    const unseen = wrong.filter((wrong) => !seen.has(wrong.path));
    if (draft.isOfBook) elsewhere.replaceChildren(...faultsElsewhere(host, unseen));
    build?.offer(farm, {
      open: wrong.length,
      elsewhere: unseen,
      goThere: () => sections.find((section) => section.focusFirstOpen()),
    });
  }

  const check = (): void => show(draft.check());

  const refresh = (): void => {
    for (const section of sections) for (const group of section.groups) group.refresh();
    units.value = draft.get('units') === 'US' ? 'US' : 'metric';
    logs.textContent = logsText(draft);
  };
  /** What the tables suggest for what was chosen; in a workbook nothing but what was typed is written. */
  function suggest(): void {
    const chosen = draft.get('stock.species');
    if (chosen !== species) {
      const before = typeof species === 'string' ? species : undefined;
      species = chosen;
      suggestForSpecies(draft, before);
    }
    const before = crops;
    crops = cropsToSell(draft);
    suggestForCrops(draft, before);
  }
  let timer: ReturnType<typeof setTimeout> | undefined;
  draft.onChange(() => {
    if (!draft.isOfBook) suggest();
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
  if (asksAtOnce) build?.ask();

  return h(
    'div',
    { class: 'farm' },
    h(
      'div',
      { class: 'farm-bar' },
      from,
      h('div', { class: 'short' }, h('label', { for: unitsId }, 'Units'), units),
    ),
    farmFiles(draft, (json, name) => {
      // What is opened is another farm than the workbook's.
      if (draft.isOfBook) {
        open(json, `Opened from ${name}.`);
        return;
      }
      draft.replace(json);
      from.textContent = `Opened from ${name}.`;
    }),
    elsewhere,
    balance,
    ...sections.map((section) => section.element),
    logs,
    build?.element,
    renew?.element,
    variantsPlace(host, choose, () => draft.file()),
    h(
      'div',
      { class: 'actions' },
      button(draft.isOfBook ? 'Plan another farm' : 'Start again', startAgain, {
        look: 'subtle',
        small: true,
      }),
    ),
  );
}

/** The form over the farm of the open workbook: edits go into its cells, and what is typed there shows here. */
function bookForm(
  host: Host,
  farm: OpenFarm,
  options: FormOptions & { readonly gone: (says: string) => void },
  said: readonly Node[] = [],
): HTMLElement {
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  let turn = 0;
  const follow = async (): Promise<void> => {
    if (!element.isConnected) return;
    const mine = ++turn;
    try {
      const now = await openFarm(host);
      // What was read before something was written is not what stands there.
      if (mine === turn) draft.follow(now);
    } catch (fault) {
      if (fault instanceof NoPlanFound) options.gone(fault.message);
      else say(problem, `The workbook could not be read: ${(fault as Error).message}`);
    }
  };
  const draft = new BookDraft(
    farm,
    async (cells) => {
      say(problem, undefined);
      turn += 1;
      try {
        await typeInto(host, cells);
      } finally {
        await follow();
      }
    },
    (says) => say(problem, says),
  );
  const element = h(
    'div',
    {},
    ...said,
    problem,
    farmForm(
      draft,
      'The farm of this workbook: what you type here goes into its cells.',
      host,
      options,
    ),
  );
  afterChanges(host, element, () => whenIdle(() => void follow()));
  return element;
}

function render(panel: HTMLElement, host: Host): void {
  const show = (json: Json, origin: string, asksAtOnce: boolean): void => {
    const options = { startAgain: start, open, choose, asksAtOnce, built };
    panel.replaceChildren(farmForm(new Draft(json), origin, host, options));
  };
  const open = (json: Json, origin: string): void => show(json, origin, false);
  const choose = (json: Json, origin: string): void => show(json, origin, true);
  /** Shows the farm of the open workbook. */
  async function ofBook(said: readonly Node[] = []): Promise<void> {
    const farm = await openFarm(host);
    const gone = (says: string): void => start(says);
    panel.replaceChildren(
      bookForm(host, farm, { startAgain: start, open, choose, built, gone }, said),
    );
  }
  /** The plan that was made is the workbook's, and the form goes on with its cells. */
  function built(said: readonly Node[]): void {
    void ofBook(said).then(
      () => (said[0] as HTMLElement | undefined)?.focus(),
      (fault: unknown) => {
        const [first] = said;
        first?.parentNode?.append(
          h(
            'p',
            { class: 'caution' },
            `This form is not the workbook’s and does not change it: ${(fault as Error).message}`,
          ),
        );
      },
    );
  }
  /** Sizing is loaded when somebody asks for it. */
  async function wish(): Promise<void> {
    const { wishView } = await import('./wish-view');
    const view = wishView(
      today(),
      (json) => open(json, 'Proposed for your wish; what nobody said is preset.'),
      choose,
      start,
      host,
    );
    panel.replaceChildren(view.element);
    view.focus();
  }
  function start(says?: string): void {
    const back = h(
      'div',
      { class: 'actions', hidden: true },
      button('Back to the farm of this workbook', () => void ofBook().catch(failed)),
    );
    const told = h('p', { class: 'problem', role: 'alert', hidden: true });
    const failed = (fault: unknown): void => say(told, (fault as Error).message);
    say(told, says);
    panel.replaceChildren(
      h(
        'div',
        { class: 'start' },
        h('h2', {}, 'Plan a farm'),
        told,
        back,
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
        variantsPlace(host, choose, () => undefined),
      ),
    );
    void host.holdsPlan().then(
      (holds) => (back.hidden = !holds),
      () => undefined,
    );
  }
  /** The cells of the workbook's plan; the farm that was kept beside them where there are none. */
  async function begin(): Promise<void> {
    if (await host.holdsPlan()) {
      panel.replaceChildren(h('p', { class: 'quiet', role: 'status' }, 'Reading the workbook …'));
      await new Promise<void>((read) => whenIdle(read));
      await ofBook();
      return;
    }
    const kept = await host.readFarm();
    if (kept !== undefined)
      open(parseFarmFile(kept), 'Kept in this workbook, which holds no plan any more.');
  }
  start();
  void begin().catch((fault: unknown) => {
    // A workbook whose farm cannot be read is one without a farm; several plans are for somebody to sort out.
    start(fault instanceof NoPlanFound ? fault.message : undefined);
  });
}

/** The guided form from which the planning workbook is built. */
export const planPage: Page = { id: 'plan', title: 'Plan', render };
