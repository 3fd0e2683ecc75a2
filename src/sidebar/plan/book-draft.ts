import { isoText } from '../../core/serial-date';
import { cellAddress } from '../../plan/addresses';
import type { CellPlace } from '../../plan/book-snapshot';
import { type CellChange, cellsForFields, whyNotTyped } from '../../plan/change-typed';
import { readFarmSoFar, wholeFarm } from '../../plan/farm';
import { toShown } from '../../plan/quantities';
import { type BookReading, isOfPlan } from '../../plan/read-book';
import type { OpenFarm } from '../open-farm';
import { type Checked, Draft, type Json, type Wrong } from './draft';

/** The farm of the open workbook: what its cells say, and what was typed into the form and is not in a cell yet. */

/** What stands in a tank or a bed on the day of the plan, in the farm's own units. */
function following({ farm, units }: BookReading, path: string): Json | undefined {
  const [, list, at, field = ''] = /^(tanks|beds)\[(\d+)\]\.(\w+)$/.exec(path) ?? [];
  if (!farm || list === undefined) return undefined;
  const line = farm[list as 'tanks' | 'beds'][Number(at)] as Record<string, unknown> | undefined;
  const value = line?.[field] as number | string | undefined;
  if (typeof value !== 'number') return value;
  if (field === 'weight') return Number(toShown(value, 'fishWeight', units).toPrecision(4));
  return field === 'fish' || field === 'plants' ? value : isoText(Math.floor(value));
}

interface Typing {
  readonly value: Json | undefined;
  /** What the cell held when somebody began to type. */
  readonly before: string;
  /** Why it did not go into the cell. */
  refused?: string;
}

const textOf = (value: unknown): string => (value === undefined ? '' : JSON.stringify(value));
const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const keyOf = ({ sheet, row, column }: CellPlace): string =>
  `${sheet.toLowerCase()}!${row},${column}`;

/** Lists whose lines are laid out with the plan; others have prepared lines. */
const laidOut: Readonly<Record<string, string>> = { tanks: 'tank', beds: 'bed' };

export class BookDraft extends Draft {
  private readonly typing = new Map<string, Typing>();
  /** Lists that show their next prepared line, and how many lines were filled then. */
  private readonly next = new Map<string, number>();
  private pathAt = new Map<string, string>();
  protected override readonly book = {
    follows: (path: string) => this.follows(path),
    fixed: (path: string) => whyNotTyped(this.open.reading, path),
    settled: (path: string) => !this.typing.has(path),
    finished: (paths: readonly string[]) => this.take(paths),
    closed: (list: string) => this.closedList(list),
    kept: (list: string) => this.keptRow(list),
  };

  /**
   * @param write types into cells, all in one step, and reads the workbook again
   * @param failed gets what could not be written
   */
  constructor(
    private open: OpenFarm,
    private readonly write: (cells: readonly CellChange[]) => Promise<void>,
    private readonly failed: (says: string) => void,
  ) {
    super({});
    this.follow(open);
  }

  /** The workbook as it stands now; what was typed here and is in no cell yet stays. */
  follow(open: OpenFarm): void {
    this.open = open;
    const { file, places } = open.reading;
    this.json = structuredClone(file) as Json;
    this.pathAt = new Map([...places].map(([path, place]) => [keyOf(place), path]));
    for (const [list, filled] of this.next) {
      if (this.list(list).length === filled) super.set(list, [...this.list(list), {}]);
      else this.next.delete(list);
    }
    for (const [path, { value, before }] of this.typing) {
      if (textOf(this.get(path)) === before) super.set(path, value);
      // Somebody typed into the cell meanwhile: it is the cell that counts.
      else this.typing.delete(path);
    }
    this.changed();
  }

  override set(path: string, value: Json | undefined): void {
    const before = this.typing.get(path)?.before ?? textOf(this.get(path));
    this.typing.set(path, { value, before });
    super.set(path, value);
  }

