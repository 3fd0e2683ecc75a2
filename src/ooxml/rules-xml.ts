import { storedFormula } from '../functions/stored-name';
import { areaAddress } from '../plan/addresses';
import type { ConditionModel, SheetModel, ValidationModel } from '../plan/workbook-model';
import { MIN_SERIAL } from '../core/serial-date';
import type { StyleBook } from './styles-xml';
import { type Attributes, cellText, element, textElement } from './write-xml';

interface Rule {
  readonly attributes: Attributes;
  readonly formulas: readonly string[];
}

function numberRule(type: string, min: number | undefined, max: number | undefined): Rule {
  if (min !== undefined && max !== undefined) {
    return { attributes: { type, operator: 'between' }, formulas: [String(min), String(max)] };
  }
  if (max !== undefined) {
    return { attributes: { type, operator: 'lessThanOrEqual' }, formulas: [String(max)] };
  }
  // The least number that a cell holds: any number at all.
  return {
    attributes: { type, operator: 'greaterThanOrEqual' },
    formulas: [String(min ?? -9.99e307)],
  };
}

function ruleOf({ rule }: ValidationModel): Rule {
  switch (rule.kind) {
    case 'list':
      return { attributes: { type: 'list' }, formulas: [rule.name] };
    case 'words':
      return { attributes: { type: 'list' }, formulas: [`"${rule.words.join(',')}"`] };
    case 'number':
      return numberRule('decimal', rule.min, rule.max);
    case 'whole':
      return numberRule('whole', rule.min, rule.max);
    case 'date':
      return numberRule('date', MIN_SERIAL, undefined);
  }
}

/** What may be typed where. */
export function validationsXml(sheet: SheetModel): string {
  const entries = sheet.validations.map((validation) => {
    const { attributes, formulas } = ruleOf(validation);
    return element(
      'dataValidation',
      {
        ...attributes,
        allowBlank: 1,
        showInputMessage: 1,
        showErrorMessage: 1,
        errorTitle: 'Not possible here',
        error: cellText(validation.message),
        sqref: areaAddress(validation.area),
      },
      formulas.map((formula, i) => textElement(`formula${i + 1}`, formula)),
    );
  });
  return entries.length === 0 ? '' : element('dataValidations', { count: entries.length }, entries);
}

/** Marks on results; the first of a sheet goes before the next where both hold. */
export function conditionsXml(sheet: SheetModel, styles: StyleBook): string {
  const entry = (condition: ConditionModel, i: number): string =>
    element('conditionalFormatting', { sqref: areaAddress(condition.area) }, [
      element(
        'cfRule',
        { type: 'expression', dxfId: styles.mark(condition.mark), priority: i + 1, stopIfTrue: 1 },
        textElement('formula', storedFormula(condition.formula)),
      ),
    ]);
  return sheet.conditions.map(entry).join('');
}
