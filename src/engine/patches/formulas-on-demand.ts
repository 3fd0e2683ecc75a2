import { CompiledFormula, registries, type Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { FormulaTemplates } from './formula-templates';
import { needParts, replacePlugin, type Patch } from './patch';
import { SharedFormulaParts } from './shared-formula-parts';

type Getters = Parameters<typeof CompiledFormula.Compile>[2];

interface Command {
  readonly type: string;
}

interface CellPlugin {
  readonly getters: Getters;
  beforeHandle(command: Command): void;
  import(data: WorkbookData): void;
}

const NAME = 'formulas-on-demand';

/** What is read off a compiled formula. */
const PARTS = [
  ...(['tokens', 'literalValues', 'symbols', 'rangeDependencies', 'hasDependencies'] as const),
  ...(['isBadExpression', 'normalizedFormula', 'execute'] as const),
];

type Compile = typeof CompiledFormula.Compile;

/** What the library's reader asks of each formula, for cells in its short form, of which there are none. */
const UNREAD: Readonly<Record<string, unknown>> = {
  literalValues: { numbers: [], strings: [] },
  rangeDependencies: [],
};

/** Commands that leave every reference where it points: formulas may go on waiting. */
export const HARMLESS: ReadonlySet<string> = new Set([
  ...['UPDATE_CELL', 'CLEAR_CELL', 'CLEAR_CELLS', 'DELETE_CONTENT', 'UPDATE_CELL_POSITION'],
  ...[
    'SET_FORMATTING',
    'CLEAR_FORMATTING',
    'SET_BORDER',
    'SET_ZONE_BORDERS',
    'RESIZE_COLUMNS_ROWS',
  ],
]);

/** Formulas of a workbook that have not been compiled. */
export interface WaitingFormulas {
  readonly waiting: Set<object>;
  /** Compiles formulas until none waits or `enough` says so; true when none waits. */
  compile(enough?: () => boolean): boolean;
}

/** The plugin to which a formula belongs, as far as its formulas need it. */
interface Room {
  readonly getters: Getters;
  readonly waiting: Set<object>;
  readonly isReading: boolean;
  readonly templates: FormulaTemplates;
}

/**
 * A formula that is compiled when one of its parts is looked at. It holds little itself, since there may be a
 * hundred thousand like it.
 */
class FormulaOnDemand {
  /** What it shares with others once it is compiled. */
  private alike: CompiledFormula | undefined = undefined;
  private ranges: CompiledFormula['rangeDependencies'] | undefined = undefined;

  constructor(
    readonly sheetId: string,
    /** Let go once it is compiled. */
    private text: string,
    private readonly room: Room,
  ) {}

  /** Whether it is left as it is for now: the library's reader asks for parts that it does not need. */
  static isUnread(formula: FormulaOnDemand, part: string): boolean {
    return !formula.alike && formula.room.isReading && part in UNREAD;
  }

  /** Whether it cannot call a function, by its text alone. */
  static isWithout(formula: FormulaOnDemand, symbol: string): boolean {
    return !formula.alike && !formula.text.toUpperCase().includes(symbol.toUpperCase());
  }

  static rangesOf(formula: FormulaOnDemand): CompiledFormula['rangeDependencies'] {
    if (!formula.ranges) FormulaOnDemand.compiled(formula);
    return formula.ranges ?? [];
  }

  static compiled(formula: FormulaOnDemand): CompiledFormula {
    if (formula.alike) return formula.alike;
    const { text, sheetId, room } = formula;
    room.waiting.delete(formula);
    const { alike, ranges } = room.templates.takeApart(text, sheetId, room.getters);
    formula.alike = alike;
    formula.ranges = ranges;
    formula.text = '';
    if (room.waiting.size === 0) room.templates.forget();
    return alike;
  }
}

// Its parts stand before the library's own methods, which find them there.
Object.setPrototypeOf(FormulaOnDemand.prototype, CompiledFormula.prototype);
for (const part of PARTS) {
  Object.defineProperty(FormulaOnDemand.prototype, part, {
    get(this: FormulaOnDemand): unknown {
      if (FormulaOnDemand.isUnread(this, part)) return UNREAD[part];
      if (part === 'rangeDependencies') return FormulaOnDemand.rangesOf(this);
      return FormulaOnDemand.compiled(this)[part as keyof CompiledFormula];
    },
  });
}
// The library looks for a few functions in every formula before anything shows.
Object.defineProperty(FormulaOnDemand.prototype, 'usesSymbol', {
  value(this: FormulaOnDemand, symbol: string): boolean {
    if (FormulaOnDemand.isWithout(this, symbol)) return false;
    return CompiledFormula.prototype.usesSymbol.call(this, symbol);
  },
});

function formulaOnDemand(text: string, sheetId: string, room: Room): CompiledFormula {
  const formula = new FormulaOnDemand(sheetId, text, room);
  room.waiting.add(formula);
  return formula as unknown as CompiledFormula;
}

/** Whether all cells are texts: the library's short form of a formula hangs on the one before it. */
const isWrittenOut = ({ sheets }: WorkbookData): boolean =>
  sheets.every(({ cells }) => Object.values(cells).every((cell) => typeof cell === 'string'));

const plugins = new WeakMap<object, WaitingFormulas>();

/** The formulas of a workbook that wait to be compiled. */
export function waitingFormulas(model: Model): WaitingFormulas {
  const { handlers } = model as unknown as { readonly handlers: readonly object[] };
  for (const handler of handlers) {
    const waiting = plugins.get(handler);
    if (waiting) return waiting;
  }
  throw new Error('The workbook was opened before the patches of the engine were applied');
}

/** Compiles a formula when it is first computed, shown or moved. */
export const formulasOnDemand: Patch = {
  name: NAME,
  upstream:
    'Every formula is compiled while a workbook is read, a quarter of the time until the demo plan shows.',
  until: 'the library compiles formulas when they are needed',
  apply() {
    needParts(NAME, CompiledFormula, ['Compile']);
    needParts(NAME, CompiledFormula.prototype, ['usesSymbol']);
    replacePlugin(
      NAME,
      registries.corePluginRegistry,
      'cell',
      ['import', 'importCell', 'beforeHandle'],
      (Original: new (config: unknown) => CellPlugin) =>
        class extends Original {
          readonly waiting = new Set<object>();
          readonly templates = new FormulaTemplates(new SharedFormulaParts());
          isReading = false;

          constructor(config: unknown) {
            super(config);
            const { waiting } = this;
            plugins.set(this, {
              waiting,
              compile(enough = () => false) {
                for (const formula of waiting) {
                  if (enough()) return false;
                  FormulaOnDemand.compiled(formula as FormulaOnDemand);
                }
                return true;
              },
            });
          }

          override import(data: WorkbookData): void {
            if (!isWrittenOut(data)) {
              super.import(data);
              return;
            }
            try {
              this.isReading = true;
              this.readOnDemand(() => super.import(data));
            } finally {
              this.isReading = false;
            }
          }

          /** Cells that are made meanwhile have formulas that wait. */
          readOnDemand<T>(work: () => T): T {
            const { Compile } = CompiledFormula;
            const later: Compile = (text, sheetId) => formulaOnDemand(text, sheetId, this);
            try {
              Object.assign(CompiledFormula, { Compile: later });
              return work();
            } finally {
              Object.assign(CompiledFormula, { Compile });
            }
          }

          override beforeHandle(command: Command): void {
            if (this.waiting.size > 0 && !HARMLESS.has(command.type)) {
              plugins.get(this)?.compile();
            }
            super.beforeHandle(command);
          }
        },
    );
  },
};
