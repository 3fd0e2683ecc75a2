import { tokenize } from '@borgar/fx';
import { strFromU8, unzipSync } from 'fflate';
import { type SaxesAttributePlain, SaxesParser, type SaxesTagPlain } from 'saxes';
import { cards, NAMESPACE } from '../../src/functions/card-list';
import { storedName } from '../../src/functions/stored-name';

/**
 * What a schema check does not see and Excel repairs, refuses or gets wrong. Every rule gives a sentence with
 * the place; an empty list means that nothing was found.
 */

interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Node[];
  text: string;
}

/** A part as a tree, names without their prefix; throws where it is no well-formed XML. */
function parse(xml: string): Node {
  const root: Node = { name: '', attributes: {}, children: [], text: '' };
  const open: Node[] = [root];
  const local = (name: string): string => name.slice(name.indexOf(':') + 1);
  const parser = new SaxesParser();
  parser.on('error', (problem: Error) => {
    throw problem;
  });
  parser.on('opentag', (tag: SaxesTagPlain) => {
    const entries = Object.entries(tag.attributes as Record<string, SaxesAttributePlain | string>);
    const attributes = Object.fromEntries(
      entries.map(([name, value]) => [name === 'r:id' ? name : local(name), String(value)]),
    );
    const node: Node = { name: local(tag.name), attributes, children: [], text: '' };
    open.at(-1)?.children.push(node);
    open.push(node);
  });
  parser.on('text', (text: string) => {
    const last = open.at(-1);
    if (last) last.text += text;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(xml).close();
  return root.children[0] ?? root;
}

function descendants(node: Node | undefined, name: string): Node[] {
  if (!node) return [];
  return node.children.flatMap((child) => [
    ...(child.name === name ? [child] : []),
    ...descendants(child, name),
  ]);
}
const child = (node: Node | undefined, name: string): Node | undefined =>
  node?.children.find((child) => child.name === name);

interface CellAt {
  readonly row: number;
  readonly column: number;
}

const CELL = /^\$?([A-Z]{1,3})\$?(\d{1,7})$/;
const MAX_ROWS = 1_048_576;
const MAX_COLUMNS = 16_384;

function cellAt(reference: string): CellAt | undefined {
  const match = CELL.exec(reference);
  if (!match) return undefined;
  const letters = match[1] ?? '';
  const column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
  const row = Number(match[2]);
  return row >= 1 && row <= MAX_ROWS && column <= MAX_COLUMNS ? { row, column } : undefined;
}

interface Block {
  readonly from: CellAt;
  readonly to: CellAt;
}

function blockOf(reference: string): Block | undefined {
  const [first = '', last = first] = reference.split(':');
  const [from, to] = [cellAt(first), cellAt(last)];
  return from && to && from.row <= to.row && from.column <= to.column ? { from, to } : undefined;
}

const overlap = (a: Block, b: Block): boolean =>
  a.from.row <= b.to.row &&
  b.from.row <= a.to.row &&
  a.from.column <= b.to.column &&
  b.from.column <= a.to.column;

const LIMITS = {
  text: 32767,
  formula: 8192,
  list: 255,
  errorTitle: 32,
  error: 255,
  prompt: 255,
  sheetName: 31,
  headerFooter: 255,
  nesting: 64,
} as const;

const NUMBER = /^-?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const LARGEST = 9.99999999999999e307;
const ERRORS = new Set(['#VALUE!', '#N/A', '#NUM!', '#DIV/0!', '#REF!', '#NAME?', '#NULL!']);
const NAME = /^[\p{L}_\\][\p{L}\d_.\\?]*$/u;
const LOOKS_LIKE_CELL = /^(?:[A-Za-z]{1,3}\d{1,7}|[Rr]\d*[Cc]\d*|[RrCc])$/;
const TABLE_NAME = /^[\p{L}_\\][\p{L}\d_.\\]*$/u;

/** Functions that are as old as the format, and so carry no prefix: the set that plans may use. */
const CLASSIC = new Set(
  `ABS ACOS ADDRESS AND ASIN ATAN ATAN2 AVERAGE AVERAGEIF AVERAGEIFS CEILING CHOOSE COLUMN COLUMNS COS
  COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS DATE DATEVALUE DAY DEGREES EDATE EOMONTH EXACT EXP FALSE FIND
  FLOOR HLOOKUP HYPERLINK IF IFERROR INDEX INT ISBLANK ISERROR ISLOGICAL ISNA ISNUMBER ISTEXT LARGE LEFT
  LEN LN LOG LOG10 LOOKUP LOWER MATCH MAX MEDIAN MID MIN MOD MONTH N NA NOT NPV OR PI POWER PROPER
  QUARTILE RADIANS REPT RIGHT ROUND ROUNDDOWN ROUNDUP ROW ROWS SEARCH SIGN SIN SMALL SQRT STDEV
  SUBSTITUTE SUBTOTAL SUM SUMIF SUMIFS SUMPRODUCT SUMSQ SUMXMY2 T TAN TEXT TODAY TRANSPOSE TRIM TRUE
  TRUNC UPPER VALUE VLOOKUP WEEKDAY WEEKNUM YEAR YEARFRAC TANH SINH COSH ASINH ACOSH ATANH`
    .split(/\s+/)
    .filter(Boolean),
);
const OURS = new Set(cards.map(({ id }) => storedName(id)));
const PREFIXED = /^_xlfn\.(?:_xlws\.)?[A-Z][A-Z0-9.]*$/;

/** What is wrong with a formula as a file holds it. */
function formulaFaults(
  formula: string,
  names: ReadonlySet<string>,
  sheets: ReadonlySet<string>,
): string[] {
  const faults: string[] = [];
  if (formula === '') faults.push('is empty');
  if (formula.startsWith('=')) faults.push('begins with "="');
  if (formula.length > LIMITS.formula) faults.push(`has ${formula.length} characters`);
  const tokens = tokenize(formula, { mergeRefs: true });
  const brackets: string[] = [];
  let deepest = 0;
  tokens.forEach(({ type, value, unterminated }) => {
    if (unterminated) faults.push('has a text that never ends');
    if (type === 'unknown') faults.push(`holds "${value}", which is nothing`);
    if (type === 'operator' && '({'.includes(value)) brackets.push(value);
    if (type === 'operator' && ')}'.includes(value)) {
      const opened = brackets.pop();
      if ((value === ')' ? '(' : '{') !== opened)
        faults.push(`closes a "${value}" that was not opened`);
    }
    deepest = Math.max(deepest, brackets.filter((bracket) => bracket === '(').length);
    if (type === 'func') {
      const upper = value.toUpperCase();
      if (upper.startsWith(`${NAMESPACE}.`)) {
        faults.push(`calls ${value} by the name that is shown; files hold ${storedName('…')}`);
      } else if (upper.startsWith('_XLDUDF_')) {
        if (!OURS.has(value)) faults.push(`calls ${value}, which is no function`);
      } else if (!CLASSIC.has(upper) && !PREFIXED.test(value)) {
        faults.push(`calls ${value}, which needs a prefix or is not for every spreadsheet`);
      }
    }
    if (type === 'range_named') {
      const name = value.slice(value.lastIndexOf('!') + 1);
      if (!names.has(name.toLowerCase()))
        faults.push(`uses the name ${value}, which is not defined`);
    }
    const sheet = /^(?:'((?:[^']|'')+)'|([\p{L}\d_.]+))!/u.exec(value);
    if (type.startsWith('range') && sheet) {
      const name = (sheet[1] ?? sheet[2] ?? '').replaceAll("''", "'");
      if (!sheets.has(name)) faults.push(`points at the sheet "${name}", which is not there`);
    }
    if (type === 'error' && value !== '#N/A') faults.push(`holds ${value}`);
  });
  if (brackets.length > 0) faults.push('has a bracket that is never closed');
  if (deepest > LIMITS.nesting) faults.push(`nests ${deepest} deep`);
  return faults;
}

