import { registries } from '@odoo/o-spreadsheet';
import { needParts, replacePlugin, type Patch } from './patch';

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

const NAME = 'bounded-history';

/** The library undoes a hundred steps; the others are dropped now and then rather than one by one. */
const STEPS_KEPT = 300;

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

/** One person works here: what can no longer be undone is dropped. */
export const boundedHistory: Patch = {
  name: NAME,
  upstream:
    'Every step since the workbook was opened is kept, and each once more for every undo, so that people who edit together could undo in any order: memory and the time of a step grow with the day.',
  until: 'the library drops steps that can no longer be undone',
  apply: () =>
    replacePlugin(
      NAME,
      registries.featurePluginRegistry,
      'history',
      ['onNewLocalStateUpdate'],
      (Original: new (config: unknown) => HistoryPlugin) =>
        class extends Original {
          constructor(config: unknown) {
            super(config);
            needParts(NAME, this, ['session', 'undoStack']);
            needParts(NAME, this.session, ['revisions', 'processedRevisions']);
            needParts(NAME, this.session.revisions, ['HEAD_BRANCH', 'tree', 'append']);
            needParts(NAME, this.session.revisions.tree, ['branches', 'revertedExecution']);
          }

          override onNewLocalStateUpdate(update: { readonly id: string }): void {
            super.onNewLocalStateUpdate(update);
            const { session, undoStack } = this;
            const { branches } = session.revisions.tree;
            if (branches.length === 1 && (branches[0]?.operations.length ?? 0) < STEPS_KEPT) return;
            session.revisions = historyOf(
              session.revisions,
              undoable(session.revisions, undoStack[0]),
            );
            session.processedRevisions.clear();
          }
        },
    ),
};
