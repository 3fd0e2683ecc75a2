import type { Border, BorderDescr, Style } from '@odoo/o-spreadsheet';
import { FONT_SIZE, looks, marks, numberFormats, type Edge } from '../plan/looks';
import type { ConditionModel, FormatId, LookId } from '../plan/workbook-model';

/** The grid writes a little smaller than a sheet of paper. */
const SMALLER = 1;

const edgeStyles: Readonly<Record<Edge['style'], BorderDescr['style']>> = {
  hair: 'dotted',
  thin: 'thin',
  medium: 'medium',
  thick: 'thick',
  dashed: 'dashed',
};

/** The engine keeps what it does not know: so every cell remembers its look, wherever it is moved. */
export interface LookStyle extends Style {
  readonly look?: LookId;
}

/** A look as the engine's style; a text over several cells breaks into lines whatever its look. */
export function styleOf(look: LookId, isMerged = false): LookStyle {
  const { colour, size, bold, italic, fill, align, wrap } = looks[look];
  return {
    look,
    textColor: colour,
    fontSize: (size ?? FONT_SIZE) - SMALLER,
    verticalAlign: 'middle',
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(fill !== undefined && { fillColor: fill }),
    ...(align !== undefined && { align }),
    ...((wrap || isMerged) && { wrapping: 'wrap' as const }),
  };
}

/** The border of a look, where it has one. */
export function borderOf(look: LookId): Border | undefined {
  const { edges } = looks[look];
  if (!edges) return undefined;
  const sides = (['top', 'right', 'bottom', 'left'] as const).flatMap((side) => {
    const edge = edges[side];
    return edge ? [[side, { style: edgeStyles[edge.style], color: edge.colour }] as const] : [];
  });
  return Object.fromEntries(sides);
}

export function markStyle(mark: ConditionModel['mark']): Style {
  const { colour, fill, bold, italic } = marks[mark];
  return { textColor: colour, fillColor: fill, ...(bold && { bold }), ...(italic && { italic }) };
}

/** The engine's notation of a format; nothing where the value itself decides. */
export const formatOf = (format: FormatId): string | undefined =>
  format === 'general' ? undefined : numberFormats[format];
