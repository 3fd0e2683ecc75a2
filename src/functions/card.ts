import type { GillError } from '../core/errors';
import { type CautionId, cautions } from './cautions';
import type { Formula } from './formula';
import type { Parameter } from './parameter';
import type { UnitId } from './units';

/** What one cell of a result holds. */
export type Value = number | string;
export type Outcome = Value | GillError;

/** Where a method or figure was published. */
export interface Source {
  readonly author: string;
  readonly year: number | string;
  readonly title: string;
  /** Table, equation, section or page. */
  readonly where?: string;
  /**
   * What supports it: `read` in the publication or a reprint; `memory`, recalled and not seen;
   * `common practice`, usage of the trade without one citable figure; `definition`, plain arithmetic.
   */
  readonly evidence: 'read' | 'memory' | 'common practice' | 'definition';
}

export interface Example {
  /** As typed in a formula, left-out ones as null. */
  readonly args: readonly (number | string | null)[];
  /** One value, or for a spilling card its first rows. */
  readonly result: Value | readonly (readonly Value[])[];
  /** Largest absolute difference; without it 1e-9 of the value. */
  readonly tolerance?: number;
  /** What the example says, in a grower's words; names its publication where it has one. */
  readonly says: string;
}

/** What the arithmetic of a card receives for each parameter. */
type Values<P extends readonly Parameter<string, unknown>[]> = {
  [K in keyof P]: P[K] extends Parameter<string, infer T> ? T : never;
};

/** What a plain equivalent receives: a formula text for each parameter, by name. */
export type PlainTexts<P extends readonly Parameter<string, unknown>[]> = {
  readonly [K in P[number] as K['name']]: K extends Parameter<string, infer T>
    ? undefined extends T
      ? string | undefined
      : string
    : never;
};

/** Address of the cell that holds row `row` and column `column` of the same spill (from 0). */
export type SpillAddress = (row: number, column: number) => string;

interface CommonSpec<P extends readonly Parameter<string, unknown>[]> {
  /** Without the namespace: FEED.DAY. Stored in workbooks: never changes. */
  readonly id: string;
  /** Heading under which the reference lists it. */
  readonly subject: Subject;
  /** One line. */
  readonly summary: string;
  /** Words a grower may search for that are not in the summary. */
  readonly searchWords?: readonly string[];
  readonly parameters: P;
  /** How it is computed, in a sentence or two. */
  readonly method: string;
  /** What the names of its formula mean, where the arguments and the steps do not say it. */
  readonly symbols?: Readonly<Record<string, string>>;
  readonly sources: readonly Source[];
  /** Where the result may be relied on. */
  readonly validity: string;
  /** What to beware of with this function alone. */
  readonly caution?: string;
  /** Cautions of the trade that belong to what the answer is used for. */
  readonly dangers?: readonly CautionId[];
  readonly examples: readonly [Example, Example, ...Example[]];
  readonly seeAlso?: readonly string[];
}

interface ValueResult {
  readonly kind: 'number' | 'date' | 'text' | 'any';
  readonly unit: UnitId;
  readonly meaning: string;
}

export interface SpillColumn {
  readonly name: string;
  readonly unit: UnitId;
  readonly kind: 'number' | 'date' | 'text' | 'any';
}

/** A card whose result is one value; ranges are worked row by row around it. */
export interface ValueSpec<P extends readonly Parameter<string, unknown>[]> extends CommonSpec<P> {
  readonly result: ValueResult;
  /** A call into the core. */
  readonly compute: (...values: Values<P>) => Value;
}

/** Where one formula cannot say it: the same value with the spreadsheet's own functions, made in pieces. */
interface PlainInPieces<P extends readonly Parameter<string, unknown>[]> {
  /** Why one formula cannot say it, in a sentence. */
  readonly inPieces: string;
  /** Checks of the arguments are put around it. */
  readonly plain: (texts: PlainTexts<P>) => string;
}

/** A card whose result is a block of rows. */
export interface SpillSpec<P extends readonly Parameter<string, unknown>[]> extends CommonSpec<P> {
  /** Its columns or rows are steps of it; a text stands for the written reference alone. */
  readonly formula?: Formula | string;
  /** Why one formula cannot say it, in a sentence; absent where every cell comes from `formula`. */
  readonly inPieces?: string;
  readonly columns: readonly SpillColumn[];
  readonly spill: (...values: Values<P>) => readonly (readonly Outcome[])[];
  /** Formula for one cell of the block; `address` gives the others. */
  readonly plainCell: (
    texts: PlainTexts<P>,
    row: number,
    column: number,
    address: SpillAddress,
  ) => string;
}

export const subjects = [
  'Feed',
  'Stock',
  'Growth',
  'Waste and oxygen load',
  'Filter',
  'Ammonia',
  'Oxygen and carbon dioxide',
  'Dosing',
  'Flow and pumps',
  'Flooded beds',
  'Sowing and seed',
  'Beds',
  'Air',
  'Sun and season',
  'Water and heat',
  'Money',
  'Facts',
] as const;
export type Subject = (typeof subjects)[number];

type AnyParameter = Parameter<string, unknown>;

interface AnyCard extends Omit<CommonSpec<readonly AnyParameter[]>, 'parameters'> {
  readonly parameters: readonly AnyParameter[];
  /** Plain equivalent and printed mathematics come from it; a text is printed alone. */
  readonly formula?: Formula | string;
  readonly inPieces?: string;
}
export interface ValueCard extends AnyCard {
  readonly result: ValueResult;
  readonly compute: (...values: never[]) => Value;
  readonly plain?: (texts: Readonly<Record<string, string | undefined>>) => string;
  readonly columns?: undefined;
}
export interface SpillCard extends AnyCard {
  readonly columns: readonly SpillColumn[];
  readonly spill: (...values: never[]) => readonly (readonly Outcome[])[];
  readonly plainCell: (
    texts: Readonly<Record<string, string | undefined>>,
    row: number,
    column: number,
    address: SpillAddress,
  ) => string;
}
export type Card = ValueCard | SpillCard;

/** As much of a card as a call needs: Excel loads no more of it before the functions are known. */
export type CalledValueCard = Pick<ValueCard, 'id' | 'parameters' | 'columns' | 'compute'>;
export type CalledSpillCard = Pick<SpillCard, 'id' | 'parameters' | 'columns' | 'spill'>;
export type CalledCard = CalledValueCard | CalledSpillCard;

/** All that the faces of a card say under Caution: its own sentences first. */
export const cautionsOf = ({ caution, dangers = [] }: Card): readonly string[] => [
  ...(caution === undefined ? [] : [caution]),
  ...dangers.map((id) => cautions[id]),
];

/** Declares a card whose result is one value, with its formula. */
export function card<const P extends readonly AnyParameter[], const F extends Formula>(
  spec: ValueSpec<P> & { readonly formula: F },
): Omit<ValueCard, 'parameters' | 'formula'> & { readonly parameters: P; readonly formula: F };
export function card<const P extends readonly AnyParameter[]>(
  spec: ValueSpec<P> & PlainInPieces<P>,
): ValueCard;
export function card(spec: object): ValueCard {
  return spec as ValueCard;
}

/** Declares a card whose result is a block of rows. */
export const spillCard = <const P extends readonly AnyParameter[]>(spec: SpillSpec<P>): SpillCard =>
  spec as unknown as SpillCard;
