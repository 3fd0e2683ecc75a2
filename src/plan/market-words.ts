/** What the market is counted in where there are more than one; weights have no plural. */
const many: Readonly<Record<string, string>> = { piece: 'pieces', bunch: 'bunches' };

/** A unit of the market behind a count. */
export const unitFor = (count: number, unit: string): string =>
  count === 1 ? unit : (many[unit] ?? unit);

/** "1 piece", "225 pieces", "3 kg". */
export const marketCount = (count: number, unit: string): string =>
  `${count} ${unitFor(count, unit)}`;
