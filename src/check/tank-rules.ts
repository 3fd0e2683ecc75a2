import { speciesTable } from '../functions/species-table';
import { figure, type Finding } from './finding';
import type { FoundTable, TableLine } from './found-tables';

/** Aerated commercial tanks; see STOCK.LIMIT for the reason. */
const USUAL_LIMIT = 60;
/** Lighter than this in grams a stocked fish is fry; most such entries are kilograms. */
const LIKELY_KILOGRAMS = 3;
/** A tank of fewer litres holds no stock; most such entries are cubic metres. */
const LIKELY_CUBIC_METRES = 40;

function limitOf(line: TableLine): { limit: number; whose: string } {
  const own = line.number('limit');
  if (own !== undefined && own > 0) return { limit: own, whose: 'its limit' };
  const species = speciesTable.book.find(line.text('species') ?? '');
  return species
    ? { limit: species.facts.density_aerated[0], whose: `the usual limit for ${species.name}` }
    : { limit: USUAL_LIMIT, whose: 'the usual limit of an aerated tank' };
}

/** What to do with fish that are too many: nobody nets them in water in which that kills them. */
function thinOut(line: TableLine, say: string, water: number | undefined): string {
  const facts = speciesTable.book.find(line.text('species') ?? '')?.facts;
  if (!facts) return say;
  const [low, high] = [facts.handling_low[0], facts.handling_high[0]];
  const waiting = `More air and less feed until the water has ${low} to ${high} °C: handled outside of it they die`;
  return water !== undefined && (water < low || water > high)
    ? waiting
    : water === undefined
      ? `${say}, in water of ${low} to ${high} °C`
      : say;
}

function tankFindings(line: TableLine, sheet: string, water: number | undefined): Finding[] {
  const fish = line.number('fish');
  const weight = line.number('weight');
  const volume = line.number('volume');
  const findings: Finding[] = [];
  const at = (role: Parameters<TableLine['address']>[0]) => ({
    sheet,
    address: line.address(role),
  });
  if (fish !== undefined && (fish < 0 || !Number.isInteger(fish))) {
    findings.push({
      ...at('fish'),
      level: 'watch',
      what: `${line.called}: ${figure(fish)} fish.`,
      why: 'Fish come in whole numbers, and never fewer than none.',
      remedy: 'Type the count as a whole number.',
    });
  }
  if (weight !== undefined && weight > 0 && weight < LIKELY_KILOGRAMS && (fish ?? 0) > 0) {
    findings.push({
      ...at('weight'),
      level: 'watch',
      what: `${line.called}: a mean weight of ${figure(weight)} g.`,
      why: 'That is fry; a weight typed in kilograms looks like this, and feed and density then come out a thousand times too small.',
      remedy: `Type grams (${figure(weight * 1000)}), or text with its unit such as "${figure(weight)} kg".`,
    });
  }
  if (volume !== undefined && volume > 0 && volume < LIKELY_CUBIC_METRES && (fish ?? 0) > 0) {
    findings.push({
      ...at('volume'),
      level: 'watch',
      what: `${line.called}: ${figure(volume)} L of water.`,
      why: 'That is a bucket; a volume typed in cubic metres looks like this.',
      remedy: `Type litres (${figure(volume * 1000)}), or text with its unit such as "${figure(volume)} m3".`,
    });
    return findings;
  }
  const computed =
    fish !== undefined && weight !== undefined && volume !== undefined && volume > 0
      ? (fish * weight) / volume
      : line.number('density');
  if (computed === undefined) return findings;
  const { limit, whose } = limitOf(line);
  if (computed > limit * (1 + 1e-9)) {
    const place = line.cell('density') === undefined ? at('fish') : at('density');
    const tooMany =
      fish !== undefined && weight !== undefined && volume !== undefined && weight > 0
        ? Math.ceil(fish - (limit * volume) / weight - 1e-9)
        : undefined;
    findings.push({
      ...place,
      level: computed > limit * 1.25 ? 'danger' : 'watch',
      what: `${line.called}: ${figure(computed)} kg of fish in a cubic metre; ${whose} is ${figure(limit)}.`,
      why: 'Above it the fish use up the oxygen sooner than pumps and air bring it, and a stopped pump leaves minutes.',
      remedy: `${thinOut(
        line,
        tooMany === undefined
          ? 'Move fish to another tank, or sell'
          : `Move or sell ${tooMany} fish`,
        water,
      )}${
        tooMany === undefined
          ? ''
          : `; or give the tank ${figure(((fish ?? 0) * (weight ?? 0)) / limit - (volume ?? 0))} L more water`
      }.`,
    });
  }
  return findings;
}

/**
 * Density over the limit, and slips of unit, in every table of tanks. A table of fish and weights that names
 * neither tanks nor their water is a forecast or a record of growth: fractions of fish are right there.
 */
export const tankRules = (table: FoundTable, water: number | undefined): Finding[] =>
  table.roles.has('fish') &&
  (table.roles.has('tank') || table.roles.has('volume')) &&
  (table.roles.has('weight') || table.roles.has('density'))
    ? table.lines.flatMap((line) => tankFindings(line, table.sheet, water))
    : [];
