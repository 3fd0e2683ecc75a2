import type { Style } from '@odoo/o-spreadsheet';
import type { ConditionModel, FormatId, LookId } from '../../plan/model';

const ink = '#1f2a2e';

export const styleOf: Readonly<Record<LookId, Style>> = {
  text: { textColor: ink },
  title: { textColor: '#12505b', bold: true, fontSize: 18 },
  lead: { textColor: '#4a5a60', italic: true },
  heading: { textColor: '#12505b', bold: true, fontSize: 13 },
  columnHead: { textColor: '#ffffff', fillColor: '#12505b', bold: true, wrapping: 'wrap' },
  label: { textColor: ink },
  unit: { textColor: '#5c6b70' },
  input: { textColor: '#1b3fa0', fillColor: '#fff7d6' },
  preset: { textColor: '#5a4a00', fillColor: '#fffdf0' },
  computed: { textColor: ink },
  result: { textColor: ink, bold: true, fillColor: '#e3f1ee' },
  verdict: { textColor: ink, bold: true },
  caution: { textColor: '#7a2e12', wrapping: 'wrap' },
  source: { textColor: '#5c6b70', fontSize: 9 },
  tick: { textColor: ink, align: 'center' },
};

export const markStyle: Readonly<Record<ConditionModel['mark'], Style>> = {
  good: { fillColor: '#dcefdc', textColor: '#1d5b2a' },
  watch: { fillColor: '#fdeec4', textColor: '#6b4a00' },
  bad: { fillColor: '#f8d9d3', textColor: '#8a1f11' },
};

export const numberFormat: Readonly<Record<FormatId, string | undefined>> = {
  general: undefined,
  whole: '#,##0',
  one: '#,##0.0',
  two: '#,##0.00',
  three: '#,##0.000',
  percent: '0%',
  date: 'yyyy-mm-dd',
  money: '#,##0.00',
  text: '@',
};
