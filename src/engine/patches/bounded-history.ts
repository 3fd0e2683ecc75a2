import { registries } from '@odoo/o-spreadsheet';

/**
 * The engine keeps every step since the workbook was opened, and each step once more for every undo, so that
 * people who edit together could undo in any order. Memory and time of a step grow with the day's work. Here
 * one person works: what can no longer be undone is dropped.
 */
interface Step {
  readonly operation: { readonly id: string; readonly data: object };
  readonly isCancelled: boolean;
}

interface Branch {
  readonly operations: readonly unknown[];
}

interface Revisions {
  readonly HEAD_BRANCH: Branch;
  readonly tree: {
    readonly branches: readonly Branch[];
    revertedExecution(branch: Branch): Iterable<Step>;
  };
  append(id: string, data: object): void;
}

interface HistoryPlugin {
  readonly session: {
    revisions: Revisions;
    processedRevisions: Set<string>;
  };
  readonly undoStack: readonly string[];
  onNewLocalStateUpdate(update: { readonly id: string }): void;
}

/** The engine undoes a hundred steps; the others are dropped now and then rather than one by one. */
const MOST_STEPS = 300;

/** The steps that can be undone, and what came between them, the oldest first. */
function undoable({ HEAD_BRANCH, tree }: Revisions, oldest: string | undefined): Step[] {
  const steps: Step[] = [];
  for (const step of tree.revertedExecution(HEAD_BRANCH)) {
    if (!step.isCancelled) steps.push(step);
    if (step.operation.id === oldest) break;
  }
  return steps.reverse();
}

/** A history of these steps alone. */
function historyOf(old: Revisions, steps: readonly Step[]): Revisions {
  const History = old.constructor as new (made: object) => Revisions;
  const made = new History({ ...old, initialOperationId: 'before what can be undone' });
  for (const { operation } of steps) made.append(operation.id, operation.data);
  return made;
}

/** Once, before the first workbook is made. */
export function boundHistory(): void {
  const plugins = registries.featurePluginRegistry;
  const History = plugins.get('history') as unknown as new (config: unknown) => HistoryPlugin;
  class Bounded extends History {
    override onNewLocalStateUpdate(update: { readonly id: string }): void {
      super.onNewLocalStateUpdate(update);
      const { session, undoStack } = this;
      const { branches } = session.revisions.tree;
      if (branches.length === 1 && (branches[0]?.operations.length ?? 0) < MOST_STEPS) return;
      session.revisions = historyOf(session.revisions, undoable(session.revisions, undoStack[0]));
      session.processedRevisions.clear();
    }
  }
  plugins.replace('history', Bounded as never);
}
