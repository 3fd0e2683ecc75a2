/**
 * A farm played week by week through the registers of its workbook alone, beside a ledger that knows nothing of
 * sheets: heads and kilograms of fish, what stands in each bed, and what came in. Growth between two weighings is the
 * model's, whose own tests hold it; all else here is counted. The events are invented.
 */
import { isoText } from '../../src/core/serial-date';
import { warmthBetween } from '../../src/core/month-water';
import type { Species } from '../../src/core/tables/species';
import { speciesTable } from '../../src/functions/species-table';
import { openBook } from '../../src/ooxml/open-book';
import { typedIntoBook } from '../../src/ooxml/typed-into-book';
import type { Farm } from '../../src/plan/farm';
import { type BookReading, readBook, type TypedPlace } from '../../src/plan/read-book';

type Value = string | number;
type Row = Readonly<Record<string, Value>>;
type List = 'fishLog' | 'plantings' | 'harvests';

interface Basin {
  fish: number;
  /** g */
  weight: number;
  /** Day of the last row that weighed or mixed them. */
  since: number;
}

interface Standing {
  readonly crop: string;
  readonly plants: number;
  readonly area: number;
}

/** What a workbook is to say of a day. */
export interface Balance {
  readonly tanks: ReadonlyMap<string, { readonly fish: number; readonly biomass: number }>;
  readonly beds: ReadonlyMap<string, Standing>;
  readonly area: number;
  readonly income: number;
  readonly fishIncome: number;
}

const LETTUCE_WEEKS = 5;
const CROPS = ['lettuce', 'basil', 'Swiss chard'] as const;
const PRICES = { lettuce: 1.2, basil: 1.6, 'Swiss chard': 1.9 } as const;
const UNITS = { lettuce: 'piece', basil: 'bunch', 'Swiss chard': 'bunch' } as const;
const FISH_PRICE = 7.5;

/** The ledger, and the rows that tell the registers the same. */
export class PlayedYear {
  private readonly basins = new Map<string, Basin>();
  private readonly beds = new Map<
    string,
    Standing & { readonly batch: string; readonly since: number }
  >();
  private income: number;
  private fishIncome: number;
  private readonly typed: { list: List; row: Row }[] = [];
  /** Fields of rows that were typed before: by batch. */
  private readonly ended: { batch: string; row: Row }[] = [];
  private batches = 0;

  constructor(
    private readonly farm: Farm,
    private day: number,
  ) {
    const sum = (kind: (crop: string) => boolean): number =>
      farm.harvests.reduce(
        (all, { crop, quantity, price }) => all + (kind(crop) ? quantity * price : 0),
        0,
      );
    this.income = sum(() => true);
    this.fishIncome = sum((crop) => speciesTable.book.find(crop) !== undefined);
  }

  private type(list: List, row: Row): void {
    this.typed.push({ list, row: { date: this.day, ...row } });
  }

  private warmth(from: number, to: number): number {
    const kind = speciesTable.book.find(this.farm.tanks[0]?.species ?? '') as Species;
    const coefficient = kind.facts.tgc[0];
    return (
      (coefficient / 1000) *
      warmthBetween(
        kind,
        this.farm.months.map(({ water }) => water ?? NaN),
        from,
        to,
      )
    );
  }

  private grown({ weight, since }: Basin, day: number): number {
    return weight === 0 ? 0 : (Math.cbrt(weight) + this.warmth(since, day)) ** 3;
  }

  /** The basin with its fish as they weigh today. */
  private today(name: string): Basin {
    const basin = this.basins.get(name) ?? { fish: 0, weight: 0, since: this.day };
    basin.weight = this.grown(basin, this.day);
    basin.since = this.day;
    this.basins.set(name, basin);
    return basin;
  }

  /** All tanks are counted and weighed, so that both books begin alike. */
  begin(): void {
    this.farm.tanks.forEach(({ name, fish }, i) => {
      const basin = this.today(name);
      basin.fish = fish > 0 ? fish : 0;
      basin.weight = fish > 0 ? 120 + 110 * i : 0;
      if (fish > 0)
        this.type('fishLog', { tank: name, what: 'counted', fish, weight: basin.weight });
    });
  }

