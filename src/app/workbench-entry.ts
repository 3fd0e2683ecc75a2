import './workbench.css';
import { download } from '../sidebar/download';
import { demoPlan, type DemoWorkbook } from '../hosts/workbench/demo-plan';
import type { PlanModel } from '../plan/workbook-model';
import { gridFrom } from '../engine/engine';
import { workbenchHost } from '../hosts/workbench/workbench-host';
import type { Work, WorkToKeep } from '../hosts/workbench/kept-work';
import { forget, keep, readKept } from '../hosts/workbench/work-store';
import { note, part } from '../hosts/workbench/note-dialog';
import { openFile } from '../hosts/workbench/open-file';
import {
  liveXlsx,
  newPlainXlsx,
  newXlsx,
  plainXlsx,
  XLSX_TYPE,
  type SavedFile,
} from '../hosts/workbench/save-workbook';
import { RefusedChange } from '../ooxml/cell-changes';
import { inSteps, type Pause, type Steps } from '../plan/in-steps';
import { isLargeWork, Workbench } from '../hosts/workbench/workbench';
import { drawn } from '../sidebar/drawn';
import { pausing } from '../sidebar/pausing';
import { longWork, type LongWork, wasStopped } from './long-work';
import { saidDoing, sayDoing, sayEnded, sayKeeping, sayKept } from './status-line';

/** Known when the page is bundled. */
declare const process: { readonly env: { readonly NODE_ENV?: string } };

const KEEP_AFTER_MS = 800;
/** Keeping a large workbook takes a while, in which the page has other work to do: so many times that long it waits. */
const KEEP_AFTER_TIMES = 2;
/** What was typed is not left unkept for longer, however long keeping takes. */
const MAX_UNKEPT_MS = 15_000;

/** Somebody works on meanwhile. */
const KEEP_STEP_MS = 10;
/** After so many times it is made in one step. */
const GIVEN_UP = 4;

const KEPT = 'Kept in this browser';
const COMPUTING = 'What hangs on it is computed once all sheets are in …';

/** A mark of this build, set by the bundler. */
declare const __webpack_hash__: string;

const isBuilt = process.env.NODE_ENV === 'production';
// While it is being worked on every change must show at once.
const program = isBuilt ? __webpack_hash__ : undefined;
const workbench = new Workbench(
  part('grid'),
  program,
  (sentence) => {
    // The grid asks several times whether it may.
    if (!part<HTMLDialogElement>('note').open) void note('Not in this file', [sentence]);
  },
  { say: sayDoing, inSteps: workOrStop },
);

/** Has a long work done, unless somebody stops it. */
async function workOrStop(doing: string, work: (pause: Pause) => Promise<void>): Promise<void> {
  try {
    await longWork(doing, (step) => work(step(doing)));
  } catch (fault) {
    if (!wasStopped(fault)) throw fault;
    sayEnded('Stopped; the sheets are as they were');
  }
}

const sentenceOf = (fault: unknown): string =>
  fault instanceof Error ? fault.message : String(fault);

type BuiltDemo = Required<Pick<Work, 'data' | 'stored' | 'farm'>>;

/** The demo plan with its values, as the build computed it; undefined where it cannot be had. */
async function builtDemo(): Promise<BuiltDemo | undefined> {
  if (program === undefined) return undefined;
  try {
    const answer = await fetch(`demo-workbook.json?${program}`);
    const found = (await answer.json()) as DemoWorkbook & { readonly program: string };
    if (found.program !== program) return undefined;
    const { data, sheets, farm } = found;
    return { data, farm, stored: { program, sheets } };
  } catch {
    return undefined;
  }
}

async function demoWork(): Promise<Work> {
  const built = await builtDemo();
  let made: PlanModel | undefined;
  // The plan itself is needed for saving, and takes longer than all the rest.
  const plan = (): PlanModel => (made ??= demoPlan());
  return {
    ...(built ?? { data: gridFrom(plan()), farm: plan().farm }),
    untouchedDemo: true,
    get plans() {
      return { '': plan() };
    },
  };
}