class Linter {
  readonly faults: string[] = [];
  private readonly parts: Record<string, Uint8Array>;
  private readonly sheetNames: string[];
  private readonly names = new Set<string>();
  private readonly tableNames: string[] = [];
  private readonly sharedTexts: string[];
  private readonly sizes: { styles: number; marks: number };
  private readonly workbook: Node;
  private readonly tables = new Map<string, Node>();
  private readonly sheetSet: ReadonlySet<string>;

  constructor(bytes: Uint8Array) {
    this.parts = unzipSync(bytes);
    for (const path of Object.keys(this.parts)) {
      if (!/\.(?:xml|rels|vml)$/.test(path)) continue;
      try {
        parse(this.text(path));
      } catch (problem) {
        this.faults.push(`${path} is no XML: ${String(problem)}`);
      }
    }
    this.workbook = this.part('xl/workbook.xml');
    this.sheetNames = descendants(this.workbook, 'sheet').map(
      (node) => node.attributes['name'] ?? '',
    );
    this.sheetSet = new Set(this.sheetNames);
    for (const { attributes } of descendants(this.workbook, 'definedName')) {
      this.names.add((attributes['name'] ?? '').toLowerCase());
    }
    const shared = this.parts['xl/sharedStrings.xml']
      ? this.part('xl/sharedStrings.xml')
      : undefined;
    this.sharedTexts = (shared?.children ?? []).map((item) =>
      descendants(item, 't')
        .map(({ text }) => text)
        .join(''),
    );
    const styles = this.part('xl/styles.xml');
    this.sizes = {
      styles: child(styles, 'cellXfs')?.children.length ?? 0,
      marks: child(styles, 'dxfs')?.children.length ?? 0,
    };
    for (const path of Object.keys(this.parts).filter((text) =>
      /^xl\/tables\/[^/]+\.xml$/.test(text),
    )) {
      const table = this.part(path);
      this.tables.set(path, table);
      this.tableNames.push(table.attributes['displayName'] ?? '');
    }
  }

