import type { CropFact } from '../core/tables/crops';
import type { FishFact } from '../core/tables/species';
import { lookupRow } from '../functions/lookup';
import { call, cases, type Condition, Formula, madeElsewhere, type Part } from './formula-parts';

/**
 * The names by which formulas of the plan call its cells. Growers use them in formulas of their own, so
 * that none is ever changed or taken away.
 */

/** What the Plantings reckon of the weeks to come. */
export type PlantingAhead =
  | 'line'
  | 'out'
  | 'counts_from'
  | 'month'
  | 'warmth'
  | 'due_month'
  | 'ripe'
  | 'due'
  | 'free'
  | 'needs'
  | 'slot'
  | 'slots'
  | 'turn'
  | 'before'
  | 'own'
  | 'until'
  | 'holder'
  | 'mark'
  | 'newest'
  | 'kept'
  | 'newest_cut'
  | 'kept_cut'
  | 'share'
  | 'units'
  | 'ends'
  | 'rate'
  | 'moment'
  | 'calls';

/** Columns of the registers; their names are prefix and column, such as Tanks_volume. */
export interface RegisterColumns {
  Tanks:
    | 'name'
    | 'volume'
    | 'species'
    | 'fish'
    | 'weight'
    | 'stocked'
    | 'own_limit'
    | 'biomass'
    | 'density'
    | 'limit'
    | 'room'
    | 'rate'
    | 'feed'
    | 'verdict'
    | 'lot'
    | 'line'
    | 'status'
    | 'sold_at'
    | 'handling';
  Pumps:
    | 'tank'
    | 'bore'
    | 'pipe'
    | 'lift'
    | 'water'
    | 'turnover'
    | 'oxygen_flow'
    | 'loss'
    | 'power'
    | 'verdict'
    | 'status';
  Plant:
    | 'tank'
    | 'air_there'
    | 'use'
    | 'air'
    | 'stones'
    | 'all_stops'
    | 'air_stops'
    | 'pump_stops'
    | 'full_week'
    | 'full'
    | 'unfed'
    | 'halved'
    | 'saturated'
    | 'backup'
    | 'verdict'
    | 'pipe_water'
    | 'supply'
    | 'unfed_use'
    | 'full_place'
    | 'full_use'
    | 'oxygen_least';
  Beds:
    | 'name'
    | 'kind'
    | 'length'
    | 'width'
    | 'depth'
    | 'crop'
    | 'plants'
    | 'sown'
    | 'planted'
    | 'area'
    | 'spacing'
    | 'out'
    | 'first_cut'
    | 'clear'
    | 'state'
    | 'feed_full'
    | 'feed'
    | 'income'
    | 'task'
    | 'task_key'
    | 'line'
    | 'status'
    | 'task_code'
    | 'harvest_week'
    | 'content'
    | 'flooded'
    | 'light_from'
    | 'light_to'
    | 'light'
    | 'light_share'
    | 'batch';
  Sowing:
    | 'crop'
    | 'sold_as'
    | 'wanted'
    | 'price'
    | 'own_yield'
    | 'every'
    | 'harvest'
    | 'own_germination'
    | 'own_losses'
    | 'cells'
    | 'gives'
    | 'plants'
    | 'seeds'
    | 'trays'
    | 'first'
    | 'next'
    | 'week'
    | 'out'
    | 'cut'
    | 'needed'
    | 'there'
    | 'verdict'
    | 'line'
    | 'status'
    | 'season'
    | 'price_counts'
    | 'weeks'
    | 'months';
  Water:
    | 'date'
    | 'temperature'
    | 'acidity'
    | 'tan'
    | 'nitrite'
    | 'nitrate'
    | 'oxygen'
    | 'alkalinity'
    | 'iron'
    | 'added'
    | 'base_given'
    | 'base'
    | 'unionised'
    | 'oxygen_share'
    | 'carbon_dioxide'
    | 'verdict'
    | 'status';
  Fishlog:
    | 'date'
    | 'tank'
    | 'what'
    | 'fish'
    | 'weight'
    | 'to_tank'
    | 'lot'
    | 'planned'
    | 'remark'
    | 'spread'
    | 'says'
    | 'kind'
    | 'tank_number'
    | 'to_number'
    | 'stage'
    | 'fault'
    | 'key'
    | 'place'
    | 'coming'
    | 'asked';
  Feedlog: 'date' | 'tank' | 'given' | 'feed' | 'remark' | 'says';
  Plantings:
    | 'batch'
    | 'crop'
    | 'seeds'
    | 'sown'
    | 'up'
    | 'came_up'
    | 'bed'
    | 'plants'
    | 'planted'
    | 'first_cut'
    | 'cleared'
    | 'planned'
    | 'remark'
    | 'says'
    | 'bed_number'
    | 'fault'
    | 'earlier'
    | 'code'
    | 'sorted'
    | 'at'
    | 'stand'
    | 'asked'
    | PlantingAhead;
  Treatments:
    | 'date'
    | 'where'
    | 'what'
    | 'amount'
    | 'wait'
    | 'remark'
    | 'free'
    | 'says'
    | 'place'
    | 'key'
    | 'sorted'
    | 'until';
  Presets: 'what' | 'figure' | 'why' | 'field';
  Own:
    | 'figure'
    | 'of'
    | 'part'
    | 'unit'
    | 'batches'
    | 'table'
    | 'mean'
    | 'blend'
    | 'differs'
    | 'use'
    | 'few'
    | 'counts'
    | 'says'
    | 'lowest'
    | 'highest'
    | 'low'
    | 'high'
    | 'weight'
    | 'up_to'
    | 'source'
    | 'key';
  Harvest:
    | 'date'
    | 'what'
    | 'bed'
    | 'quantity'
    | 'unit'
    | 'price'
    | 'buyer'
    | 'income'
    | 'kind'
    | 'says'
    | 'month';
}

