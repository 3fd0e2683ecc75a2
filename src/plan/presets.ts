import { USUAL_OXYGEN } from '../core/fish-oxygen';
import { fuels } from '../core/month-heat';
import { bases, calciumBases, potassiumBases } from '../core/tables/bases';
import { settlers } from '../core/water-ways';
import type { FigureName, PlanName } from './names';
import type { QuantityId } from './quantities';

/**
 * Figures that the plan brings along, to be overwritten by whoever knows better. A farm file names those that
 * were changed under `figures`; null is one that was cleared.
 */

export interface NumberPreset {
  /** In metric units; undefined where it follows from other cells, or is not known. */
  readonly usual?: number;
  readonly quantity: QuantityId;
  /** Bounds in metric units. */
  readonly min: number;
  readonly max: number;
  readonly whole?: true;
  /** A formula gives it as long as nothing is typed. */
  readonly follows?: true;
  /** What the plan brought along before: nobody's own figure where it stands in an older workbook. */
  readonly formerly?: number;
  /** The same only of workbooks without cells of this name: in others somebody typed it. */
  readonly formerlyWithout?: PlanName;
}

export interface WordPreset {
  readonly usual: string;
  /** The words to choose from; a crop of the table without them. */
  readonly words?: readonly string[];
}

const number = (
  usual: number | undefined,
  quantity: QuantityId,
  min: number,
  max: number,
): NumberPreset => ({ ...(usual !== undefined && { usual }), quantity, min, max });

const spacing = (cm: number): NumberPreset => number(cm, 'spacing', 1, 500);
const plantYield = (kg: number): NumberPreset => number(kg, 'plantYield', 0.001, 100);
const price = number(3, 'pricePerMass', 0, 1e5);
const mgPerLitre = (usual?: number): NumberPreset => number(usual, 'concentration', 0, 5000);

/** Whether something runs when the mains fail. */
const outage: WordPreset = { usual: 'no', words: ['yes', 'no'] };
const itemPrice = number(undefined, 'number', 0, 1e6);