/** Keeps every change a moment after it was made, so that it is there on the next visit. */
function keepAsTimeGoes(): void {
  let last = workbench.revision();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let lasted = 0;
  /** So many times in a row something was typed while it was being made. */
  let givenUp = 0;
  const workOf = async (revision: string): Promise<WorkToKeep> => {
    const whole = givenUp >= GIVEN_UP || document.visibilityState === 'hidden';
    if (whole) return workbench.current();
    const pause = pausing(undefined, undefined, KEEP_STEP_MS);
    return inSteps(workbench.keeping(), async (share) => {
      // A page that is put away may end before its next turn.
      if (document.visibilityState === 'visible') await pause(share);
      if (workbench.revision() === revision) return;
      givenUp += 1;
      throw new DOMException('Something was typed', 'AbortError');
    });
  };
  const keepNow = async (): Promise<void> => {
    timer = undefined;
    const revision = workbench.revision();
    last = revision;
    await workbench.whole();
    let said = KEPT;
    let started = performance.now();
    try {
      if (workbench.isLarge && document.visibilityState === 'visible') {
        sayKeeping(true);
        await drawn();
      }
      started = performance.now();
      const work = await workOf(revision);
      givenUp = 0;
      const isHidden = document.visibilityState === 'hidden';
      await keep(work, isHidden ? undefined : pausing(undefined, undefined, KEEP_STEP_MS));
    } catch (fault) {
      // Its own turn to be kept is coming.
      if (wasStopped(fault)) return;
      said = `Not kept for your next visit (${sentenceOf(fault)}); save it as a file`;
    } finally {
      sayKeeping(false);
    }
    lasted = performance.now() - started;
    // What was typed meanwhile is not kept yet.
    if (workbench.revision() === revision) sayKept(said);
  };
  workbench.onUpdate(() => {
    if (workbench.isComputing) sayDoing(COMPUTING);
    else if (saidDoing() === COMPUTING) sayDoing();
    if (workbench.revision() === last || workbench.untouchedDemo) return;
    sayKept('');
    clearTimeout(timer);
    const after = Math.min(Math.max(KEEP_AFTER_MS, lasted * KEEP_AFTER_TIMES), MAX_UNKEPT_MS);
    timer = setTimeout(() => void keepNow(), after);
  });
  // A telephone that is put away may end the page without another word.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'hidden' || timer === undefined) return;
    clearTimeout(timer);
    void keepNow();
  });
}

async function openKept(kept: Work): Promise<void> {
  if (!isLargeWork(kept)) await workbench.open(kept);
  else {
    const opening: LongWork<unknown> = (step) =>
      workbench.open(kept, (doing) => step(`${doing} your last work`));
    await longWork('Reading your last work', opening, { canStop: false });
  }
}

async function firstWork(): Promise<void> {
  let kept: Work | undefined;
  try {
    kept = await readKept();
  } catch (fault) {
    sayKept(`This browser keeps nothing between visits (${sentenceOf(fault)})`);
  }
  if (kept) {
    try {
      await openKept(kept);
      sayKept(KEPT);
      return;
    } catch (fault) {
      await note('Your last work cannot be shown', [
        `It is still in this browser, but could not be read: ${sentenceOf(fault)}`,
        'The demo plan is shown instead; your work is replaced only once you change something.',
      ]);
    }
  }
  await workbench.open(await demoWork());
}

/** A way to save, under a name of its own. */
interface Saving {
  readonly make: (from: Workbench) => Steps<SavedFile>;
  readonly name: string;
}
const NEW: Saving = { make: newXlsx, name: 'gillbed.xlsx' };
const NEW_PLAIN: Saving = { make: newPlainXlsx, name: 'gillbed-plain.xlsx' };