  private died(name: string, fish: number): void {
    const basin = this.today(name);
    if (basin.fish <= fish) return;
    basin.fish -= fish;
    this.type('fishLog', { tank: name, what: 'died', fish });
  }

  private sold(name: string, fish: number, weight?: number): void {
    const basin = this.today(name);
    const each = weight ?? basin.weight;
    const mass = basin.fish * basin.weight - fish * each;
    basin.fish -= fish;
    basin.weight = basin.fish > 0 ? mass / basin.fish : 0;
    this.type('fishLog', {
      tank: name,
      what: 'sold',
      fish,
      ...(weight !== undefined && { weight }),
    });
    const kilograms = Number(((fish * each) / 1000).toFixed(1));
    this.sell(this.farm.tanks[0]?.species ?? '', kilograms, 'kg', FISH_PRICE, name);
    this.fishIncome += kilograms * FISH_PRICE;
  }

  private sell(crop: string, quantity: number, unit: string, price: number, bed: string): void {
    this.income += quantity * price;
    this.type('harvests', { crop, bed, quantity, unit, price });
  }

  private moved(from: string, to: string, fish: number, weight?: number): void {
    const [a, b] = [this.today(from), this.today(to)];
    const each = weight ?? a.weight;
    const left = a.fish * a.weight - fish * each;
    b.weight = (b.fish * b.weight + fish * each) / (b.fish + fish);
    b.fish += fish;
    a.fish -= fish;
    a.weight = a.fish > 0 ? left / a.fish : 0;
    this.type('fishLog', {
      tank: from,
      what: 'moved',
      toTank: to,
      fish,
      ...(weight !== undefined && { weight }),
    });
  }

  private weighed(name: string, share: number): void {
    const basin = this.today(name);
    if (basin.fish === 0) return;
    basin.weight = Number((basin.weight * share).toFixed(1));
    this.type('fishLog', { tank: name, what: 'weighed', fish: 12, weight: basin.weight });
  }

  private stocked(name: string, fish: number, weight: number): void {
    const basin = this.today(name);
    basin.weight = (basin.fish * basin.weight + fish * weight) / (basin.fish + fish);
    basin.fish += fish;
    this.type('fishLog', {
      tank: name,
      what: 'stocked',
      fish,
      weight,
      lot: `${isoText(this.day)} played`,
    });
  }

  private plant(bed: Farm['beds'][number], crop: (typeof CROPS)[number]): void {
    this.batches += 1;
    const batch = `played ${this.batches}`;
    const plants = 90 + (this.batches % 7) * 10;
    this.beds.set(bed.name, { crop, plants, area: bed.length * bed.width, batch, since: this.day });
    const { day } = this;
    this.typed.push({
      list: 'plantings',
      row: {
        batch,
        crop,
        seeds: plants + 20,
        sown: day - 21,
        up: day - 17,
        bed: bed.name,
        plants,
        planted: day,
      },
    });
  }

  private clear(bed: string): void {
    const standing = this.beds.get(bed);
    if (!standing) return;
    this.beds.delete(bed);
    const crop = standing.crop as (typeof CROPS)[number];
    this.ended.push({ batch: standing.batch, row: { firstCut: this.day, cleared: this.day } });
    this.sell(crop, standing.plants - 6, UNITS[crop], PRICES[crop], bed);
  }

  /** One week of work, on one day. */
  week(number: number, tanks: readonly string[], beds: Farm['beds']): void {
    this.day += 7;
    const at = (place: number): string => tanks[place % tanks.length] as string;
    this.died(at(number), 1 + (number % 3));
    if (number % 4 === 1) this.weighed(at(number + 1), 0.98 + (number % 5) * 0.01);
    if (number % 9 === 5) {
      const from = at(number + 2);
      if (this.today(from).fish > 200)
        this.moved(
          from,
          at(number + 3),
          60,
          number % 2 === 0 ? Math.round(this.today(from).weight * 1.1) : undefined,
        );
    }
    if (number % 2 === 0) {
      const heaviest = [...this.basins]
        .filter(([, { fish }]) => fish > 0)
        .sort(([a], [b]) => this.today(b).weight - this.today(a).weight)[0];
      if (heaviest) {
        const [name, { fish, weight }] = heaviest;
        const all = fish <= 120;
        this.sold(
          name,
          all ? fish : 80,
          !all && number % 4 === 0 ? Math.round(weight * 1.05) : undefined,
        );
      }
    }
    const empty = tanks.find((name) => this.today(name).fish === 0);
    if (empty !== undefined && number % 3 === 0) this.stocked(empty, 500 + number, 50);
    beds.forEach((bed, i) => {
      const standing = this.beds.get(bed.name);
      if (standing && this.day - standing.since >= 7 * (LETTUCE_WEEKS + (i % 3)))
        this.clear(bed.name);
      else if (!standing && (number + i) % 4 === 0)
        this.plant(bed, CROPS[(number + i) % CROPS.length] ?? 'lettuce');
    });
  }

