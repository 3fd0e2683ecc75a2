import { results, type Result, resultWords } from '../../chances/chance-year';
import type { Chances } from '../../chances/chances';
import { courseWords, momentInWords } from '../../chances/chances-sheet';
import { inUnits, unitOfResult } from '../../chances/chances-text';
import { planMark } from '../../chances/plan-mark';
import { spreadsOf } from '../../chances/spreads';
import { isoText } from '../../core/serial-date';
import type { Farm } from '../../plan/farm';
import { NoPlanFound } from '../../plan/read-book';
import { folded, sentenceList, sentenceOf, sheetLink } from '../ahead/words';
import { button, setUsable } from '../button';
import { freshId, h, say } from '../dom';
import type { Host } from '../host';
import { Cancelled } from '../in-thread';
import { openFarm } from '../open-farm';
import { coursePicture, figureOf } from './course-picture';
import { moversPicture } from './movers-picture';
import { playInWorker } from './play-in-worker';
import { type SpreadsForm, spreadsForm, WrongEntry } from './spreads-form';
import { takeChancesOut, writeChances, writtenChances } from './written-chances';

interface OpenPlan {
  readonly farm: Farm;
  readonly mark: string;
}

/** Cells that are wrong, each with a sentence. */
class WrongCells extends Error {
  constructor(readonly sentences: readonly string[]) {
    super(sentences.join(' '));
  }
}

async function readPlan(host: Host): Promise<OpenPlan> {
  const { reading } = await openFarm(host);
  if (!reading.farm) throw new WrongCells(reading.faults.map(({ says }) => says));
  return { farm: reading.farm, mark: planMark(reading.file) };
}

const LIMITS = {
  weeks: { label: 'Weeks', usual: 52, min: 8, max: 60 },
  years: { label: 'Years played', usual: 1000, min: 100, max: 10_000 },
  seed: { label: 'Seed', usual: 1, min: 0, max: 2_147_483_647 },
} as const;
type Asked = Record<keyof typeof LIMITS, number>;

const asWritten: Readonly<Record<Result, (value: number) => string>> = {
  fish: figureOf,
  weeks: (share) => `${Number((100 * share).toPrecision(3))} %`,
  feed: figureOf,
  income: figureOf,
};

function bandInWords(result: Result, found: Chances, farm: Farm): string {
  const band = found.bands[result] as NonNullable<Chances['bands'][Result]>;
  const unit = unitOfResult(result, farm);
  const shown = (value: number): string => asWritten[result](inUnits(result, value, farm.units));
  const [low, half, high] = [band.tenth, band.half, band.ninetieth].map(shown);
  return `Half of the years are below ${half}${unit === '' ? '' : ` ${unit}`}; a year in ten is below ${low}, one in ten above ${high}.`;
}

function resultPart(result: Result, found: Chances, farm: Farm): HTMLElement | undefined {
  const [band, course] = [found.bands[result], found.courses[result]];
  if (band === undefined || course === undefined) return undefined;
  const inShown = (line: readonly number[]) =>
    line.map((value) => inUnits(result, value, farm.units));
  return h(
    'section',
    { class: 'part', 'aria-label': resultWords[result] },
    h('h3', {}, resultWords[result]),
    h('p', { class: 'band-words' }, bandInWords(result, found, farm)),
    coursePicture({
      title: courseWords[result],
      unit: unitOfResult(result, farm),
      shown: asWritten[result],
      days: course.half.map((_, week) => farm.asOf + 7 * week),
      tenth: inShown(course.tenth),
      half: inShown(course.half),
      ninetieth: inShown(course.ninetieth),
    }),
    h('h4', {}, 'What moves it most'),
    moversPicture(band, resultWords[result]),
  );
}

function wholeEntry(name: keyof typeof LIMITS): { field: HTMLElement; entry: HTMLInputElement } {
  const { label, usual } = LIMITS[name];
  const id = freshId(name);
  const entry = h('input', {
    id,
    type: 'text',
    inputmode: 'numeric',
    class: 'figure',
    autocomplete: 'off',
    value: String(usual),
  });
  return { entry, field: h('div', { class: 'field' }, h('label', { for: id }, label), entry) };
}

