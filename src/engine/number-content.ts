/** A number in figures alone: the engine takes one with a power of ten for a text. */
export function inFigures(value: number): string {
  const text = String(value);
  const [, sign = '', first = '', rest = '', power = '0'] =
    /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text) ?? [];
  if (first === '') return text;
  const digits = first + rest;
  const point = 1 + Number(power);
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
  return point >= digits.length
    ? sign + digits.padEnd(point, '0')
    : `${sign}${digits.slice(0, point)}.${digits.slice(point)}`;
}
