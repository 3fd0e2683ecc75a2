/** Why each field that nobody typed is what it is, by its place in the farm file. */
export interface PresetReason {
  readonly what: string;
  readonly why: string;
}

const PROPOSED = 'Worked out from the wish';

export const presetReasons: Readonly<Record<string, PresetReason>> = {
  name: { what: 'Name of the farm', why: 'Not said; change it as you like.' },
  currency: { what: 'Currency', why: 'Not said; no price rests on it yet.' },
  'site.altitude': {
    what: 'Altitude',
    why: 'Not said: sea level. High up water holds less oxygen.',
  },
  'site.trellis': {
    what: 'Height of the trellis',
    why: 'Common practice; only the shadow hangs on it.',
  },
  'months[].high': {
    what: 'Air by day',
    why: 'Curve through your coldest and warmest month, and 5 K (9 °F) above the mean. Common practice.',
  },
  'months[].low': {
    what: 'Air by night',
    why: 'Curve through your coldest and warmest month, and 5 K (9 °F) below the mean. Common practice.',
  },
  'months[].humidity': { what: 'Air humidity', why: 'Usual under cover; measure your own.' },
  'months[].water': {
    what: 'Water of the months',
    why: 'Unheated water follows the mean air; heated water is held at the lower end of the best for the fish.',
  },
  'water.total': { what: 'All the water', why: `${PROPOSED}: tanks, rafts, pipes and sump.` },
  'water.sump': {
    what: 'Sump',
    why: `${PROPOSED}: pipes and gravel that drain back, a day of evaporation, water over the pump, a tenth to spare.`,
  },
  'water.salinity': { what: 'Salinity of the water', why: 'Fresh water.' },
  'filter.media': {
    what: 'Filter media',
    why: `${PROPOSED}: the ammonia that the beds leave in the hardest month.`,
  },
  'filter.specificSurface': {
    what: 'Surface of the media',
    why: 'Usual plastic media; ask the supplier.',
  },
  'stock.wanted': {
    what: 'Fish to sell',
    why: `${PROPOSED}: so that feed and beds come out even.`,
  },
  'stock.startWeight': {
    what: 'Weight when stocked',
    why: 'Usual fingerlings for grow-out; ask the hatchery.',
  },
  'stock.harvestWeight': {
    what: 'Weight when sold',
    why: 'Usual for the species (Species sheet).',
  },
  'stock.survival': { what: 'Fish that live to be sold', why: 'Usual; your own log will say it.' },
  'tanks[].volume': {
    what: 'Water in a tank',
    why: `${PROPOSED}: a batch at its density limit just before it is sold.`,
  },
  'tanks[].bore': {
    what: 'Bore of the pipe',
    why: `${PROPOSED}: less than half a metre of head is lost.`,
  },
  'tanks[].pipe': {
    what: 'Length of the pipe',
    why: 'A plant room beside the tanks; measure yours.',
  },
  'tanks[].lift': { what: 'Lift', why: 'Common practice; measure yours.' },
  'tanks[].air': {
    what: 'Air of a tank',
    why: `${PROPOSED}: a full tank after feeding in the warmest month, with the oxygen that its fish need.`,
  },
  'beds[].kind': { what: 'Kind of bed', why: 'The kind that the crop is usually grown in.' },
  'beds[].length': {
    what: 'Length of a bed',
    why: `${PROPOSED}: bed area for the weekly cut, batch by batch.`,
  },
  'beds[].width': { what: 'Width of a bed', why: 'What one reaches over; common practice.' },
  'beds[].depth': { what: 'Depth of a bed', why: 'Common practice.' },
  'markets[].perWeek': {
    what: 'Wanted a week',
    why: `${PROPOSED}: as much as feed and beds allow.`,
  },
  'markets[].crop': { what: 'Crop', why: 'Stands in your beds.' },
  'markets[].unit': { what: 'Sold by', why: 'Usual for the crop.' },
  'markets[].every': { what: 'Days between sowings', why: 'Usual for the crop (Crops sheet).' },
  'markets[].firstHarvest': {
    what: 'First harvest',
    why: 'Sown on the day of the plan, in a month that suits the crop.',
  },
  'markets[].cells': { what: 'Cells in a tray', why: 'Usual trays.' },
  'fishLog[].date': {
    what: 'Day to stock',
    why: 'Six weeks for the filter to ripen, then as often as a tank is sold. Common practice.',
  },
  'fishLog[].fish': { what: 'Fish to order', why: `${PROPOSED}: a batch and its losses.` },
  'fishLog[].weight': { what: 'Weight of the fish ordered', why: 'As the weight when stocked.' },
  'figures.Plant_settler_area': {
    what: 'Surface of the settlers',
    why: 'All the flow at 3 m an hour; common practice.',
  },
  'figures.Plant_drain_bore': {
    what: 'Bore of the common return',
    why: `${PROPOSED}: it carries the flow of all pumps at half of what it carries clean.`,
  },
  'figures.Gravel_kind': {
    what: 'Gravel in the beds',
    why: 'Solids are taken out before the beds.',
  },
};