export function chancesView(host: Host): HTMLElement {
  const status = h('p', { class: 'quiet', role: 'status', tabindex: '-1' });
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const stage = h('div', { class: 'stage' });
  const body = h('div', {});
  const written = h('div', {});
  let form: SpreadsForm | undefined;
  const fields = {
    weeks: wholeEntry('weeks'),
    years: wholeEntry('years'),
    seed: wholeEntry('seed'),
  };
  const go = button('Play the weeks ahead', () => void play(), { look: 'primary' });
  const fail = (fault: unknown): void => say(problem, sentenceOf(fault));

  function askedNow(): Asked {
    const wholeNumber = (name: keyof typeof LIMITS): number => {
      const { label, min, max } = LIMITS[name];
      const { entry } = fields[name];
      entry.removeAttribute('aria-invalid');
      const value = entry.value.trim() === '' ? NaN : Number(entry.value);
      if (Number.isInteger(value) && value >= min && value <= max) return value;
      throw new WrongEntry(entry, `${label}: type a whole number from ${min} to ${max}.`);
    };
    return { weeks: wholeNumber('weeks'), years: wholeNumber('years'), seed: wholeNumber('seed') };
  }

  function wrongEntry({ entry, message }: WrongEntry): void {
    entry.setAttribute('aria-invalid', 'true');
    const around = entry.closest('details');
    if (around) around.open = true;
    say(problem, message);
    entry.focus();
  }

  async function play(): Promise<void> {
    say(problem, undefined);
    const bar = h('fluent-progress-bar', { max: 100, 'aria-label': 'Playing the years' });
    setUsable(go, false);
    try {
      const asked = askedNow();
      const plan = await readPlan(host);
      const own = spreadsOf(plan.farm);
      form?.show(own);
      const spreads = form ? form.spreads(own) : own;
      const playing = playInWorker({ ...asked, farm: plan.farm, spreads }, (share) =>
        bar.setAttribute('value', String(Math.round(100 * share))),
      );
      const cancel = button('Cancel', () => playing.cancel());
      stage.replaceChildren(bar, h('div', { class: 'actions' }, cancel));
      cancel.focus();
      show(plan, await playing.answer);
    } catch (fault) {
      stage.replaceChildren();
      if (fault instanceof WrongEntry) wrongEntry(fault);
      else if (fault instanceof Cancelled) {
        stage.replaceChildren(h('p', { class: 'quiet', role: 'status' }, fault.message));
        go.focus();
      } else if (fault instanceof WrongCells) {
        fail(new Error('Nothing can be played before these cells are put right:'));
        const list = sentenceList(fault.sentences);
        if (list) stage.replaceChildren(list);
      } else fail(fault);
    } finally {
      setUsable(go, true);
    }
  }

  function show(plan: OpenPlan, found: Chances): void {
    const { farm } = plan;
    const title = h(
      'h3',
      { tabindex: '-1' },
      `${found.years} times ${found.weeks} weeks from ${isoText(farm.asOf)}`,
    );
    stage.replaceChildren(
      title,
      h(
        'p',
        {},
        'The band holds eight years in ten, the line parts the lower half from the upper. The bars say how much of the differences follows each input; the rest is chance from batch to batch.',
      ),
      sentenceList(found.notes) ?? '',
      ...results.flatMap((result) => resultPart(result, found, farm) ?? []),
      h(
        'div',
        { class: 'actions' },
        button('Write into the sheet', () => void write(plan, found), { look: 'primary' }),
      ),
      written,
    );
    written.replaceChildren();
    title.focus({ preventScroll: true });
    title.scrollIntoView({ block: 'start' });
  }

  async function write(plan: OpenPlan, found: Chances): Promise<void> {
    say(problem, undefined);
    written.replaceChildren(h('p', { class: 'quiet', role: 'status' }, 'Writing …'));
    try {
      if ((await readPlan(host)).mark !== plan.mark) {
        throw new Error(
          'The plan has changed since it was played: nothing was written. Play it again.',
        );
      }
      const { farm, mark } = plan;
      const sheet = await writeChances(host, {
        farm,
        mark,
        found,
        written: momentInWords(new Date()),
      });
      showWritten(written, sheet, `Written on the sheet ${sheet}, as numbers that follow nothing.`);
    } catch (fault) {
      written.replaceChildren(h('p', { class: 'problem', role: 'alert' }, sentenceOf(fault)));
    }
  }

  /** A sheet that is there, and the way out of it. */
  function showWritten(room: HTMLElement, sheet: string, says: string): void {
    const said = h('p', { class: 'done', role: 'status', tabindex: '-1' }, says);
    const wrong = h('p', { class: 'problem', role: 'alert', hidden: true });
    room.replaceChildren(
      said,
      h(
        'div',
        { class: 'actions' },
        sheetLink(host, sheet, (sentence) => say(wrong, sentence)),
        button(
          `Take the sheet ${sheet} out again`,
          () => {
            takeChancesOut(host, sheet).then(
              () => {
                const gone = h(
                  'p',
                  { class: 'done', role: 'status', tabindex: '-1' },
                  `The sheet ${sheet} is out again; nothing else has changed.`,
                );
                room.replaceChildren(gone);
                gone.focus();
              },
              (fault: unknown) => say(wrong, sentenceOf(fault)),
            );
          },
          { small: true, look: 'subtle' },
        ),
      ),
      wrong,
    );
    said.focus();
  }

  /** Sheets that were written before, once somebody asks for them. */
  function earlierPart(): HTMLElement {
    const list = h('div', {});
    const part = folded('Sheets of chances in this workbook', false, list);
    part.addEventListener('toggle', () => {
      if (!(part as HTMLDetailsElement).open) return;
      list.replaceChildren(h('p', { class: 'quiet', role: 'status' }, 'Reading the sheets …'));
      Promise.all([writtenChances(host), readPlan(host).catch(() => undefined)]).then(
        ([found, plan]) => {
          list.replaceChildren(
            ...(found.length === 0
              ? [h('p', { class: 'quiet', role: 'status' }, 'There is none.')]
              : found.map(({ sheet, planMark: mark, written: on }) => {
                  const room = h('div', {});
                  const since =
                    plan === undefined || mark === plan.mark
                      ? 'the plan is as it was then'
                      : 'the plan has changed since';
                  showWritten(room, sheet, `${sheet}, written on ${on}; ${since}.`);
                  return room;
                })),
          );
        },
        (fault: unknown) =>
          list.replaceChildren(h('p', { class: 'problem', role: 'alert' }, sentenceOf(fault))),
      );
    });
    return part;
  }

  async function read(): Promise<void> {
    status.textContent = 'Reading the workbook …';
    // The words show before the work begins.
    await new Promise((resolve) => setTimeout(resolve, 20));
    try {
      const { farm } = await readPlan(host);
      form = spreadsForm(spreadsOf(farm));
      status.textContent = `${farm.name}, day of the plan ${isoText(farm.asOf)}.`;
      body.replaceChildren(
        h(
          'p',
          {},
          'The plan of the open workbook, played many times: growth, deaths, seeds, days, yields and prices miss as far as your records, or stated spreads, say. Fish that no row stocks and beds that no row plants are in no chance: plan them on the page Ahead first.',
        ),
        h('div', { class: 'grid' }, fields.weeks.field, fields.years.field, fields.seed.field),
        h('p', { class: 'hint' }, 'The same seed on the same plan gives the same answer.'),
        folded('How far the figures may miss', false, form.element),
        h('div', { class: 'actions' }, go),
        stage,
        earlierPart(),
      );
    } catch (fault) {
      status.textContent = '';
      const again = button('Read the workbook again', () => void read(), { small: true });
      if (fault instanceof NoPlanFound) {
        body.replaceChildren(
          h(
            'p',
            {},
            `${fault.message} Build one on the page Plan; then this page says in which band its year may end.`,
          ),
          h('div', { class: 'actions' }, again),
        );
      } else {
        if (fault instanceof WrongCells) {
          fail(new Error('Nothing can be played before these cells are put right:'));
        } else fail(fault);
        const list = fault instanceof WrongCells ? sentenceList(fault.sentences) : undefined;
        body.replaceChildren(...(list ? [list] : []), h('div', { class: 'actions' }, again));
      }
    }
  }

  void read();
  return h('div', { class: 'chances' }, status, problem, body);
}
