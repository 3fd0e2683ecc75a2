import { EVEN_SHARE } from '../core/feed-area';
import { type BedClass, weeksKept } from './bed-classes';
import { harvestShares } from './harvest-spread';
import type { Batch, Season, SeasonCrop } from './season';
import type { SeasonValues } from './season-value';
import { LinearModel, type Variable } from './solver';

/** So many places of one class planted with one crop in one week. */
export interface PlantingChoice {
  readonly crop: number;
  readonly bedClass: number;
  readonly week: number;
  readonly batch: Batch;
  /** Weeks that the places are kept, rest included. */
  readonly kept: number;
  /** Plants and m2 of one place. */
  readonly plants: number;
  readonly area: number;
  readonly count: Variable;
}

/** Places of one class that an earlier plan gave to a crop in a week. */
export interface EarlierChoice {
  readonly crop: number;
  readonly bedClass: number;
  readonly week: number;
  readonly places: number;
  readonly batch: Batch;
  /** Its seed is in the trays already. */
  readonly sown: boolean;
}

export interface BedModel {
  readonly model: LinearModel;
  readonly choices: readonly PlantingChoice[];
}

/** Of what the m2 of a batch could bring while it stands: what keeping a sown one, or a planned one, is worth. */
const SOWN_WEIGHT = 3;
const STAYING_WEIGHT = 0.3;

export const fits = (crop: SeasonCrop, { kind, tall }: BedClass): boolean =>
  crop.kinds.includes(kind) && (tall || !crop.tall);

/**
 * The season as whole numbers: how many places of each class get which crop in which week. What is sold is
 * the lesser of supply and want; the objective, which is made least, is what surplus, empty places and feed
 * out of balance cost less what the market pays.
 */
export function bedModel(
  season: Season,
  classes: readonly BedClass[],
  values: SeasonValues,
  earlier: readonly EarlierChoice[] = [],
): BedModel {
  const model = new LinearModel();
  const choices: PlantingChoice[] = [];
  const weeks = Array.from({ length: season.horizon }, (_, week) => week);

  season.crops.forEach((crop, c) => {
    classes.forEach((bedClass, k) => {
      if (!fits(crop, bedClass)) return;
      const plants = Math.floor(bedClass.placeArea * crop.density + 1e-9);
      if (plants === 0) return;
      for (const week of weeks) {
        const batch = crop.batches[week];
        const free = bedClass.free[week] ?? 0;
        if (batch === undefined || 'why' in batch || free === 0) continue;
        const kept = weeksKept(season, crop.name, batch);
        // A row of the Plantings may keep the beds before it would be cleared.
        if (bedClass.free.slice(week, week + kept).includes(0)) continue;
        choices.push({
          crop: c,
          bedClass: k,
          week,
          batch,
          kept,
          plants,
          area: bedClass.placeArea,
          count: model.variable({ max: free, whole: true }),
        });
      }
    });
  });

  keepRows(classes, values, earlier, season, choices, model);

  // Places: what was planted and not cleared, and what stands empty.
  classes.forEach((bedClass, k) => {
    const own = choices.filter((choice) => choice.bedClass === k);
    for (const week of weeks) {
      const free = bedClass.free[week] ?? 0;
      const standing = own.filter(
        (choice) => choice.week <= week && week < choice.week + choice.kept,
      );
      if (free === 0 && standing.length === 0) continue;
      const empty = model.variable({
        max: free,
        cost: values.emptyArea * bedClass.placeArea,
      });
      model.row([...standing.map((choice) => [choice.count, 1] as const), [empty, 1]], {
        min: free,
        max: free,
      });
    }
  });

  // The market: supply = sold + surplus, sold at most what is wanted.
  season.crops.forEach((crop, c) => {
    const value = values.unit[c] ?? 0;
    const terms = new Map<number, (readonly [Variable, number])[]>();
    for (const choice of choices.filter((choice) => choice.crop === c)) {
      for (const [week, share] of harvestShares(season, choice.batch)) {
        if (week < 0 || week >= season.horizon) continue;
        const units = share * choice.plants * crop.unitsPerPlant;
        terms.set(week, [...(terms.get(week) ?? []), [choice.count, units]]);
      }
    }
    for (const week of weeks) {
      const supply = terms.get(week) ?? [];
      const standing = crop.standing[week] ?? 0;
      const wanted = crop.wanted[week] ?? 0;
      if (supply.length === 0 && standing === 0) continue;
      const sold = model.variable({ max: wanted, cost: -value });
      const surplus = model.variable({ cost: value * values.surplusShare });
      model.row([...supply, [sold, -1], [surplus, -1]], { min: -standing, max: -standing });
    }
  });

  feedRows(season, classes, choices, values, model);
  nurseryRows(season, choices, model);
  return { model, choices };
}