  private text(path: string): string {
    const bytes = this.parts[path];
    if (!bytes) {
      this.faults.push(`${path} is missing`);
      return '<missing/>';
    }
    return strFromU8(bytes);
  }

  private part(path: string): Node {
    try {
      return parse(this.text(path));
    } catch {
      return { name: '', attributes: {}, children: [], text: '' };
    }
  }

  private add(where: string, what: string): void {
    this.faults.push(`${where} ${what}`);
  }

  private checkFormula(where: string, formula: string): void {
    for (const fault of formulaFaults(formula, this.names, this.sheetSet)) {
      this.add(where, `${fault}: ${formula.slice(0, 80)}`);
    }
  }

  /** Every relation leads to a part, and every part is led to. */
  checkRelations(): void {
    const reached = new Set(['[Content_Types].xml']);
    for (const path of Object.keys(this.parts).filter((text) => text.endsWith('.rels'))) {
      reached.add(path);
      const folder = path.replace(/_rels\/[^/]+$/, '');
      for (const { attributes } of this.part(path).children) {
        if (attributes['TargetMode'] === 'External') continue;
        const target = attributes['Target'] ?? '';
        const full = new URL(target, `file:///${folder}`).pathname.slice(1);
        reached.add(decodeURIComponent(full));
        if (!this.parts[full]) this.add(path, `leads to ${full}, which is missing`);
      }
    }
    for (const path of Object.keys(this.parts)) {
      if (!reached.has(path)) this.add(path, 'is led to by nothing');
    }
    const types = this.part('[Content_Types].xml');
    for (const { name, attributes } of types.children) {
      const path = (attributes['PartName'] ?? '').slice(1);
      if (name === 'Override' && !this.parts[path])
        this.add('[Content_Types].xml', `names ${path}, which is missing`);
    }
  }

