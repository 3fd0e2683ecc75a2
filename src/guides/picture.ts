/** A block of results, row by row. */
export type Block = readonly (readonly (number | string)[])[];

/** The figures of a guide's sheet as they stand after a step, for its picture. */
export interface SheetFigures {
  /** What a cell shows, as a number; a day as its serial, a share as 0 to 1. */
  readonly number: (address: string) => number;
  /** What a cell shows. */
  readonly text: (address: string) => string;
  /** Everything that a cell's GILL formula fills, with the rows that the guide leaves out. */
  readonly block: (address: string) => Block;
  /** A cell's GILL formula with some of its arguments changed, counted from 0. */
  readonly changed: (address: string, args: Readonly<Record<number, number | string>>) => number;
}

/** A drawing made of a guide's own figures: its inside, and its height at the width of all drawings. */
export interface Drawing {
  readonly height: number;
  readonly inside: string;
}

/** A drawing of what the cells show by then. */
export interface Picture {
  /** What is to be seen, for those who cannot see it; "{B4}" stands for what cell B4 shows. */
  readonly alt: string;
  readonly draw: (sheet: SheetFigures) => Drawing;
}