  get date(): number {
    return this.day;
  }

  balance(): Balance {
    const tanks = new Map(
      [...this.basins].map(([name, basin]) => [
        name,
        { fish: basin.fish, biomass: (basin.fish * this.grown(basin, this.day)) / 1000 },
      ]),
    );
    const beds = new Map(
      [...this.beds].map(([name, { crop, plants, area }]) => [name, { crop, plants, area }]),
    );
    return {
      tanks,
      beds,
      area: [...beds.values()].reduce((sum, { area }) => sum + area, 0),
      income: this.income,
      fishIncome: this.fishIncome,
    };
  }

  /** What was written down since the last time, typed into the registers of a workbook. */
  typeInto(bytes: Uint8Array): Uint8Array {
    const reading = readBook(openBook(bytes));
    const cells = [
      ...(['fishLog', 'plantings', 'harvests'] as const).flatMap((list) =>
        this.rowsInto(reading, list),
      ),
      ...this.endings(reading),
    ];
    this.typed.length = 0;
    return typedIntoBook(bytes, cells, [...reading.places.values()]);
  }

  private rowsInto({ free }: BookReading, list: List) {
    const lines = free.get(list) ?? [];
    const rows = this.typed.filter((one) => one.list === list);
    if (rows.length > lines.length) throw new Error(`${list} has no line for ${rows.length} rows`);
    return rows.flatMap(({ row }, i) =>
      [...(lines[i] ?? new Map<string, TypedPlace>())].flatMap(([field, place]) =>
        row[field] === undefined ? [] : [{ ...place, value: row[field] }],
      ),
    );
  }

  /** Batches that were cut: those typed this time in their new line, the others in their own. */
  private endings({ file, places, free }: BookReading) {
    const rows = (file['plantings'] ?? []) as readonly Record<string, unknown>[];
    const fresh = this.typed.filter(({ list }) => list === 'plantings');
    const found = this.ended.flatMap(({ batch, row }) => {
      const old = rows.findIndex((one) => one['batch'] === batch);
      const line = fresh.findIndex((one) => one.row['batch'] === batch);
      return Object.entries(row).map(([field, value]) => {
        const place =
          old >= 0
            ? places.get(`plantings[${old}].${field}`)
            : free.get('plantings')?.[line]?.get(field);
        if (!place) throw new Error(`The batch ${batch} stands in no line`);
        return { ...place, value };
      });
    });
    this.ended.length = 0;
    return found;
  }
}

/** The workbook of a farm as the played year finds it: what stood in its beds is cleared, what was planned is not done. */
export function cleared(bytes: Uint8Array, day: number): Uint8Array {
  const reading = readBook(openBook(bytes));
  const rows = (reading.file['plantings'] ?? []) as readonly Record<string, unknown>[];
  const log = (reading.file['fishLog'] ?? []) as readonly Record<string, unknown>[];
  const into = (path: string, value: Value) => {
    const place = reading.places.get(path);
    if (!place) throw new Error(`${path} has no cell`);
    return { ...place, value };
  };
  const cells = [
    ...rows.flatMap((row, i) => {
      if (row['planned'] === 'planned') return [into(`plantings[${i}].planned`, 'not done')];
      if (row['planned'] !== undefined) return [];
      const end = row['cleared'];
      return end === undefined || String(end) > isoText(day)
        ? [into(`plantings[${i}].cleared`, day)]
        : [];
    }),
    ...log.flatMap((row, i) =>
      row['planned'] === 'planned' ? [into(`fishLog[${i}].planned`, 'not done')] : [],
    ),
  ];
  return typedIntoBook(bytes, cells, [...reading.places.values()]);
}
