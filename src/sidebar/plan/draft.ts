import { type Farm, FarmFileError, type FarmSoFar, readFarm, readFarmSoFar } from '../../plan/farm';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** "tanks[2].fish" as its keys. */
export const keysOf = (path: string): (string | number)[] =>
  [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((match) =>
    match[2] === undefined ? (match[1] as string) : Number(match[2]),
  );

type Holder = Record<string | number, Json | undefined>;

/** What the schema said of one field: its path and the sentence without it. */
export interface Wrong {
  readonly path: string;
  readonly sentence: string;
  /** Nothing has been entered there. */
  readonly missing: boolean;
  /** The cell of which the sentence speaks. */
  readonly where?: { readonly sheet: string; readonly address: string };
}

function wrongOf(line: string): Wrong {
  const [, path = '', rest = line] = /^(\S+) (.*)$/s.exec(line) ?? [];
  const missing = /(?:^is missing|; it is missing|; got "")$/.test(rest);
  const sentence = rest.replace(/; (?:it is missing|got "")$/, '');
  return { path, sentence: sentence.charAt(0).toUpperCase() + sentence.slice(1), missing };
}

export interface Checked {
  /** The farm where nothing is wrong. */
  readonly farm: Farm | undefined;
  /** What is complete where something is wrong. */
  readonly soFar: FarmSoFar;
  readonly wrong: readonly Wrong[];
}

/** What fields and lists are besides, where they are cells of a workbook. */
export interface FieldsOfBook {
  follows(path: string): Json | undefined;
  fixed(path: string): string | undefined;
  settled(path: string): boolean;
  finished(paths: readonly string[]): void;
  closed(list: string): string | undefined;
  kept(list: string): string | undefined;
}

/** A farm file while it is being filled in: any of its fields may be missing or wrong. */
export class Draft {
  private readonly listeners = new Set<() => void>();
  /** What an open workbook adds, where the farm is its. */
  protected readonly book: FieldsOfBook | undefined = undefined;

  constructor(protected json: Json) {}

  /** Whether the farm is that of the open workbook, whose cells are typed into. */
  get isOfBook(): boolean {
    return this.book !== undefined;
  }

  /** What a field shows: what it holds, or what follows from elsewhere. */
  shown(path: string): Json | undefined {
    return this.get(path) ?? this.book?.follows(path);
  }

  /** Why a field is not typed into here; undefined where it is. */
  fixed(path: string): string | undefined {
    return this.book?.fixed(path);
  }

  /** Whether what a field shows is all that was typed into it. */
  settled(path: string): boolean {
    return this.book?.settled(path) ?? false;
  }

  /** Somebody has finished typing into fields. A farm file takes each key as it comes. */
  finished(paths: readonly string[]): void {
    this.book?.finished(paths);
  }

  /** Why no row comes into a list here; undefined where one does. */
  closed(list: string): string | undefined {
    return this.book?.closed(list);
  }

  /** Why a row of a list cannot go here; undefined where it can. */
  kept(list: string): string | undefined {
    return this.book?.kept(list);
  }

  get(path: string): Json | undefined {
    let at: Json | undefined = this.json;
    for (const key of keysOf(path)) {
      if (typeof at !== 'object' || at === null) return undefined;
      at = (at as Holder)[key];
    }
    return at;
  }

  /** Sets a field; undefined takes it out of the file. */
  set(path: string, value: Json | undefined): void {
    const keys = keysOf(path);
    const last = keys.pop();
    if (last === undefined) return;
    let at = this.json as Holder;
    for (const key of keys) {
      if (typeof at[key] !== 'object' || at[key] === null) at[key] = {};
      at = at[key] as Holder;
    }
    if (value === undefined) delete at[last];
    else at[last] = value;
    this.changed();
  }

  list(path: string): Json[] {
    const found = this.get(path);
    return Array.isArray(found) ? found : [];
  }

  add(path: string, row: Json): void {
    this.set(path, [...this.list(path), row]);
  }

  remove(path: string, index: number): void {
    this.set(
      path,
      this.list(path).filter((_, i) => i !== index),
    );
  }

  replace(json: Json): void {
    this.json = json;
    this.changed();
  }

  /** The farm file as it stands. */
  file(): string {
    return JSON.stringify(this.json, undefined, 2);
  }

  onChange(listener: () => void): void {
    this.listeners.add(listener);
  }

  /** Reads the file as the plan would. */
  check(): Checked {
    try {
      const farm = readFarm(this.json);
      return { farm, soFar: readFarmSoFar(this.json), wrong: [] };
    } catch (thrown) {
      if (thrown instanceof FarmFileError) {
        return {
          farm: undefined,
          soFar: readFarmSoFar(this.json),
          wrong: thrown.wrong.map(wrongOf),
        };
      }
      throw thrown;
    }
  }

  protected changed(): void {
    for (const listener of this.listeners) listener();
  }
}
