import { extname } from 'node:path';
import { aheadAsked, type AheadWishes, PLANNED_WEEKS } from '../ahead/asked';
import { fishRowsOfReport, plantingsOfReport } from '../ahead/earlier-report';
import type { GradingWish } from '../ahead/graded-row';
import { bestForBed } from '../ahead/open-bed';
import type { AheadPlanned } from '../ahead/plan-ahead';
import { ownRows } from '../ahead/planner-rows';
import type { Progress } from '../ahead/solver';
import { writtenRows } from '../ahead/written-rows';
import { GillError } from '../core/errors';
import { serialFromIsoText } from '../core/serial-date';
import type { Farm } from '../plan/farm';
import { toMetric } from '../plan/quantities';
import { bedText, fishText, openBedText } from './ahead-text';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { jsonFromFile } from './farm-file';
import { Mistake } from './mistake';
import { planAside } from './plan-aside';
import { readSource, writeRows } from './planned-rows';
import { writeOutputFile } from './workbook-file';

const options = {
  fish: { type: 'boolean' },
  beds: { type: 'boolean' },
  open: { type: 'string' },
  demo: { type: 'boolean' },
  weeks: { type: 'string' },
  seconds: { type: 'string' },
  without: { type: 'string' },
  grade: { type: 'string' },
  spread: { type: 'string' },
  above: { type: 'string' },
  top: { type: 'string' },
  to: { type: 'string' },
  on: { type: 'string' },
  nursery: { type: 'string' },
  rest: { type: 'string' },
  trellis: { type: 'string' },
  rotate: { type: 'boolean' },
  'out-of-season': { type: 'boolean' },
  again: { type: 'string' },
  out: { type: 'string' },
  'take-back': { type: 'boolean' },
  json: { type: 'string' },
  force: { type: 'boolean' },
} as const;

/** A whole number typed after an option. */
function wholeOf(option: string, typed: string, min: number, max: number): number {
  const value = Number(typed);
  if (Number.isInteger(value) && value >= min && value <= max) return value;
  throw new Mistake(`${option} takes a whole number from ${min} to ${max}; got ${typed}.`);
}

const namesIn = (list: string): readonly string[] =>
  list
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** A figure typed after an option. */
function figureOf(option: string, typed: string): number {
  const value = Number(typed);
  if (typed.trim() !== '' && Number.isFinite(value) && value > 0) return value;
  throw new Mistake(`${option} takes a number above 0; got ${typed}.`);
}

/** The grading asked for by --grade and the options that say how. */
function gradingOf(
  { grade, spread, above, top, to, on }: Partial<Record<string, string | boolean>>,
  farm: Farm,
): GradingWish | undefined {
  const text = (value: string | boolean | undefined): string | undefined =>
    typeof value === 'string' ? value : undefined;
  const tank = text(grade);
  if (tank === undefined) {
    const [stray] = Object.entries({ spread, above, top, to, on }).find(
      ([, value]) => value !== undefined,
    ) ?? [undefined];
    if (stray !== undefined) {
      throw new Mistake(`--${stray} says how to grade: add --grade and the name of the tank.`);
    }
    return undefined;
  }
  const [cv, size, share, day] = [spread, above, top, on].map(text);
  if (cv === undefined) {
    throw new Mistake(
      '--grade needs --spread, the coefficient of variation of the weights: 0.25 where a fish of 500 g is off by 125 g.',
    );
  }
  if (size !== undefined && share !== undefined) {
    throw new Mistake('--above and --top say both which fish go: leave out one of them.');
  }
  const date = day === undefined ? undefined : serialFromIsoText(day);
  if (day !== undefined && date === undefined) {
    throw new Mistake(`--on takes a day as yyyy-mm-dd; got ${day}.`);
  }
  const target = text(to);
  return {
    tank,
    spread: figureOf('--spread', cv),
    ...(size !== undefined && {
      above: toMetric(figureOf('--above', size), 'fishWeight', farm.units),
    }),
    ...(share !== undefined && { top: figureOf('--top', share) }),
    ...(target !== undefined && { toTank: target }),
    ...(date !== undefined && { on: date }),
  };
}

/** On a terminal, how far the search is; nothing where the output is a file. */
function told(what: 'fish' | 'beds', { seconds, objective, bound, gap }: Progress): void {
  if (!process.stderr.isTTY) return;
  // Worth is above 0; the programs are minimised.
  const worth = objective === undefined ? 'no plan yet' : `a plan of ${Math.round(-objective)}`;
  const most = bound === undefined ? '' : ` where ${Math.round(-bound)} is the most`;
  const apart = gap === undefined ? '' : `, ${(100 * gap).toFixed(1)} % apart`;
  process.stderr.write(`\r\u001b[K${what}, ${Math.round(seconds)} s: ${worth}${most}${apart}`);
}

