import { RefusedChange } from '../../ooxml/cell-changes';
import { followingStep } from '../../ooxml/follow/follow-step';
import { readsThroughSheets } from '../../ooxml/follow/through-sheets';
import { Package } from '../../ooxml/package';
import { readWorkbookParts } from '../../ooxml/workbook-parts';
import { atOnce, partly, type Steps } from '../../plan/in-steps';
import { fileSheetId } from './grid-from-file';
import { fileSteps, type GridStep, namesAfter } from './grid-steps';

interface State {
  readonly file: Package;
  readonly names: ReadonlyMap<string, string>;
}

/** So many states are kept: the one before a step and the one after it. */
const KEPT = 2;

/** A file that was opened, as it is once the steps of the grid were followed through all that counts on them. */
export class FollowedFile {
  private first: State | undefined;
  private recent: { readonly steps: readonly GridStep[]; readonly state: State }[] = [];

  constructor(private readonly bytes: Uint8Array) {}

  private original(): State {
    if (!this.first) {
      const file = Package.open(this.bytes);
      const { sheets } = readWorkbookParts(file);
      const names = new Map(sheets.map(({ name }, index) => [fileSheetId(index), name]));
      this.first = { file, names };
    }
    return this.first;
  }

  private note(steps: readonly GridStep[], state: State): void {
    this.recent = [...this.recent, { steps, state }].slice(-KEPT);
  }

  /** The file after these steps; the caller's own. Throws RefusedChange where something cannot follow. */
  after(steps: readonly GridStep[]): State {
    return atOnce(this.following(steps));
  }

  /** As `after`, in steps. */
  *following(steps: readonly GridStep[]): Steps<State> {
    let known = steps.length === 0 ? this.original() : undefined;
    known ??= this.recent.find((entry) => entry.steps === steps)?.state;
    if (!known) {
      known = this.original();
      for (const [n, step] of steps.entries()) {
        known = yield* partly(stepping(known, step), n / steps.length, (n + 1) / steps.length);
      }
      this.note(steps, known);
    }
    return { file: known.file.copy(), names: known.names };
  }

  /**
   * Why the file cannot take one more step; undefined where it can, and `more`, the steps with it, is known from then
   * on. In steps.
   */
  *asking(
    steps: readonly GridStep[],
    step: GridStep,
    more: readonly GridStep[],
  ): Steps<string | undefined> {
    try {
      const before = yield* partly(this.following(steps), 0, 0.5);
      this.note(more, yield* partly(stepping(before, step), 0.5, 1));
      return undefined;
    } catch (problem) {
      if (problem instanceof RefusedChange) return problem.message;
      throw problem;
    }
  }

  /** Why the sheets cannot change places. */
  refusalToMove(steps: readonly GridStep[]): string | undefined {
    const { file } = this.after(steps);
    const reader = readsThroughSheets(file, readWorkbookParts(file));
    return reader === undefined
      ? undefined
      : `The sheets keep their order: ${reader} reckons through several sheets in a row.`;
  }
}

function* stepping({ file, names }: State, step: GridStep): Steps<State> {
  const name = names.get(step.sheetId);
  if (name === undefined) throw new Error(`The file has no sheet of the id ${step.sheetId}`);
  const copy = file.copy();
  for (const fileStep of fileSteps(step, name)) yield* followingStep(copy, fileStep);
  return { file: copy, names: namesAfter(names, [step]) };
}
