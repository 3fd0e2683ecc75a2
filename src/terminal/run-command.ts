import { nearestName } from '../core/nearest-name';
import type { Command } from './command';
import { Mistake } from './mistake';

interface Entry {
  readonly usage: string;
  readonly does: string;
  /** Commands are loaded when asked for, so that each starts as quickly as it can. */
  readonly load: () => Promise<Command>;
}

const commands: Readonly<Record<string, Entry>> = {
  ask: {
    usage: "ask 'GILL.AMMONIA.UNIONISED(1,8,25)'",
    does: 'computes one formula and prints its value; a block of cells as tab-separated rows',
    load: async () => (await import('./ask-command')).ask,
  },
  functions: {
    usage: 'functions [FUNCTION] [--json]',
    does: 'lists the functions, or tells all about one',
    load: async () => (await import('./functions-command')).functions,
  },
  check: {
    usage: 'check FILE.xlsx [--json]',
    does: 'says what in a workbook is out of range, out of order or mistyped',
    load: async () => (await import('./check-command')).check,
  },
  why: {
    usage: "why BOOK.xlsx 'Balance!B8' [--all] [--json]   (or a defined name for the cell)",
    does: 'says why a number stands in a cell: what it is made of, down to what was typed and who published it, and which typed numbers move it most',
    load: async () => (await import('./why-command')).why,
  },
  trace: {
    usage: 'trace BOOK.xlsx|FARM.json LOT|DAY [--out TRACE.html | --json] [--force]',
    does: 'says where a lot of fish, a batch of plants or what was cut and sold on a day came from, where it was, with which tests and treatments, and to whom it went; --out writes a page to print',
    load: async () => (await import('./trace-command')).trace,
  },
  handover: {
    usage: 'handover IN.xlsx --out OUT.xlsx [--values] [--fold] [--typed-only] [--force]',
    does: 'writes a copy that needs no Gillbed, and lists what became of each formula; --fold hides the sheets that are added; --typed-only leaves open what is typed and protects the rest, without a password',
    load: async () => (await import('./hand-over-command')).handover,
  },
  returned: {
    usage: 'returned OWN.xlsx BACK.xlsx [--out NEW.xlsx] [--json] [--force]',
    does: 'lists what was typed otherwise in a copy that came back, by label, old, new and unit; --out writes your own workbook with it',
    load: async () => (await import('./returned-command')).returned,
  },
  repair: {
    usage: 'repair IN.xlsx --out OUT.xlsx [--force]',
    does: 'writes a copy in which GILL formulas that show #NAME? work again',
    load: async () => (await import('./hand-over-command')).repair,
  },
  plan: {
    usage:
      'plan FARM.json --out PLAN.xlsx [--plain | --add-in WHERE] [--force]   (or --demo for FARM.json)',
    does: "writes the planning workbook of a farm; --plain with the spreadsheet's own functions only; --add-in offers Gillbed's pane to who opens it, from organisation, sideloaded or a shared folder",
    load: async () => (await import('./plan-command')).plan,
  },
  size: {
    usage:
      'size WISH.json [--out FARM.json] [--json REPORT.json] [--alternative fewer-tanks|gravel|rafts] [--force]',
    does: 'sizes a farm for what is to be sold: tanks, fish to order, feed, beds, nursery, filter, pumps, sump and air, each with its reason, and says which wish gives way and by how much; with "have" (such as "24 rafts of 7.2 x 1.2 m") what is there and what it can sell. --out writes the farm file, in which everything that nobody said is marked as preset',
    load: async () => (await import('./size-command')).size,
  },
  variants: {
    usage:
      'variants WISH.json|FARM.json|PLAN.xlsx --out VARIANTS.xlsx [--plain] [--force]   (or --demo);   variants VARIANTS.xlsx --choose 2 --out PLAN.xlsx|FARM.json',
    does: 'lays up to five farms side by side in one sheet: what differs is typed, what follows is computed by formulas, what limits each is said; the first column is the wish or what the plan wants, the others are other ways to it, to be typed over. --choose makes the plan, or the farm file, of one column',
    load: async () => (await import('./variants-command')).variants,
  },
  farm: {
    usage: 'farm BOOK.xlsx --out FARM.json [--force]',
    does: 'reads the farm from the typed cells of a planning workbook, or says which cell is wrong and what would be right',
    load: async () => (await import('./farm-command')).farm,
  },
  'own-figures': {
    usage:
      'own-figures BOOK.xlsx|FARM.json [--json] [--take "lettuce: bed_days = blend" ... --out FARM2.json|BOOK2.xlsx] [--few] [--force]',
    does: "lists the farm's own figures from its registers beside the table's: growth, survival, days of each stage, plants from a seed, yield, prices, each with its number of batches and how far it can be trusted; --take has one count in a farm file, or in a copy of the workbook: as it is (own), weighed against the table (blend), or the table's again (table); --few says that fewer than five batches are enough",
    load: async () => (await import('./own-figures-command')).ownFigures,
  },
  chances: {
    usage:
      'chances BOOK.xlsx|FARM.json [--weeks 52] [--years 1000] [--seed 1] [--spread "yield = 15, 5"] [--out BOOK2.xlsx [--force]] [--json]',
    does: 'plays the weeks to come many times with growth, deaths, seeds, days, yields and prices as far from the plan as the own records (or stated spreads) say: fish sold, market weeks served, feed against beds and income as a band, and which of these moves it most',
    load: async () => (await import('./chances-command')).chances,
  },
  renew: {
    usage:
      'renew BOOK.xlsx --out BOOK2.xlsx [--tanks 8] [--beds 60] [--day 2027-01-01] [--farm FARM.json] [--plain | --live] [--yes] [--force]',
    does: 'renews the plan of a workbook, of this or an earlier version, with more tanks or beds (so many in all, the new ones like the last), another day or a changed farm file: into the same sheets, with every typed cell, own columns and sheets, and own formulas that go on pointing at the same cells. What cannot be kept is listed, and nothing is written until --yes says so',
    load: async () => (await import('./renew-command')).renew,
  },
  report: {
    usage:
      'report BOOK.xlsx|FARM.json --out REPORT.html [--paper A4|Letter] [--client NAME] [--logo PICTURE] [--force]',
    does: 'writes a page for a client, ready to be printed: the farm on one page, what comes out, calendar, water, purchases, money, what it rests on, cautions',
    load: async () => (await import('./report-command')).report,
  },
  ahead: {
    usage:
      'ahead FARM.json|BOOK.xlsx [--fish | --beds | --open BED] [--weeks 52] [--out FARM2.json|BOOK2.xlsx] [--json REPORT.json] [--again REPORT.json] [--without "Tank 6, R01"] [--grade TANK --spread 0.25 [--top 0.33 | --above WEIGHT] [--to TANK] [--on DAY]] [--nursery SEEDLINGS] [--rest DAYS] [--trellis "G01, G02"] [--rotate] [--out-of-season] [--seconds 60] [--force]   (or --demo for FARM.json); ahead FARM.json|BOOK.xlsx --take-back --out FILE',
    does: 'plans the weeks to come: when to stock, move and sell fish, so that no tank passes its limit and sales are even; which crop goes into which bed when, so that the market is served; without --fish and --beds both, the beds to the feed of the fish; says how far the plan can be from the best. --out writes the plan as planned rows into a copy of the file, in which rows typed by hand stay as they are and untouched rows of an earlier plan make room; --take-back takes all rows out that the planner wrote and nobody touched. --again keeps to the beds of an earlier report and says what changes; --open: the three best crops for one bed now. Ctrl-C ends with the best plan found so far',
    load: async () => (await import('./ahead-command')).ahead,
  },
};

