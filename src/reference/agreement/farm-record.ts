/** How firmly a figure of a published farm stands. */
type Mark = 'read' | 'memory' | 'derived';

interface Stated {
  readonly value: unknown;
  readonly mark: string;
  readonly note?: string;
}

interface Treatment {
  readonly name: string;
  readonly figures?: Readonly<Record<string, Stated>>;
}

/** What a plan should answer about a farm. */
export interface Comparison {
  readonly ask: string;
  /** Several figures are one for each treatment; null where only the bounds of the answer are stated. */
  readonly expected?: number | readonly number[] | null;
  readonly model_over_published?: readonly number[];
  readonly given?: readonly string[];
  readonly note?: string;
}

/** One published system: its figures by name and unit, and what to compare. */
export interface FarmRecord {
  readonly id: string;
  readonly system: string;
  readonly location: string;
  readonly sources?: Readonly<Record<string, string>>;
  readonly figures?: Readonly<Record<string, Stated>>;
  readonly treatments?: readonly Treatment[];
  readonly compare?: readonly Comparison[];
}

/** The words of a comparison that may name a treatment, a species, a month or a weight. */
export const wordsOf = ({ ask, given = [] }: Comparison): string => [ask, ...given].join('; ');

/** Words that tell treatments apart: "Nile", "September", a lone "A". */
const tellingWords = (name: string): string[] =>
  name
    .match(/\b(?:[A-Z](?=,)|[A-Za-z]{3,})\b/g)
    ?.filter(
      (word) => !/^(?:last|harvests|and|with|feed|only|ratio|ratios|tilapia|tomato)$/i.test(word),
    ) ?? [];

/** Figures of a record as a comparison sees them: those of the treatment that it names come first. */
export class Figures {
  readonly #all: readonly Readonly<Record<string, Stated>>[];
  readonly comparison: Comparison;
  readonly place: string;

  constructor({ figures = {}, treatments = [], location }: FarmRecord, comparison: Comparison) {
    const said = wordsOf(comparison);
    const named = treatments.filter(({ name }) =>
      tellingWords(name).some((word) => new RegExp(`\\b${word}\\b`).test(said)),
    );
    const rest = treatments.filter((treatment) => !named.includes(treatment));
    this.#all = [
      ...named.map((treatment) => treatment.figures ?? {}),
      figures,
      ...rest.map((treatment) => treatment.figures ?? {}),
    ];
    this.comparison = comparison;
    this.place = location;
  }

  #stated(name: string): Stated | undefined {
    return this.#all.find((figures) => figures[name] !== undefined)?.[name];
  }

  /** A number; the middle of a range; undefined where the record has none. */
  number(...names: readonly string[]): number | undefined {
    for (const name of names) {
      const value = this.#stated(name)?.value;
      if (typeof value === 'number') return value;
      if (Array.isArray(value) && value.every((item) => typeof item === 'number')) {
        return value.reduce((sum: number, value: number) => sum + value, 0) / value.length;
      }
    }
    return undefined;
  }

  text(name: string): string | undefined {
    const value = this.#stated(name)?.value;
    return typeof value === 'string' ? value : undefined;
  }

  markOf(name: string): Mark | undefined {
    return this.#stated(name)?.mark as Mark | undefined;
  }

  /** Where and what: all words that tell species, crop, kind of bed and season. */
  get said(): string {
    return wordsOf(this.comparison);
  }
}