  /** Shows the next prepared line of a list, whose fields are typed into its cells one by one. */
  override add(list: string): void {
    if (this.next.has(list)) return;
    this.next.set(list, this.list(list).length);
    super.set(list, [...this.list(list), {}]);
  }

  /** Empties the typed cells of a line. */
  override remove(list: string, index: number): void {
    for (const path of this.typing.keys())
      if (path.startsWith(`${list}[`)) this.typing.delete(path);
    if (this.next.get(list) === index) {
      this.next.delete(list);
      this.follow(this.open);
      return;
    }
    const line = Object.keys((this.list(list)[index] ?? {}) as object);
    const { places } = this.open.reading;
    const cells = line.flatMap((field): CellChange[] => {
      const place = places.get(`${list}[${index}].${field}`);
      if (!place || place.formula !== undefined) return [];
      const { sheet, row, column } = place;
      return [{ sheet, row, column, value: undefined }];
    });
    this.enter(cells);
  }

  private follows(path: string): Json | undefined {
    if (this.typing.has(path)) return undefined;
    const { reading } = this.open;
    const place = reading.places.get(path);
    if (place?.formula !== undefined && isOfPlan(place.formula)) return place.value;
    return following(reading, path);
  }

  private closedList(list: string): string | undefined {
    const place = laidOut[list];
    if (place !== undefined)
      return `A ${place} has lines on several sheets, which the form does not lay out: renew the plan, below.`;
    return (this.open.reading.free.get(list)?.length ?? 0) > 0
      ? undefined
      : 'No prepared line is left on the sheet: renew the plan, below, which brings new ones.';
  }

  private keptRow(list: string): string | undefined {
    const place = laidOut[list];
    return place === undefined
      ? undefined
      : `Which cells, and which rows of the registers, go with the ${place} is for you to say: clear its lines on the sheets, then renew the plan, below.`;
  }

  private take(paths: readonly string[]): void {
    const changed = paths.filter((path) => {
      const typed = this.typing.get(path);
      if (typed === undefined) return false;
      if (textOf(typed.value) !== typed.before) return true;
      this.typing.delete(path);
      return false;
    });
    if (changed.length === 0) {
      this.changed();
      return;
    }
    const { reading, cells } = this.open;
    const changes = changed.map((path) => ({ path, value: this.get(path) }));
    const answer = cellsForFields(reading, changes, cells.dayShift ?? 0);
    if ('refused' in answer) {
      for (const path of changed) {
        const typed = this.typing.get(path);
        if (typed) typed.refused = answer.refused;
      }
      this.changed();
      return;
    }
    for (const path of changed) this.typing.delete(path);
    this.enter(answer.cells);
  }

  private enter(cells: readonly CellChange[]): void {
    void this.write(cells).catch((fault: unknown) =>
      this.failed(`Nothing was written: ${(fault as Error).message}`),
    );
  }

  override check(): Checked {
    const { reading } = this.open;
    const wrong = new Map<string, Wrong>();
    for (const [path, { refused }] of this.typing)
      if (refused !== undefined)
        wrong.set(path, { path, sentence: `Not written: ${refused}`, missing: false });
    for (const { sheet, row, column, what } of reading.faults) {
      const isCell = sheet !== undefined && row !== undefined && column !== undefined;
      const found = isCell ? this.pathAt.get(keyOf({ sheet, row, column })) : undefined;
      const path = found ?? '';
      if (this.typing.has(path)) continue;
      const where = isCell ? { sheet, address: cellAddress(row, column) } : undefined;
      const key = found ?? `${where ? `${where.sheet}!${where.address}` : ''} ${what}`;
      if (wrong.has(key)) continue;
      wrong.set(key, { path, sentence: upper(what), missing: false, ...(where && { where }) });
    }
    return {
      farm: reading.farm,
      soFar: reading.farm ? wholeFarm(reading.farm) : readFarmSoFar(reading.file),
      wrong: [...wrong.values()],
    };
  }

  /** The farm file as the cells have it, without what is in no cell. */
  override file(): string {
    return JSON.stringify(this.open.reading.file, undefined, 2);
  }
}