export type RegisterPrefix = keyof RegisterColumns;

type RegisterName = {
  [P in RegisterPrefix]: `${P}_${RegisterColumns[P]}`;
}[RegisterPrefix];

/** Figures and blocks that stand alone, by their sheet. The plan makes each of them, and no other. */
export const figureNames = {
  Plantings: ['Planting_says'],
  'Fish log': [
    'Held_fish',
    'Held_weight',
    'Held_since',
    'Held_lot',
    'Held_wrong',
    'Journal_rise',
    'Journal_before',
    'Journal_appetite',
    'Journal_order',
    'Journal_problem',
    'Journal_says',
  ],
  Site: [
    'Farm_name',
    'Farm_place',
    'Farm_currency',
    'Farm_date',
    'Farm_week',
    'Farm_latitude',
    'Farm_altitude',
    'Farm_salinity',
    'Site_trellis',
    'House_volume',
    'House_changes',
    'House_flow',
    'Water_now',
    'Water_year',
    'Month_water',
    'Month_high',
    'Month_low',
    'Month_humidity',
    'Month_daylight',
    'Month_air',
    'Month_thirst',
  ],
  'Plant room': [
    'Pump_turns',
    'Pump_return',
    'Pump_efficiency',
    'Pump_full',
    'Pump_elbows',
    'Pump_valves',
    'Pump_fittings',
    'Plant_answer',
    'Plant_oxygen',
    'Plant_peak',
    'Plant_bacteria',
    'Plant_stone_depth',
    'Plant_dissolved',
    'Plant_stone_air',
    'Plant_standby',
    'Plant_standby_air',
    'Plant_standby_brings',
    'Plant_fish_oxygen',
    'Plant_filter_oxygen',
    'Plant_flow_brings',
    'Plant_air_brings',
    'Plant_blower',
    'Plant_fullest',
    'Plant_carbon_dioxide',
    'Plant_ratio',
    'Plant_column_air',
    'Plant_stripped',
    'Plant_pump_shutoff',
    'Plant_pump_most',
    'Plant_pumps_running',
    'Plant_turnover',
    'Plant_head',
    'Plant_pump_flow',
    'Plant_drain_bore',
    'Plant_drain_slope',
    'Plant_drain_length',
    'Plant_drain',
    'Plant_drain_pipes',
    'Plant_settler_area',
    'Plant_settler',
    'Plant_settled',
    'Plant_screen',
    'Plant_solids_left',
    'Plant_submerged',
    'Plant_tank_depth',
    'Plant_tank_surface',
    'Plant_crop_water',
    'Plant_evaporation',
    'Plant_discharge',
    'Plant_makeup',
    'Plant_source_sodium',
    'Plant_sodium',
    'Plant_source_hardness',
    'Plant_hardness',
    'Plant_source_chlorine',
    'Plant_disinfectant',
    'Plant_thiosulphate',
    'Plant_chloramine',
    'Plant_sump',
    'Plant_beds',
    'Plant_bed_together',
    'Plant_bed_flow',
    'Plant_bed_way',
    'Plant_bed_bore',
    'Plant_bed_drop',
    'Plant_bed_turn',
    'Plant_bed_full',
    'Plant_bed_least',
    'Plant_bed_fill',
    'Plant_bed_drain',
    'Plant_bed_groups',
    'Plant_bed_least_flow',
    'Plant_bed_at_once',
    'Plant_cover',
    'Plant_floor',
    'Plant_edge',
    'Plant_cover_loss',
    'Plant_leaks',
    'Plant_warmth',
    'Plant_tank_loss',
    'Plant_tank_walls',
    'Plant_base',
    'Plant_fuel',
    'Plant_fuel_price',
    'Plant_clearness',
    'Plant_film',
    'Plant_shade',
    'Plant_shade_from',
    'Plant_rise',
    'Plant_lamps_ppfd',
    'Plant_lamps_hours',
    'Plant_lamps_light',
    'Plant_tank_sides',
    'Plant_tank_air',
    'Plant_heat',
    'Plant_tank_heat',
    'Plant_light',
    'Plant_vent',
    'Plant_fuel_cost',
    'Plant_tank_cost',
    'Plant_heater',
    'Plant_heater_there',
    'Plant_wet_hours',
    'Plant_night_hours',
    'Plant_mould',
  ],
  'Stock plan': [
    'Stock_species',
    'Stock_line',
    'Stock_wanted',
    'Stock_start_weight',
    'Stock_harvest_weight',
    'Stock_survival',
    'Stock_survival_counts',
    'Stock_tanks',
    'Stock_density',
    'Stock_coefficient',
    'Stock_week_survival',
    'Stock_days',
    'Stock_interval',
    'Stock_sold',
    'Stock_batch',
    'Stock_batch_litres',
    'Stock_fingerlings',
    'Stock_feed',
    'Stock_yield',
    'Stock_litres',
    'Stock_litres_needed',
    'Stock_verdict',
    'Stock_task',
    'Batch_weeks',
    'Weeks_date',
    'Weeks_water',
    'Weeks_weights',
    'Weeks_fish',
    'Weeks_tank',
    'Weeks_limit',
    'Weeks_harvest',
    'Weeks_head',
    'Weeks_first',
    'Weeks_handling_low',
    'Weeks_handling_high',
  ],
  'Tank year': [
    'Ahead_survival',
    'Ahead_feed',
    'Ahead_rows',
    'Ahead_standing',
    'Ahead_fullest',
    'Ahead_sold',
    'Ahead_stocked',
    'Ahead_fish',
    'Ahead_weights',
    'Ahead_planned',
    'Ahead_next_day',
    'Ahead_next_what',
    'Ahead_sale_day',
    'Ahead_sale_fish',
    'Ahead_sale_weight',
    'Ahead_stock_day',
    'Ahead_stock_fish',
    'Ahead_over_day',
    'Ahead_over_fish',
    'Ahead_full_place',
  ],
  Balance: [
    'Balance_feed',
    'Balance_wanted',
    'Balance_planted',
    'Balance_supplied',
    'Balance_share',
    'Balance_least',
    'Balance_most',
    'Balance_full_least',
    'Balance_full_most',
    'Gravel_kind',
    'Balance_verdict',
    'Feed_protein',
    'Load_nitrogen',
    'Load_ammonia',
    'Load_oxygen',
    'Load_alkalinity',
    'Load_base_least',
    'Load_base_most',
    'Load_base_table',
    'Load_base_own',
    'Load_solids',
    'Load_verdict',
    'Water_total',
    'Filter_media',
    'Filter_specific',
    'Gravel_specific',
    'Filter_there',
    'Filter_beds',
    'Filter_needed',
    'Filter_verdict',
    'Sump_volume',
    'Gravel_area',
    'Flood_depth',
    'Flood_voids',
    'Flood_together',
    'Flood_volume',
    'Sump_verdict',
    'Last_temperature',
    'Last_acidity',
    'Last_tan',
    'Last_unionised',
    'Last_nitrite',
    'Last_nitrate',
    'Last_oxygen',
    'Last_oxygen_share',
    'Last_alkalinity',
    'Last_carbon_dioxide',
    'Last_iron',
    'Least_acidity',
    'Least_nitrate',
    'Least_oxygen',
    'Least_oxygen_share',
    'Least_alkalinity',
    'Least_iron',
    'Most_acidity',
    'Most_tan',
    'Most_unionised',
    'Most_nitrite',
    'Most_nitrate',
    'Most_alkalinity',
    'Most_carbon_dioxide',
    'Most_iron',
    'Doses_verdict',
    'Doses_status',
    'Dose_base_aim',
    'Dose_base_kind',
    'Dose_base_bound',
    'Dose_base_ph',
    'Dose_base_unionised',
    'Dose_base_says',
    'Dose_base',
    'Dose_iron_aim',
    'Dose_iron_share',
    'Dose_iron',
    'Dose_chloride',
    'Dose_salt',
    'Nutrient_harvest',
    'Nutrient_alkalinity',
    'Nutrient_potassium_part',
    'Nutrient_potassium_base',
    'Nutrient_potassium',
    'Nutrient_calcium_base',
    'Nutrient_calcium',
    'Nutrient_feed',
    'Nutrient_crops',
    'Nutrient_base',
    'Nutrient_short',
    'Nutrient_salt',
    'Nutrient_verdict',
  ],
  Sowing: ['Sowing_losses'],
  Season: [
    'Season_from',
    'Season_later',
    'Season_hours_sow',
    'Season_hours_plant',
    'Season_hours_cut',
    'Season_months',
    'Season_heat',
  ],
  Week: ['Week_sowings', 'Week_fruiting'],
  Money: [
    'Money_feed_price',
    'Money_fish_price',
    'Money_fingerling',
    'Money_fish_share',
    'Money_direct',
    'Money_shared',
    'Money_costs',
    'Money_fish_year',
    'Money_crop_year',
    'Money_crop_weeks',
    'Money_cost_year',
    'Money_left',
    'Money_margin',
    'Money_least_fish',
    'Money_even_fish',
    'Money_even_bed',
    'Money_verdict',
    'Plant_hours_pumps',
    'Plant_outage_pumps',
    'Plant_hours_blower',
    'Plant_watts_lamps',
    'Plant_outage_lamps',
    'Plant_watts_fans',
    'Plant_hours_fans',
    'Plant_outage_fans',
    'Plant_watts_other',
    'Plant_hours_other',
    'Plant_outage_other',
    'Plant_watts',
    'Plant_energy',
    'Plant_energy_price',
    'Plant_energy_cost',
    'Plant_outage_watts',
    'Plant_outage',
    'Plant_battery',
    'Plant_batteries',
    'Plant_generator',
    'Plant_generator_fuel',
    'Plant_battery_there',
    'Plant_battery_lasts',
    'Plant_generator_there',
    'Plant_price_tanks',
    'Plant_price_beds',
    'Plant_price_gravel_beds',
    'Plant_price_film_beds',
    'Plant_price_gravel',
    'Plant_price_outlets',
    'Plant_price_media',
    'Plant_price_sump',
    'Plant_price_pipe_32',
    'Plant_price_pipe',
    'Plant_price_pipe_75',
    'Plant_price_pipe_110',
    'Plant_price_pipe_wide',
    'Plant_price_pipe_unknown',
    'Plant_price_elbows',
    'Plant_price_valves',
    'Plant_price_pumps',
    'Plant_price_blowers',
    'Plant_price_stones',
    'Plant_price_heater',
    'Plant_price_alarms',
    'Plant_price_standby',
    'Plant_price_all',
    'Space_crop',
    'Space_weeks',
    'Space_row_a',
    'Space_between_a',
    'Space_yield_a',
    'Space_price_a',
    'Space_plants_a',
    'Space_mass_a',
    'Space_income_a',
    'Space_row_b',
    'Space_between_b',
    'Space_yield_b',
    'Space_price_b',
    'Space_plants_b',
    'Space_mass_b',
    'Space_income_b',
    'Space_verdict',
  ],
} as const;

