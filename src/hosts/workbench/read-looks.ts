import type { Border, Style } from '@odoo/o-spreadsheet';
import { numberFormats } from '../../plan/looks';
import type { ConditionModel, FormatId, LookId } from '../../plan/workbook-model';
import { markStyle, styleOf, type LookStyle } from '../../engine/cell-styles';

/** Fonts and fills as one text, without what the engine leaves out as usual. */
function essence(style: Style): string {
  const { textColor, fillColor, bold, italic, strikethrough, underline, fontSize, align } = style;
  return JSON.stringify([
    textColor?.toUpperCase() ?? '',
    fillColor?.toUpperCase() ?? '',
    bold === true,
    italic === true,
    strikethrough === true,
    underline === true,
    fontSize ?? 10,
    // The engine takes the left for the usual side.
    align === 'left' ? '' : (align ?? ''),
  ]);
}

export interface FoundLook {
  readonly look: LookId;
  /** False where the grower gave the cell a style of its own, which the look does not hold. */
  readonly exact: boolean;
}

const plainStyle = essence({});

/** The look that a cell was given, or for a cell of the grower's own the plainest one. */
export function readLook(style: LookStyle, border: Border | undefined): FoundLook {
  const { look } = style;
  if (look) return { look, exact: essence(style) === essence(styleOf(look)) };
  return { look: 'text', exact: essence(style) === plainStyle && border === undefined };
}

export interface FoundFormat {
  readonly format: FormatId;
  readonly exact: boolean;
}

const formatIds = Object.keys(numberFormats) as FormatId[];

/** The plan's format that a format of the engine is, or the nearest one. */
export function readFormat(format: string | undefined): FoundFormat {
  if (format === undefined) return { format: 'general', exact: true };
  const same = formatIds.find((id) => numberFormats[id] === format);
  if (same) return { format: same, exact: true };
  if (/[ymdhs]/i.test(format.replace(/\[[^\]]*\]|"[^"]*"/g, ''))) {
    // Another order of year, month and day shows the same date; hours would be lost.
    return { format: 'date', exact: !/[hs]/i.test(format) };
  }
  if (format.includes('%')) return { format: 'percent', exact: false };
  const decimals = /\.(0+)/.exec(format)?.[1]?.length ?? 0;
  const nearest: readonly FormatId[] = ['whole', 'one', 'two', 'three'];
  return { format: nearest[Math.min(decimals, 3)] ?? 'general', exact: false };
}

/** The mark whose colours a conditional format has. */
export const readMark = (style: Style): ConditionModel['mark'] | undefined =>
  (['good', 'watch', 'bad'] as const).find((mark) => essence(markStyle(mark)) === essence(style));