function shown({ fish, beds }: AheadPlanned): string {
  return [
    ...(fish ? [fishText(fish.report)] : []),
    ...(fish && beds ? [''] : []),
    ...(beds ? [bedText(beds.report)] : []),
  ].join('\n');
}

/** Plans the weeks to come: fish, beds, or fish and then beds to their feed. */
export const ahead: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  if (more.length > 0)
    throw new Mistake(`ahead takes one farm file or workbook; got ${positionals.length}.`);
  if ((path === undefined) !== (values.demo === true)) {
    throw new Mistake(
      'ahead takes either a farm file or a planning workbook (ahead FARM.json, ahead BOOK.xlsx) or --demo, not both.',
    );
  }
  const { out } = values;
  if (out !== undefined && !['.json', '.xlsx'].includes(extname(out).toLowerCase())) {
    throw new Mistake(`--out takes the name of an .xlsx or a .json file; got ${out}.`);
  }
  if (values['take-back'] === true && out === undefined) {
    throw new Mistake(
      '--take-back writes the file without the rows of the planner: add --out and its name.',
    );
  }
  if (values.open !== undefined && out !== undefined) {
    throw new Mistake('--open writes nothing: leave out --out.');
  }
  const fish = values.fish === true || values.beds !== true;
  const beds = values.beds === true || values.fish !== true;
  const part = fish && beds ? 'both' : fish ? 'fish' : 'beds';
  const { min, max } = PLANNED_WEEKS[part];
  const weeks = wholeOf('--weeks', values.weeks ?? '52', min, max);
  const seconds = wholeOf('--seconds', values.seconds ?? '60', 1, 3600);
  const source = await readSource(path);
  const { farm } = source;
  const writing = { force: values.force === true, ...(path !== undefined && { input: path }) };
  if (values['take-back'] === true && out !== undefined) {
    const own = ownRows(farm, 'all');
    console.log(await writeRows(out, source, own, { fishLog: [], plantings: [] }, writing));
    return 0;
  }
  const wishes: AheadWishes = {
    part,
    weeks,
    seconds,
    without: namesIn(values.without ?? ''),
    rotate: values.rotate === true,
    outOfSeason: values['out-of-season'] === true,
    ...(values.nursery !== undefined && { nursery: wholeOf('--nursery', values.nursery, 0, 1e6) }),
    ...(values.rest !== undefined && { restDays: wholeOf('--rest', values.rest, 0, 60) }),
    ...(values.trellis !== undefined && { trellis: namesIn(values.trellis) }),
  };
  try {
    if (values.open !== undefined) {
      const { min, max } = PLANNED_WEEKS.both;
      const within = { weeks: Math.max(min, Math.min(max, weeks)), part: 'both' } as const;
      const ofBeds = aheadAsked(farm, { ...wishes, ...within }).beds ?? within;
      const { bed, choices } = bestForBed(farm, values.open, ofBeds);
      console.log(openBedText(bed, choices, farm.currency));
      return 0;
    }
    const report = values.again === undefined ? undefined : await jsonFromFile(values.again);
    const grade = gradingOf(values, farm);
    if (grade !== undefined && !fish)
      throw new Mistake('--grade goes with --fish, not with --beds alone.');
    const asked = aheadAsked(farm, {
      ...wishes,
      ...(grade && { grade }),
      ...(beds && report !== undefined && { earlierBeds: plantingsOfReport(report, farm) }),
      ...(fish && report !== undefined && { earlierFish: fishRowsOfReport(report) }),
    });
    const planned = await planAside(asked, told);
    if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
    if (values.json !== undefined) {
      const report = {
        farm: farm.name,
        ...(planned.fish && { fish: planned.fish.report }),
        ...(planned.beds && { beds: planned.beds.report }),
      };
      await writeOutputFile(values.json, `${JSON.stringify(report, undefined, 1)}\n`, writing);
    }
    console.log(shown(planned));
    if (out !== undefined) {
      const own = ownRows(farm, 'ahead');
      const gone = {
        fishLog: planned.fish ? own.fishLog : [],
        plantings: planned.beds ? own.plantings : [],
      };
      const rows = writtenRows(farm, planned.fish?.rows, planned.beds?.plantings);
      console.log(await writeRows(out, source, gone, rows, writing));
    }
  } catch (fault) {
    if (!(fault instanceof GillError)) throw fault;
    throw new Mistake(`${path ?? 'The demo farm'}: ${fault.message}.`);
  }
  return 0;
};
