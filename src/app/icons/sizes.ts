/** Sizes in pixels that Office asks for; the smallest have a drawing of their own. */
export const iconSizes = [16, 20, 24, 32, 40, 48, 64, 80] as const;
const MAX_SMALL_ICON = 24;

export const drawingFor = (size: number): string =>
  size <= MAX_SMALL_ICON ? 'icon-small.svg' : 'icon.svg';

export const iconFile = (size: number): string => `icon-${size}.png`;
