import { CompiledFormula, registries, type Model, type WorkbookData } from '@odoo/o-spreadsheet';
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

/** Where a formula that waits comes from. */
interface Source {
  /** Let go once it is compiled. */
  text: string;
  readonly sheetId: string;
  readonly getters: Getters;
  readonly plugin: {
    readonly waiting: Set<object>;
    readonly isReading: boolean;
    readonly shared: SharedFormulaParts;
  };
}

interface FormulaOnDemand extends CompiledFormula {
  readonly source: Source;
}

function compile(formula: FormulaOnDemand): void {
  const { text, sheetId, getters, plugin } = formula.source;
  plugin.waiting.delete(formula);
  const compiled = CompiledFormula.Compile(text, sheetId, getters);
  if (!compiled.isBadExpression) plugin.shared.share(compiled);
  formula.source.text = '';
  for (const part of PARTS) {
    const value = compiled[part as keyof CompiledFormula];
    Object.defineProperty(formula, part, { value, writable: true, enumerable: true });
  }
}

/** Stands before the library's own methods: the first look at a part compiles the formula. */
const onDemand = Object.create(CompiledFormula.prototype, {
  ...Object.fromEntries(
    PARTS.map((part) => [
      part,
      {
        get(this: FormulaOnDemand) {
          if (this.source.plugin.isReading && part in UNREAD) return UNREAD[part];
          compile(this);
          return this[part as keyof CompiledFormula];
        },
      },
    ]),
  ),
  // The library looks for a few functions in every formula before anything shows.
  usesSymbol: {
    value(this: FormulaOnDemand, symbol: string): boolean {
      const { plugin, text } = this.source;
      if (plugin.waiting.has(this) && !text.toUpperCase().includes(symbol.toUpperCase()))
        return false;
      return CompiledFormula.prototype.usesSymbol.call(this, symbol);
    },
  },
}) as object;

function formulaOnDemand(source: Source): CompiledFormula {
  const formula = Object.create(onDemand, { source: { value: source } }) as FormulaOnDemand;
  Object.assign(formula, { sheetId: source.sheetId });
  source.plugin.waiting.add(formula);
  return formula;
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
          readonly shared = new SharedFormulaParts();
          isReading = false;

          constructor(config: unknown) {
            super(config);
            const { waiting } = this;
            plugins.set(this, {
              waiting,
              compile(enough = () => false) {
                for (const formula of waiting) {
                  if (enough()) return false;
                  compile(formula as FormulaOnDemand);
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
            const later: Compile = (text, sheetId, getters) =>
              formulaOnDemand({ text, sheetId, getters, plugin: this });
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