/** Saves; where the file that was opened cannot take it, `asNew` is offered. */
async function save({ make, name }: Saving, asNew: Saving): Promise<void> {
  try {
    await workbench.whole();
    const { bytes, losses } = await longWork(`Saving ${name}`, (step) =>
      inSteps(make(workbench), step(`Saving ${name}`)),
    );
    download(name, bytes, XLSX_TYPE);
    if (losses.length > 0) await note('Saved, with these differences', losses);
  } catch (fault) {
    if (wasStopped(fault)) {
      sayEnded('Stopped; nothing was saved');
      return;
    }
    if (!(fault instanceof RefusedChange)) {
      await note('The file could not be made', [sentenceOf(fault)]);
      return;
    }
    const newFile = 'Save as a new file';
    const answer = await note(
      'The file that was opened cannot take this',
      [fault.message, 'A new file takes it, and says what of the old one it leaves out.'],
      [newFile, 'Close'],
    );
    if (answer === newFile) await save(asNew, asNew);
  }
}

/** The name of the file that is on the grid. */
let fileName: string | undefined;

/** A file that was opened can also be saved as a new one. */
function showSaving(): void {
  part('save-new').hidden = workbench.opened === undefined;
}

async function open(file: File): Promise<void> {
  try {
    const { work, notes } = await longWork(`Opening ${file.name}`, async (step) => {
      const { work, notes } = await openFile(file, step(`Reading ${file.name}`));
      const found = await workbench.open(work, (doing) => step(`${doing} ${file.name}`));
      return { work, notes: [...notes, ...found] };
    });
    fileName = work.fresh ? file.name : undefined;
    showSaving();
    if (notes.length > 0) await note('Opened, with these differences', notes);
  } catch (fault) {
    if (wasStopped(fault)) sayEnded('Stopped; what was open is still here');
    else {
      await note(`${file.name} could not be opened`, [
        sentenceOf(fault),
        'What was open is still here.',
      ]);
    }
  }
}

async function startAgain(): Promise<void> {
  const remove = 'Remove my work';
  const answer = await note(
    'Start again with the demo plan?',
    ['What is on the sheets is removed from this browser. Save it first if you need it.'],
    [remove, 'Keep my work'],
  );
  if (answer !== remove) return;
  await workbench.open(await demoWork());
  fileName = undefined;
  showSaving();
  await forget();
  sayKept('');
}

const file = part<HTMLInputElement>('file');
part('open').addEventListener('click', () => file.click());
file.addEventListener('change', () => {
  const [chosen] = file.files ?? [];
  file.value = '';
  if (chosen) void open(chosen);
});
part('save').addEventListener(
  'click',
  () => void save({ make: liveXlsx, name: fileName ?? NEW.name }, NEW),
);
part('save-new').addEventListener('click', () => void save(NEW, NEW));
part('save-plain').addEventListener(
  'click',
  () => void save({ make: plainXlsx, name: NEW_PLAIN.name }, NEW_PLAIN),
);
part('clear').addEventListener('click', () => void startAgain());

const more = part('more');
more.addEventListener('click', () => {
  more.setAttribute('aria-expanded', String(more.getAttribute('aria-expanded') !== 'true'));
  // The grid measures its room anew.
  window.dispatchEvent(new Event('resize'));
});

const paneSwitch = part('pane-switch');
/** A page of the pane that the address names: a phone's home screen opens it at once. */
const firstPage = location.hash.slice(1) || undefined;
function showPane(shown: boolean): void {
  document.body.classList.toggle('show-pane', shown);
  paneSwitch.setAttribute('aria-pressed', String(shown));
  // The grid measures its room when the window tells it to.
  window.dispatchEvent(new Event('resize'));
}
paneSwitch.addEventListener('click', () =>
  showPane(!document.body.classList.contains('show-pane')),
);
if (firstPage !== undefined) showPane(true);

void firstWork().then(async () => {
  showSaving();
  keepAsTimeGoes();
  // The sheets first: the pane follows in its own time.
  const { mountSidebar } = await import('../sidebar');
  mountSidebar(part('pane'), workbenchHost(workbench), firstPage);
  await drawn();
  workbench.beginIdleWork();
});

/** Files that are kept open the page without a network; a browser that keeps none works as before. */
if (isBuilt && 'serviceWorker' in navigator) {
  window.addEventListener('load', () => {
    navigator.serviceWorker.register('service-worker.js').catch(() => undefined);
  });
}
