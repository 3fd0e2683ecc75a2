import { areaAddress } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { XmlEdits } from './follow/xml-edits';
import type { Package } from './package';
import { childNamed, childrenNamed } from './read-xml';
import { readLayout } from './sheet-layout';
import { insertedChild } from './sheet-order';
import { type Attributes, element, textElement } from './write-xml';

/** A rule of a sheet as it is to stand in the file. */
export interface NewRule {
  /** The rule of the file, by its place among those of its kind, in whose stead it comes. */
  readonly inPlaceOf?: number;
  readonly areas: readonly Area[];
  readonly attributes: Attributes;
  readonly formulas: readonly string[];
  /** What stands in it beside formulas: a scale of colours. */
  readonly inner?: string;
}

export interface RuleChanges {
  readonly conditions: readonly NewRule[];
  readonly conditionsGone: readonly number[];
  readonly validations: readonly NewRule[];
  readonly validationsGone: readonly number[];
}

const listOf = (areas: readonly Area[]): string => areas.map(areaAddress).join(' ');

/** Marks on cells. A new one comes behind those that are there, unless it takes the place of one. */
function changeConditions(file: Package, part: string, changes: RuleChanges): void {
  const { conditions, conditionsGone } = changes;
  if (conditions.length + conditionsGone.length === 0) return;
  const edits = new XmlEdits(file, part);
  const { root } = edits;
  const { prefix } = root;
  const rules = readLayout(root).conditions;
  const lists = childrenNamed(root, 'conditionalFormatting');
  const numbers = rules.map(({ attributes }) => Number(attributes['priority'] ?? 0));
  let last = Math.max(0, ...numbers);
  const texts = conditions.map(({ inPlaceOf, areas, attributes, formulas, inner = '' }) => {
    const old = inPlaceOf === undefined ? undefined : rules[inPlaceOf];
    const priority = old?.attributes['priority'] ?? String((last += 1));
    return element(
      `${prefix}conditionalFormatting`,
      { sqref: listOf(areas) },
      element(`${prefix}cfRule`, { ...attributes, priority }, [
        ...formulas.map((formula) => textElement(`${prefix}formula`, formula)),
        inner,
      ]),
    );
  });
  const replaced = conditions.flatMap(({ inPlaceOf }) => inPlaceOf ?? []);
  const gone = new Set([...conditionsGone, ...replaced].flatMap((n) => rules[n]?.element ?? []));
  for (const list of lists) {
    edits.removeFrom(
      list,
      list.children.filter((child) => gone.has(child)),
    );
  }
  edits.write();
  const text = texts.join('');
  if (text === '') return;
  file.edit(part, [insertedChild(file.root(part), 'conditionalFormatting', text)]);
}

function changeValidations(file: Package, part: string, changes: RuleChanges): void {
  const { validations, validationsGone } = changes;
  if (validations.length + validationsGone.length === 0) return;
  const edits = new XmlEdits(file, part);
  const { prefix } = edits.root;
  const rules = readLayout(edits.root).validations;
  const list = childNamed(edits.root, 'dataValidations');
  const texts = validations.map(({ areas, attributes, formulas }) =>
    element(
      `${prefix}dataValidation`,
      { ...attributes, sqref: listOf(areas) },
      formulas.map((formula, i) => textElement(`${prefix}formula${i + 1}`, formula)),
    ),
  );
  const replaced = validations.flatMap(({ inPlaceOf }) => inPlaceOf ?? []);
  const gone = new Set([...validationsGone, ...replaced].flatMap((n) => rules[n]?.element ?? []));
  const xml = file.text(part);
  const kept = childrenNamed(list, 'dataValidation')
    .filter((rule) => !gone.has(rule))
    .map(({ start, end }) => xml.slice(start, end));
  const inner = [...kept, ...texts];
  const whole =
    inner.length === 0 ? '' : element(`${prefix}dataValidations`, { count: inner.length }, inner);
  if (list) file.edit(part, [{ start: list.start, end: list.end, text: whole }]);
  else file.edit(part, [insertedChild(file.root(part), 'dataValidations', whole)]);
}

/** Changes the marks on cells and the rules for what may be typed; other rules stay to the letter. */
export function changeRules(file: Package, part: string, changes: RuleChanges): void {
  changeConditions(file, part, changes);
  changeValidations(file, part, changes);
}
