/** One line of the table: what was measured, and what it is to stay below. */
export interface Line {
  readonly what: string;
  readonly measured: string;
  readonly goal: string;
}

export const ratioLine = (what: string, ratio: number, goal: string): Line => ({
  what,
  measured: `${ratio.toFixed(2)} times`,
  goal,
});