/**
 * What an earlier plan has sown is planted out wherever there is room, and what it meant to sow stays as it was
 * where another plan is not clearly better: a change costs hands and trust.
 */
function keepRows(
  classes: readonly BedClass[],
  values: SeasonValues,
  earlier: readonly EarlierChoice[],
  season: Season,
  choices: PlantingChoice[],
  model: LinearModel,
): void {
  for (const { crop, bedClass, week, places, batch, sown } of earlier) {
    const { placeArea } = classes[bedClass] as BedClass;
    const { name, density } = season.crops[crop] as SeasonCrop;
    const kept = weeksKept(season, name, batch);
    const worth = values.areaWeek * placeArea * kept;
    if (sown) {
      choices.push({
        crop,
        bedClass,
        week,
        batch,
        kept,
        plants: Math.floor(placeArea * density + 1e-9),
        area: placeArea,
        count: model.variable({ max: places, whole: true, cost: -SOWN_WEIGHT * worth }),
      });
      continue;
    }
    const same = choices.find(
      (choice) => choice.crop === crop && choice.bedClass === bedClass && choice.week === week,
    );
    if (same === undefined) continue;
    const stays = model.variable({ max: places, cost: -STAYING_WEIGHT * worth });
    model.row(
      [
        [stays, 1],
        [same.count, -1],
      ],
      { max: 0 },
    );
  }
}

/** Feed called for within what is called even of feed given; what is beyond weighs. */
function feedRows(
  season: Season,
  classes: readonly BedClass[],
  choices: readonly PlantingChoice[],
  values: SeasonValues,
  model: LinearModel,
): void {
  const { feed } = season;
  if (!feed) return;
  const ratioOf = (choice: PlantingChoice): number => {
    const { kind } = classes[choice.bedClass] as BedClass;
    return (season.crops[choice.crop] as SeasonCrop).feedRatio(kind);
  };
  for (let week = 0; week < season.horizon; week++) {
    const given = feed[week] ?? 0;
    const standing = season.standingFeed[week] ?? 0;
    const terms = choices
      .filter((choice) => choice.week <= week && week < choice.week + choice.kept)
      .map((choice) => [choice.count, choice.area * ratioOf(choice)] as const);
    const over = model.variable({ cost: values.feedGram });
    const under = model.variable({ cost: values.feedGram });
    model.row([...terms, [over, -1], [under, 1]], {
      min: given * (1 - EVEN_SHARE) - standing,
      max: given * (1 + EVEN_SHARE) - standing,
    });
  }
}

/** Seedlings that stand in the nursery at once. */
function nurseryRows(season: Season, choices: readonly PlantingChoice[], model: LinearModel): void {
  if (season.nursery === undefined) return;
  for (let week = 0; week < season.horizon; week++) {
    const terms = choices
      .filter((choice) => {
        const nursery = season.crops[choice.crop]?.nurseryWeeks ?? 0;
        return choice.week - nursery <= week && week < choice.week;
      })
      .map((choice) => [choice.count, choice.plants] as const);
    const room = Math.max(0, season.nursery - (season.nurseryHeld?.[week] ?? 0));
    if (terms.length > 0) model.row(terms, { max: room });
  }
}
