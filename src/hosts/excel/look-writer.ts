import { type Edge, FONT, FONT_SIZE, looks, marks, numberFormats } from '../../plan/looks';
import type { ConditionModel, FormatId, LookId } from '../../plan/workbook-model';

const edgeStyles: Readonly<
  Record<Edge['style'], readonly ['Continuous' | 'Dash', 'Hairline' | 'Thin' | 'Medium' | 'Thick']>
> = {
  hair: ['Continuous', 'Hairline'],
  thin: ['Continuous', 'Thin'],
  medium: ['Continuous', 'Medium'],
  thick: ['Continuous', 'Thick'],
  dashed: ['Dash', 'Thin'],
};

type Side =
  'EdgeTop' | 'EdgeRight' | 'EdgeBottom' | 'EdgeLeft' | 'InsideHorizontal' | 'InsideVertical';

function drawEdge(borders: Excel.RangeBorderCollection, side: Side, edge: Edge): void {
  const border = borders.getItem(side);
  const [style, weight] = edgeStyles[edge.style];
  border.style = style;
  border.weight = weight;
  border.color = edge.colour;
}

/** Sets the sheet's ground: one font for all cells, text at the top so that long cells read on. */
export function applyGround(format: Excel.RangeFormat): void {
  format.font.name = FONT;
  format.font.size = FONT_SIZE;
  format.verticalAlignment = 'Top';
}

/** Whether an area has more than one row or column, and with them inner edges. */
export interface Shape {
  readonly tall: boolean;
  readonly wide: boolean;
}
export const shapes: readonly Shape[] = [false, true].flatMap((tall) =>
  [false, true].map((wide) => ({ tall, wide })),
);

/**
 * Queues a look for areas of one shape; inner edges are drawn as those of single cells. Answers how many calls
 * it queued at most.
 */
export function applyLook(format: Excel.RangeFormat, id: LookId, { tall, wide }: Shape): number {
  const look = looks[id];
  const { font } = format;
  font.color = look.colour;
  if (look.size) font.size = look.size;
  if (look.bold) font.bold = true;
  if (look.italic) font.italic = true;
  if (look.fill) format.fill.color = look.fill;
  if (look.wrap) format.wrapText = true;
  if (look.align) {
    const sides = { left: 'Left', center: 'Center', right: 'Right' } as const;
    format.horizontalAlignment = sides[look.align];
  }
  const { top, right, bottom, left } = look.edges ?? {};
  const between = bottom ?? top;
  const edges: readonly (readonly [side: Side, edge: Edge | undefined | false])[] = [
    ['EdgeTop', top],
    ['EdgeRight', right],
    ['EdgeBottom', bottom],
    ['EdgeLeft', left],
    ['InsideHorizontal', tall && between],
    ['InsideVertical', wide && right && left],
  ];
  const drawn = edges.filter(([, edge]) => edge);
  for (const [side, edge] of drawn) drawEdge(format.borders, side, edge as Edge);
  return 10 + 4 * drawn.length;
}

/** Queues what a condition puts over a cell. */
export function applyMark(
  format: Excel.ConditionalRangeFormat,
  mark: ConditionModel['mark'],
): void {
  const { colour, fill, bold, italic, edge } = marks[mark];
  format.font.color = colour;
  format.fill.color = fill;
  if (bold) format.font.bold = true;
  if (italic) format.font.italic = true;
  if (!edge) return;
  for (const side of ['EdgeTop', 'EdgeRight', 'EdgeBottom', 'EdgeLeft'] as const) {
    const border = format.borders.getItem(side);
    border.style = edge.style === 'dashed' ? 'Dash' : 'Continuous';
    border.color = edge.colour;
  }
}

export const formatCode = (format: FormatId): string => numberFormats[format];
