import { wrongValue } from '../core/errors';
import { nearestName } from '../core/nearest-name';
import { SHORT_DAY } from '../core/season-limits';
import { isoWeekText } from '../core/serial-date';
import type { Farm } from '../plan/farm';
import { unitFor } from '../plan/market-words';
import { placeKey } from '../plan/registers-of-farm';
import { suppliedUnits } from './bed-plan';
import { feedToday } from './feed-of-fish';
import { harvestShares } from './harvest-spread';
import {
  type Batch,
  type PlannedBatch,
  restAfter,
  roomIn,
  type Season,
  type SeasonBed,
  WEEK,
  weekOf,
} from './season';
import { seasonOfFarm, type SeasonWishes } from './season-of-farm';
import { seasonValues } from './season-value';
import { isInShortDays } from './short-days';

/** A crop for a bed that stands empty, and what speaks for it. */
export interface OpenBedChoice {
  readonly crop: string;
  readonly batch: Batch;
  readonly plants: number;
  /** Units that fill a gap of the market, and units beyond what it wants. */
  readonly serves: number;
  readonly surplus: number;
  /** What that is worth for each week in which the bed is kept, in money where prices are typed. */
  readonly valuePerWeek: number;
  readonly reasons: readonly string[];
}

/** Share of a bed that is worth planting. Common practice, no source. */
const MIN_ROOM = 0.2;

const whole = (units: number): string => String(Math.round(units));

/**
 * The crops for one bed now, the best first, beside what stands and what is planned already. A crop is
 * worth what it sells into weeks that are short, less what nobody wants, a week of the bed. A seedling that is
 * not sown yet keeps the bed waiting, which counts.
 */
export function choicesForBed(
  season: Season,
  bed: SeasonBed,
  planned: readonly PlannedBatch[],
): readonly OpenBedChoice[] {
  const values = seasonValues(season);
  const supplies = suppliedUnits(season, planned);
  const first = Math.max(0, weekOf(season, bed.freeFrom + WEEK - 1));
  return season.crops
    .flatMap((crop, c): OpenBedChoice[] => {
      if (!crop.kinds.includes(bed.kind) || (crop.tall && !bed.tall)) return [];
      const roomOf = (batch: Batch): number =>
        roomIn(bed, batch.plantedOut, batch.cleared + restAfter(season, crop.name));
      const week = crop.batches.findIndex(
        (batch, week) => week >= first && !('why' in batch) && roomOf(batch) >= MIN_ROOM,
      );
      const batch = crop.batches[week];
      if (batch === undefined || 'why' in batch) return [];
      const area = bed.area * roomOf(batch);
      const plants = Math.floor(area * crop.density + 1e-9);
      if (plants === 0) return [];
      let serves = 0;
      let surplus = 0;
      let firstShort: number | undefined;
      for (const [at, share] of harvestShares(season, batch)) {
        if (at < 0 || at >= season.horizon) continue;
        const units = share * plants * crop.unitsPerPlant;
        const gap = Math.max(0, (crop.wanted[at] ?? 0) - (supplies[c]?.[at] ?? 0));
        serves += Math.min(gap, units);
        surplus += Math.max(0, units - gap);
        if (gap > 0.5) firstShort ??= at;
      }
      const value = values.unit[c] ?? 0;
      const weeks = Math.max(
        1,
        (batch.cleared + restAfter(season, crop.name) - bed.freeFrom) / WEEK,
      );
      const reasons = [
        firstShort === undefined
          ? 'the market is served in the weeks of its harvest'
          : `the market is short of ${crop.name} from week ${isoWeekText(season.from + WEEK * firstShort)}: this bed gives ${whole(serves)} of the ${unitFor(0, crop.unit)} wanted`,
        ...(surplus > 0.1 * (serves + surplus) ? [`${whole(surplus)} more than is wanted`] : []),
        ...(season.rotate && crop.family !== undefined && crop.family === bed.family
          ? [`follows its own family (${crop.family})`]
          : []),
        ...(week > first ? [`can be planted out from ${isoWeekText(batch.plantedOut)} on`] : []),
        ...(area < bed.area ? ['takes the part of the bed that its rows leave free'] : []),
        ...feedReason(season, area, crop.feedRatio(bed.kind), week),
      ];
      return [
        {
          crop: crop.name,
          batch,
          plants,
          serves,
          surplus,
          valuePerWeek: (value * (serves - values.surplusShare * surplus)) / weeks,
          reasons,
        },
      ];
    })
    .sort((a, b) => b.valuePerWeek - a.valuePerWeek);
}

function feedReason(season: Season, area: number, ratio: number, week: number): string[] {
  const given = season.feed?.[week];
  if (given === undefined) return [];
  const called = season.standingFeed[week] ?? 0;
  const adds = area * ratio;
  if (called + adds <= given) return ['feed is there for it'];
  return called >= given ? ['the beds call for more feed than is given already'] : [];
}

/** Crops that are named for an open bed. */
const BEST = 3;

/** The three best crops for a bed of a farm now, beside the rows of its Plantings. Throws where there is no such bed. */
export function bestForBed(
  farm: Farm,
  name: string,
  wishes: Omit<SeasonWishes, 'feed'>,
): { readonly bed: string; readonly choices: readonly OpenBedChoice[] } {
  const feed = feedToday(farm);
  const { season } = seasonOfFarm(farm, { ...wishes, feed: () => feed });
  const bed = season.beds.find((place) => placeKey(place.name) === placeKey(name));
  if (!bed) {
    const near = nearestName(
      name,
      season.beds.map((place) => place.name),
    );
    throw wrongValue(`there is no bed "${name.trim()}"; the nearest name is "${near}"`);
  }
  const { latitude } = farm.site;
  const choices = choicesForBed(season, bed, [])
    .slice(0, BEST)
    .map((choice) =>
      latitude !== undefined && isInShortDays(latitude, choice.batch)
        ? {
            ...choice,
            reasons: [
              ...choice.reasons,
              `for a good part of its time the days are shorter than ${SHORT_DAY} hours: it may be later and less`,
            ],
          }
        : choice,
    );
  return { bed: bed.name, choices };
}
