import { isoText } from '../core/serial-date';
import type { Finding } from './finding';
import type { FoundTable, TableLine } from './found-tables';

const WEEKS_AHEAD = 8;

const byCrop = (lines: readonly TableLine[]): Map<string, { line: TableLine; sow: number }[]> => {
  const crops = new Map<string, { line: TableLine; sow: number }[]>();
  for (const line of lines) {
    const crop = line.text('crop');
    const sow = line.number('sow');
    if (crop === undefined || sow === undefined || sow <= 0) continue;
    const key = crop.toLowerCase();
    crops.set(key, [...(crops.get(key) ?? []), { line, sow }]);
  }
  for (const list of crops.values()) list.sort((a, b) => a.sow - b.sow);
  return crops;
};

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/**
 * Gaps in the succession of a crop within the next eight weeks: two sowings further apart than one and a
 * half times their usual distance. A crop with fewer than three sowings has no usual distance.
 */
export function sowingRules(table: FoundTable, asOf: number | undefined): Finding[] {
  if (!table.roles.has('sow') || !table.roles.has('crop') || asOf === undefined) return [];
  const end = asOf + 7 * WEEKS_AHEAD;
  return [...byCrop(table.lines).values()].flatMap((sowings) => {
    if (sowings.length < 3) return [];
    const usual = median(sowings.slice(1).map((sowing, i) => sowing.sow - (sowings[i]?.sow ?? 0)));
    return sowings.flatMap(({ line, sow }, i): Finding[] => {
      const next = sowings[i + 1]?.sow ?? Infinity;
      const open = Math.min(next, end) - Math.max(sow, asOf);
      const within = next > asOf && sow < end;
      const far = next - sow > 1.5 * usual && open > 1.5 * usual;
      if (!within || !far) return [];
      const until = Number.isFinite(next) ? `until ${isoText(next)}` : 'after that';
      return [
        {
          level: 'watch',
          what: `${line.text('crop')}: sown on ${isoText(sow)}, nothing ${until}; the usual distance is ${usual} days.`,
          sheet: table.sheet,
          address: line.address('sow'),
          why: 'The market is without it as many days later as the sowing is late.',
          remedy: `Put in a sowing about ${isoText(Math.max(sow + usual, asOf))}.`,
        },
      ];
    });
  });
}