  checkNames(): void {
    const seen = new Set<string>();
    const sheets = new Set<string>();
    for (const name of this.sheetNames) {
      if (name === '' || name.length > LIMITS.sheetName || /[[\]:*?/\\]|^'|'$/.test(name)) {
        this.add(`Sheet "${name}"`, 'has a name that sheets cannot have');
      }
      if (sheets.has(name.toLowerCase())) this.add(`Sheet "${name}"`, 'is there twice');
      sheets.add(name.toLowerCase());
    }
    for (const { attributes, text } of descendants(this.workbook, 'definedName')) {
      const name = attributes['name'] ?? '';
      const scope = attributes['localSheetId'] ?? '';
      const where = `The name ${name}`;
      if (!name.startsWith('_xlnm.')) {
        if (!NAME.test(name) || LOOKS_LIKE_CELL.test(name) || name.length > 255) {
          this.add(where, 'is none that cells can have');
        }
        if (this.tableNames.some((table) => table.toLowerCase() === name.toLowerCase())) {
          this.add(where, 'is also the name of a table');
        }
      }
      const key = `${scope} ${name.toLowerCase()}`;
      if (seen.has(key)) this.add(where, 'is there twice');
      seen.add(key);
      if (scope !== '' && Number(scope) >= this.sheetNames.length)
        this.add(where, 'is for a sheet that is not there');
      if (name === '_xlnm.Print_Titles') {
        const sheet = /^(?:'(?:[^']|'')+'!\$[A-Z]+:\$[A-Z]+,)?'((?:[^']|'')+)'!\$\d+:\$\d+$/
          .exec(text)?.[1]
          ?.replaceAll("''", "'");
        if (sheet === undefined || !this.sheetSet.has(sheet)) this.add(where, `points at ${text}`);
      } else this.checkFormula(where, text);
    }
  }

  private checkTable(path: string, cells: ReadonlyMap<string, string>): Block | undefined {
    const table = this.tables.get(path);
    const name = table?.attributes['displayName'] ?? '';
    const where = `Table ${name}`;
    if (!TABLE_NAME.test(name) || LOOKS_LIKE_CELL.test(name) || name.length > 255) {
      this.add(where, 'has a name that tables cannot have');
    }
    const ids = this.tableNames.filter((text) => text.toLowerCase() === name.toLowerCase());
    if (ids.length > 1) this.add(where, 'is there twice');
    const block = blockOf(table?.attributes['ref'] ?? '');
    if (!block) {
      this.add(where, `covers ${table?.attributes['ref']}`);
      return undefined;
    }
    const columns = descendants(table, 'tableColumn');
    if (columns.length !== block.to.column - block.from.column + 1) {
      this.add(where, `has ${columns.length} heads for its width`);
    }
    if (block.to.row === block.from.row) this.add(where, 'has no row below its heads');
    const heads = columns.map((column) => column.attributes['name'] ?? '');
    if (new Set(heads.map((head) => head.toLowerCase())).size !== heads.length) {
      this.add(where, 'has two columns of one name');
    }
    heads.forEach((head, i) => {
      const cell = cells.get(`${block.from.row},${block.from.column + i}`);
      if (cell !== head.replaceAll('_x000a_', '\n')) {
        this.add(where, `has the head "${head}" above which the cell holds "${cell ?? ''}"`);
      }
    });
    for (const formula of descendants(table, 'calculatedColumnFormula')) {
      this.checkFormula(where, formula.text);
      const tokens = tokenize(formula.text, { mergeRefs: true });
      const odd = tokens.find(
        ({ type, value }) => type === 'structured' && !value.startsWith(`${name}[`),
      );
      if (odd) this.add(where, `reckons with ${odd.value}`);
      for (const { value } of tokens.filter(({ type }) => type === 'structured')) {
        const head = /\[\[#This Row\],\[((?:'.|[^'\]])+)\]\]$/
          .exec(value)?.[1]
          ?.replace(/'(.)/g, '$1');
        if (head === undefined || !heads.includes(head)) this.add(where, `reckons with ${value}`);
      }
    }
    return block;
  }

  private checkValue(where: string, cell: Node): void {
    const type = cell.attributes['t'] ?? 'n';
    const value = child(cell, 'v');
    const formula = child(cell, 'f');
    if (formula && !value) {
      this.add(where, 'has a formula without the value it gave');
      return;
    }
    if (!value) return;
    const { text } = value;
    const known: Readonly<Record<string, boolean>> = {
      n: NUMBER.test(text) && Math.abs(Number(text)) <= LARGEST,
      b: text === '0' || text === '1',
      e: ERRORS.has(text),
      s: this.sharedTexts[Number(text)] !== undefined && /^\d+$/.test(text),
      str: text.length <= LIMITS.text && formula !== undefined,
    };
    // A value without formula under a spill is a text of its own kind.
    if (type === 'str' && formula === undefined && text.length <= LIMITS.text) return;
    if (!known[type]) this.add(where, `holds "${text.slice(0, 40)}" as kind ${type}`);
    const shared = type === 's' ? (this.sharedTexts[Number(text)] ?? '') : '';
    if (shared.length > LIMITS.text) this.add(where, `holds ${shared.length} characters`);
  }

  private checkValidations(name: string, sheet: Node): void {
    const blocks: Block[] = [];
    for (const rule of descendants(sheet, 'dataValidation')) {
      const where = `The rule on ${name}!${rule.attributes['sqref']}`;
      const formulas = rule.children.filter((child) => child.name.startsWith('formula'));
      const [first] = formulas;
      if (rule.attributes['type'] === 'list' && first?.text.startsWith('"')) {
        const list = first.text.slice(1, -1);
        if (list.length > LIMITS.list) this.add(where, `lists ${list.length} characters`);
      } else formulas.forEach(({ text }) => this.checkFormula(where, text));
      const lengths = [
        ['errorTitle', LIMITS.errorTitle],
        ['promptTitle', LIMITS.errorTitle],
        ['error', LIMITS.error],
        ['prompt', LIMITS.prompt],
      ] as const;
      for (const [attribute, most] of lengths) {
        const { length } = rule.attributes[attribute] ?? '';
        if (length > most) this.add(where, `says ${length} characters as ${attribute}`);
      }
      for (const reference of (rule.attributes['sqref'] ?? '').split(' ')) {
        const block = blockOf(reference);
        if (!block) this.add(where, 'covers no cells');
        else if (blocks.some((one) => overlap(one, block))) this.add(where, 'overlaps another');
        else blocks.push(block);
      }
    }
  }

  private checkMarks(name: string, sheet: Node): void {
    const priorities = new Set<string>();
    for (const rule of descendants(sheet, 'cfRule')) {
      const where = `The mark with priority ${rule.attributes['priority']} on ${name}`;
      const style = rule.attributes['dxfId'];
      if (style !== undefined && Number(style) >= this.sizes.marks) {
        this.add(where, `has style ${style} of ${this.sizes.marks}`);
      }
      if (priorities.has(rule.attributes['priority'] ?? '')) this.add(where, 'is there twice');
      priorities.add(rule.attributes['priority'] ?? '');
      for (const { text } of descendants(rule, 'formula')) {
        this.checkFormula(where, text);
        if (/_xldudf_/i.test(text)) this.add(where, 'calls a custom function');
      }
    }
  }

  checkSheet(number: number, path: string): void {
    const name = this.sheetNames[number] ?? '';
    const sheet = this.part(path);
    const seen = new Set<string>();
    const shown = new Map<string, string>();
    const spills: Block[] = [];
    let lastRow = 0;
    for (const row of descendants(child(sheet, 'sheetData'), 'row')) {
      const rowNumber = Number(row.attributes['r']);
      if (rowNumber <= lastRow) this.add(`${name} row ${rowNumber}`, 'comes twice or too late');
      lastRow = rowNumber;
      let lastColumn = 0;
      for (const cell of row.children) {
        const reference = cell.attributes['r'] ?? '';
        const where = `${name}!${reference}`;
        const at = cellAt(reference);
        if (!at || at.row !== rowNumber) {
          this.add(where, 'stands in another row or nowhere');
          continue;
        }
        if (seen.has(reference) || at.column <= lastColumn)
          this.add(where, 'comes twice or too late');
        seen.add(reference);
        lastColumn = at.column;
        if (Number(cell.attributes['s'] ?? 0) >= this.sizes.styles)
          this.add(where, 'has a style that is not there');
        this.checkValue(where, cell);
        const inside = child(cell, 'is');
        const text = (inside ? child(inside, 't') : child(cell, 'v'))?.text ?? '';
        const isText = cell.attributes['t'] === 's';
        shown.set(`${at.row},${at.column}`, isText ? (this.sharedTexts[Number(text)] ?? '') : text);
        const formula = child(cell, 'f');
        if (formula) {
          this.checkFormula(where, formula.text);
          const custom = /_xldudf_/i.test(formula.text);
          const isDynamic = cell.attributes['cm'] === '1' && formula.attributes['t'] === 'array';
          if (custom && !isDynamic)
            this.add(where, 'calls a custom function but is no dynamic array');
          if (isDynamic && !this.parts['xl/metadata.xml'])
            this.add(where, 'is a dynamic array without metadata');
          const block =
            formula.attributes['ref'] === undefined
              ? undefined
              : blockOf(formula.attributes['ref']);
          if (
            isDynamic &&
            (!block || block.from.row !== at.row || block.from.column !== at.column)
          ) {
            this.add(where, 'spills over a block that does not begin with it');
          }
          if (block) spills.push(block);
        }
      }
    }
    spills.forEach((spill, i) => {
      if (spills.slice(i + 1).some((other) => overlap(spill, other))) {
        this.add(name, `has two spills over each other at row ${spill.from.row}`);
      }
    });
    this.checkBlocks(name, sheet, path, shown, spills);
    this.checkValidations(name, sheet);
    this.checkMarks(name, sheet);
    for (const footer of child(sheet, 'headerFooter')?.children ?? []) {
      if (footer.text.length > LIMITS.headerFooter) this.add(name, 'has a footer that is too long');
    }
  }

  private checkBlocks(
    name: string,
    sheet: Node,
    path: string,
    shown: ReadonlyMap<string, string>,
    spills: readonly Block[],
  ): void {
    const blocks: [string, Block][] = [];
    for (const merge of descendants(sheet, 'mergeCell')) {
      const block = blockOf(merge.attributes['ref'] ?? '');
      if (!block) this.add(name, `merges ${merge.attributes['ref']}`);
      else blocks.push([`the merge ${merge.attributes['ref']}`, block]);
    }
    const relations = `xl/worksheets/_rels/${path.slice(path.lastIndexOf('/') + 1)}.rels`;
    const targets = this.parts[relations] ? this.part(relations).children : [];
    for (const { attributes } of targets) {
      const target = attributes['Target'] ?? '';
      if (!target.includes('tables/')) continue;
      const table = `xl/tables/${target.slice(target.lastIndexOf('/') + 1)}`;
      const block = this.checkTable(table, shown);
      if (!block) continue;
      blocks.push([`the table ${this.tables.get(table)?.attributes['displayName']}`, block]);
      const many = (block: Block): boolean =>
        block.from.row !== block.to.row || block.from.column !== block.to.column;
      if (spills.some((spill) => many(spill) && overlap(spill, block))) {
        this.add(
          name,
          `spills into the table ${this.tables.get(table)?.attributes['displayName']}`,
        );
      }
    }
    blocks.forEach(([what, block], i) => {
      const other = blocks.slice(i + 1).find(([, one]) => overlap(one, block));
      if (other) this.add(name, `has ${what} over ${other[0]}`);
    });
  }

  /** Charts draw from cells that are there. */
  checkCharts(): void {
    for (const path of Object.keys(this.parts).filter((text) =>
      /^xl\/charts\/[^/]+\.xml$/.test(text),
    )) {
      for (const { text } of descendants(this.part(path), 'f')) {
        this.checkFormula(path, text);
        if (!/^'(?:[^']|'')+'!\$[A-Z]+\$\d+(?::\$[A-Z]+\$\d+)?$/.test(text)) {
          this.add(path, `draws from ${text}, which is no plain range`);
        }
      }
    }
  }

  run(): string[] {
    this.checkRelations();
    this.checkNames();
    const relations = new Map(
      this.part('xl/_rels/workbook.xml.rels').children.map(({ attributes }) => [
        attributes['Id'],
        `xl/${attributes['Target']}`,
      ]),
    );
    descendants(this.workbook, 'sheet').forEach((sheet, i) => {
      const path = relations.get(sheet.attributes['r:id']);
      if (path === undefined) this.add('xl/workbook.xml', `has a sheet without a part`);
      else this.checkSheet(i, path);
    });
    this.checkCharts();
    return this.faults;
  }
}

/** What is wrong with an .xlsx file of ours, in sentences. */
export const lintXlsx = (bytes: Uint8Array): string[] => new Linter(bytes).run();