export type FigureName = (typeof figureNames)[keyof typeof figureNames][number];

/** Columns of the Crops and Species sheets that the plan looks at. */
export type CropColumn =
  | CropFact
  | `${'air' | 'ph'}_${'min' | 'max'}`
  | 'daily_light_min'
  | 'name'
  | 'group'
  | 'start'
  | 'cut'
  | 'beds';
export type FishColumn = FishFact | 'name' | 'feed_weights' | 'feed_rates';

export type PlanName = RegisterName | FigureName | `Crop_${CropColumn}` | `Fish_${FishColumn}`;

/** The cells that a name means. */
export const named = (name: PlanName): Formula => new Formula(name);

/** A cell of a named area by its place, from 1. */
export const nth = (name: PlanName, ...place: readonly Part[]): Formula =>
  call('INDEX', named(name), ...place);

/** The line of a crop or species on its sheet, for a name in any known spelling. */
export const lineOf = (table: 'Crop' | 'Fish', name: Formula): Formula =>
  madeElsewhere(lookupRow(table, name.text));

/** Codes by which a status is counted and asked for, whatever the words beside it say. */
export interface StatusCodes {
  Tanks_status:
    'empty' | 'unknown' | 'log' | 'unmeasured' | 'over' | 'nearly full' | 'outgrows' | 'room';
  /** Whether the water of the month lets fish be moved, sold or stocked. */
  Tanks_handling: '' | 'cold' | 'warm';
  Beds_status:
    'empty' | 'undated' | 'cut whole' | 'clear' | 'cutting' | 'nursery' | 'plant out' | 'growing';
  Beds_task_code: '' | 'clear' | 'cut' | 'plant out';
  Sowing_status: '' | 'no yield' | 'few' | 'many' | 'fit';
  Sowing_season: '' | 'warm' | 'cold';
  Pumps_status: '' | 'poor' | 'short' | 'enough';
  /** A month for a crop; the code is the word that shows. */
  Site_fit: 'cold' | 'hot' | 'fits';
  Doses_status: 'untested' | 'old' | 'fine' | 'low' | 'high' | 'below best' | 'above best';
}
export type StatusName = keyof StatusCodes;

/** The code of the first case that holds. */
export const codeOf = <N extends StatusName>(
  _status: N,
  list: readonly (readonly [condition: Condition, code: StatusCodes[N]])[],
  otherwise: StatusCodes[N],
): Formula => cases(list, otherwise);

/** Whether a cell of the status, or all of its cells, hold a code. */
export const hasCode = <N extends StatusName>(
  _status: N,
  cell: Formula,
  code: StatusCodes[N],
): Condition => cell.is(code);

/** The words that stand beside a code; the last ones for what is none of the others. */
export function wordsOf<N extends StatusName>(
  status: N,
  cell: Formula,
  words: Readonly<Record<StatusCodes[N], Part>>,
): Formula {
  const list = Object.entries<Part>(words) as [StatusCodes[N], Part][];
  const [, last] = list.pop() as [StatusCodes[N], Part];
  return cases(
    list.map(([code, says]) => [hasCode(status, cell, code), says] as const),
    last,
  );
}

/** How many rows have a code. */
export const countOf = <N extends StatusName & PlanName>(name: N, code: StatusCodes[N]): Formula =>
  call('COUNTIF', named(name), code);