export const presets = {
  House_changes: number(60, 'perHour', 0.1, 200),
  Pump_turns: number(1, 'perHour', 0.1, 10),
  Pump_return: number(0.9, 'share', 0.3, 1.5),
  Pump_efficiency: number(0.3, 'share', 0.05, 0.9),
  Pump_elbows: { ...number(4, 'number', 0, 1000), whole: true },
  Pump_valves: { ...number(1, 'number', 0, 1000), whole: true },
  /** From the species of the tanks. */
  Plant_oxygen: {
    ...number(undefined, 'concentration', 1, 20),
    follows: true,
    formerly: USUAL_OXYGEN,
    formerlyWithout: 'Plant_oxygen_least',
  },
  Plant_peak: number(1.4, 'number', 1, 3),
  Plant_bacteria: number(2, 'number', 0, 20),
  Plant_stone_depth: number(1, 'length', 0.1, 5),
  Plant_dissolved: number(0.03, 'share', 0.005, 0.3),
  Plant_stone_air: number(1.2, 'airFlow', 0.05, 100),
  Plant_standby: { ...number(2, 'number', 0, 1000), whole: true },
  Plant_ratio: number(5, 'number', 0, 20),
  Plant_pump_shutoff: number(undefined, 'length', 0.1, 200),
  Plant_pump_most: number(undefined, 'flow', 10, 1e7),
  Plant_pumps_running: { ...number(1, 'number', 1, 100), whole: true },
  Plant_drain_bore: number(100, 'bore', 20, 1000),
  Plant_drain_slope: number(0.01, 'share', 0.001, 0.2),
  Plant_drain_length: number(undefined, 'length', 0, 5000),
  Plant_settler_area: number(undefined, 'area', 0.05, 1000),
  Plant_settler: { usual: 'radial-flow settler', words: settlers.map(({ name }) => name) },
  Plant_screen: number(undefined, 'share', 0, 0.99),
  Plant_submerged: number(100, 'volume', 0, 1e6),
  Plant_tank_depth: number(1, 'length', 0.2, 6),
  Plant_discharge: number(0.005, 'share', 0, 0.2),
  Plant_source_sodium: number(10, 'concentration', 0, 10000),
  Plant_source_hardness: number(undefined, 'alkalinity', 0, 5000),
  Plant_source_chlorine: number(undefined, 'concentration', 0, 50),
  Plant_disinfectant: { usual: 'chlorine', words: ['chlorine', 'chloramine'] },
  /** From the turnover of the pumps. */
  Plant_bed_flow: { ...number(undefined, 'flow', 10, 1e7), follows: true },
  Plant_bed_way: { usual: 'siphon', words: ['siphon', 'standpipe and timer'] },
  Plant_bed_bore: number(25, 'bore', 5, 500),
  Plant_bed_drop: number(0.3, 'length', 0, 5),
  Plant_bed_turn: { ...number(60, 'number', 5, 1440), whole: true },
  /** From the air of the house. */
  Plant_cover: { ...number(undefined, 'area', 1, 1e6), follows: true },
  Plant_floor: { ...number(undefined, 'area', 1, 1e6), follows: true },
  Plant_edge: number(undefined, 'length', 0, 10000),
  Plant_cover_loss: number(6.5, 'number', 0.5, 20),
  Plant_leaks: number(1, 'perHour', 0.1, 20),
  Plant_warmth: number(10, 'temperature', -5, 35),
  Plant_tank_loss: number(5, 'number', 0.1, 20),
  Plant_tank_walls: number(1, 'number', 1, 3),
  Plant_base: number(4, 'temperature', -5, 20),
  Plant_fuel: { usual: 'propane', words: fuels.map(({ name }) => name) },
  Plant_fuel_price: number(undefined, 'number', 0, 1e6),
  Plant_clearness: number(0.5, 'share', 0.1, 0.85),
  Plant_film: number(0.7, 'share', 0.1, 1),
  Plant_shade: number(0.3, 'share', 0, 0.9),
  Plant_shade_from: number(30, 'temperature', 0, 60),
  Plant_rise: number(5, 'number', 0.5, 20),
  Plant_lamps_ppfd: number(undefined, 'number', 0, 3000),
  Plant_lamps_hours: number(14, 'hours', 0, 24),
  Plant_heater_there: number(undefined, 'power', 1, 1e8),
  Plant_wet_hours: number(undefined, 'hours', 0, 24),
  Plant_night_hours: number(undefined, 'hours', 0, 14),
  Plant_hours_pumps: number(24, 'hours', 0, 24),
  Plant_outage_pumps: outage,
  Plant_hours_blower: number(24, 'hours', 0, 24),
  Plant_watts_lamps: number(undefined, 'power', 0, 1e6),
  Plant_outage_lamps: outage,
  Plant_watts_fans: number(undefined, 'power', 0, 1e6),
  Plant_hours_fans: number(12, 'hours', 0, 24),
  Plant_outage_fans: outage,
  Plant_watts_other: number(undefined, 'power', 0, 1e6),
  Plant_hours_other: number(24, 'hours', 0, 24),
  Plant_outage_other: outage,
  Plant_energy_price: number(undefined, 'number', 0, 1e6),
  Plant_outage: number(12, 'hours', 0.5, 1000),
  Plant_battery_there: number(undefined, 'energy', 0.01, 1e6),
  Plant_generator_there: number(undefined, 'power', 1, 1e8),
  Plant_price_tanks: itemPrice,
  Plant_price_beds: itemPrice,
  Plant_price_gravel_beds: itemPrice,
  Plant_price_film_beds: itemPrice,
  Plant_price_gravel: itemPrice,
  Plant_price_outlets: itemPrice,
  Plant_price_media: itemPrice,
  Plant_price_sump: itemPrice,
  Plant_price_pipe: itemPrice,
  Plant_price_pipe_32: itemPrice,
  Plant_price_pipe_75: itemPrice,
  Plant_price_pipe_110: itemPrice,
  Plant_price_pipe_wide: itemPrice,
  Plant_price_pipe_unknown: itemPrice,
  Plant_price_elbows: itemPrice,
  Plant_price_valves: itemPrice,
  Plant_price_pumps: itemPrice,
  Plant_price_blowers: itemPrice,
  Plant_price_stones: itemPrice,
  Plant_price_heater: itemPrice,
  Plant_price_alarms: itemPrice,
  Plant_price_standby: itemPrice,
  Batch_weeks: { ...number(26, 'weeks', 1, 52), whole: true },
  Gravel_kind: { usual: 'gravel', words: ['gravel', 'clean gravel'] },
  Load_base_own: number(undefined, 'number', 0, 500),
  Gravel_specific: number(150, 'specificSurface', 10, 1000),
  /** From the depths of the gravel beds. */
  Flood_depth: { ...number(undefined, 'length', 0.01, 2), follows: true },
  Flood_voids: number(0.4, 'share', 0.1, 0.7),
  Flood_together: number(1, 'share', 0.01, 1),
  Money_fish_share: number(0.5, 'share', 0, 1),
  Space_crop: { usual: 'broccoli' },
  // cm, kg of one plant: broccoli at 2.8 and 8.3 plants on a m2 (Chung 1985).
  Space_row_a: spacing(60),
  Space_between_a: spacing(60),
  Space_yield_a: plantYield(0.43),
  Space_price_a: price,
  Space_row_b: spacing(35),
  Space_between_b: spacing(35),
  Space_yield_b: plantYield(0.28),
  Space_price_b: price,
  Sowing_losses: number(0.1, 'share', 0, 0.9),
  Season_later: { ...number(0, 'weeks', 0, 34), whole: true },
  Season_hours_sow: number(undefined, 'hours', 0, 1000),
  Season_hours_plant: number(undefined, 'hours', 0, 1000),
  Season_hours_cut: number(undefined, 'hours', 0, 1000),
  Least_acidity: number(6.4, 'ph', 0, 14),
  Most_acidity: number(7.6, 'ph', 0, 14),
  // These follow the fish that stand in the tanks.
  Most_tan: { ...mgPerLitre(), follows: true },
  Least_oxygen: { ...mgPerLitre(), follows: true },
  Most_unionised: { ...mgPerLitre(), follows: true, formerly: 0.05 },
  Most_nitrite: { ...mgPerLitre(), follows: true, formerly: 1 },
  Least_nitrate: mgPerLitre(5),
  Most_nitrate: mgPerLitre(150),
  Least_oxygen_share: number(0.6, 'share', 0, 2),
  Least_alkalinity: number(60, 'alkalinity', 0, 5000),
  Most_alkalinity: number(140, 'alkalinity', 0, 5000),
  Most_carbon_dioxide: { ...mgPerLitre(), follows: true, formerly: 20 },
  Least_iron: mgPerLitre(1),
  Most_iron: mgPerLitre(3),
  Dose_base_aim: number(100, 'alkalinity', 1, 2000),
  Dose_base_kind: { usual: 'potassium bicarbonate', words: Object.keys(bases) },
  Dose_iron_aim: number(2, 'concentration', 0.1, 50),
  Dose_iron_share: number(0.1, 'share', 0.01, 0.5),
  Nutrient_potassium_base: { usual: 'potassium bicarbonate', words: potassiumBases },
  Nutrient_calcium_base: { usual: 'calcium hydroxide', words: calciumBases },
  Dose_chloride: number(undefined, 'concentration', 0, 20000),
} as const satisfies Partial<Record<FigureName, NumberPreset | WordPreset>>;

export type PresetName = keyof typeof presets;

export const presetNames = Object.keys(presets) as PresetName[];

export const presetOf = (name: PresetName): NumberPreset | WordPreset => presets[name];

/** What figures a farm changed, in metric units. */
export type Figures = Readonly<Partial<Record<PresetName, number | string | null>>>;

/** What stands in the cell of a preset: the farm's own figure, none where it was cleared, the usual one. */
export function presetValue(
  name: PresetName,
  figures: Figures | undefined,
): number | string | undefined {
  const own = figures?.[name];
  return own === null ? undefined : (own ?? presetOf(name).usual);
}