const help = (): string =>
  [
    'Gillbed: worksheet functions and a planning workbook for fish and vegetables on one body of water.',
    '',
    'npm run --silent gillbed -- COMMAND',
    '',
    ...Object.values(commands).flatMap(({ usage, does }) => [`  ${usage}`, `      ${does}`]),
    '',
    'Exit status: 0 when all is well, 1 when the answer is an error, 2 when the command was wrong.',
  ].join('\n');

async function run([name, ...args]: readonly string[]): Promise<number> {
  if (name === undefined || ['help', '--help', '-h'].includes(name)) {
    console.log(help());
    return name === undefined ? 2 : 0;
  }
  const entry = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (!entry) {
    const near = nearestName(name, Object.keys(commands));
    throw new Mistake(`There is no command ${name}; did you mean ${near}? "help" lists them all.`);
  }
  if (args.some((word) => word === '--help' || word === '-h')) {
    console.log(`${entry.usage}\n    ${entry.does}`);
    return 0;
  }
  return (await entry.load())(args);
}

/** Runs a command and gives its exit status; what was wrong with the words goes to standard error. */
export async function runCommand(words: readonly string[]): Promise<number> {
  try {
    return await run(words);
  } catch (thrown) {
    if (!(thrown instanceof Mistake)) throw thrown;
    console.error(thrown.message);
    return 2;
  }
}
