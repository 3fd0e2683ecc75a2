import type { UnitId } from '../functions/units';

/** What a column of a grower's table holds. */
export type Role =
  | 'tank'
  | 'bed'
  | 'volume'
  | 'species'
  | 'fish'
  | 'weight'
  | 'density'
  | 'limit'
  | 'stocked'
  | 'date'
  | 'temperature'
  | 'ph'
  | 'tan'
  | 'unionised'
  | 'nitrite'
  | 'nitrate'
  | 'oxygen'
  | 'alkalinity'
  | 'iron'
  | 'area'
  | 'length'
  | 'width'
  | 'crop'
  | 'plants'
  | 'kind'
  | 'sow'
  | 'sown'
  | 'planted'
  | 'firstCut'
  | 'clear'
  | 'event'
  | 'toTank'
  | 'planned'
  | 'quantity'
  | 'soldBy'
  | 'price'
  | 'blownAir'
  | 'airNeeded'
  | 'oxygenLeast'
  | 'lightShare'
  | 'minutes'
  | 'fullMinutes';

interface RoleFact {
  readonly role: Role;
  readonly heading: RegExp;
  /** Unit in which the checks want it; none for names and dates. */
  readonly unit?: UnitId;
}

/** In order: the first that fits a heading names its column. */
const roles: readonly RoleFact[] = [
  { role: 'unionised', heading: /\bun-?ioni[sz]ed|\bfree ammonia|\bnh3\b/, unit: 'mg/L' },
  { role: 'limit', heading: /\b(density|stocking) limit|\blimit\b.*\bkg/, unit: 'kg/m3' },
  { role: 'density', heading: /^(fish |stocking )?density\b/, unit: 'kg/m3' },
  { role: 'stocked', heading: /^(date )?stocked|^stocking date/ },
  { role: 'sown', heading: /^(date )?sown\b|^seeded on/ },
  { role: 'sow', heading: /^sow\b|^sow(ing)? (date|on)|^next sowing/ },
  { role: 'planted', heading: /^(trans)?planted\b|^plant(ing)? (date|out|on)|^transplant/ },
  { role: 'firstCut', heading: /^first (cut|harvest|pick)|^harvest from/ },
  { role: 'clear', heading: /^clear|^last (cut|harvest)/ },
  { role: 'tank', heading: /^(fish )?tank( name| no\.?)?$/ },
  { role: 'bed', heading: /^(grow )?bed( name| no\.?)?$/ },
  { role: 'species', heading: /^(fish )?species\b/ },
  {
    role: 'fish',
    heading: /^(number of |no\. of )?fish\b(?!.*(standing|weight|kg|species))|^head of fish/,
    unit: 'fish',
  },
  { role: 'weight', heading: /^(mean|average|av\.?|fish)?\s*(body )?weight\b/, unit: 'g' },
  {
    role: 'volume',
    heading: /\b(litres|liters|gallons)\b|^(tank )?volume\b|^water in (the )?tank/,
    unit: 'L',
  },
  { role: 'ph', heading: /^ph\b/, unit: 'pH' },
  { role: 'tan', heading: /\btan\b|^total ammonia|^ammonia/, unit: 'mg/L' },
  { role: 'nitrite', heading: /^nitrite|^no2\b/, unit: 'mg/L' },
  { role: 'nitrate', heading: /^nitrate|^no3\b/, unit: 'mg/L' },
  { role: 'oxygen', heading: /^(dissolved )?oxygen\b(?!.*share)|^do\b/, unit: 'mg/L' },
  { role: 'alkalinity', heading: /^alkalinity|^kh\b/, unit: 'mg/L as CaCO3' },
  { role: 'iron', heading: /^iron\b/, unit: 'mg/L' },
  { role: 'temperature', heading: /^(water )?temp(erature)?\b/, unit: 'degC' },
  { role: 'crop', heading: /^crop\b(?!s)/ },
  { role: 'plants', heading: /^(number of )?plants$|^plants in bed/, unit: 'plants' },
  { role: 'kind', heading: /^kind( of bed)?$/ },
  { role: 'area', heading: /^(bed )?area\b/, unit: 'm2' },
  { role: 'length', heading: /^length\b/, unit: 'm' },
  { role: 'width', heading: /^width\b/, unit: 'm' },
  { role: 'blownAir', heading: /^air that (it|the tank) (has|gets)/, unit: 'm3/h' },
  { role: 'airNeeded', heading: /^air that (it|the tank) needs/, unit: 'm3/h' },
  { role: 'oxygenLeast', heading: /^least oxygen of its species/, unit: 'mg/L' },
  { role: 'lightShare', heading: /^light, of the least/ },
  { role: 'minutes', heading: /^minutes when (all|everything) stops/ },
  { role: 'fullMinutes', heading: /^minutes, (all|everything) stops, fullest week/ },
  { role: 'event', heading: /^(what|event|what happened)$/ },
  { role: 'toTank', heading: /^to tank$/ },
  { role: 'planned', heading: /^planned$/ },
  { role: 'quantity', heading: /^(how many|how much|quantity)$/ },
  { role: 'soldBy', heading: /^(sold by|unit)$/ },
  { role: 'price', heading: /^price( of one)?$/ },
  { role: 'date', heading: /^date\b|^day$/ },
];

/** Unit texts as they stand in headings or in a line of units below them. */
const unitText =
  /^(deg ?[cf]|°[cf]|k?wh?|h|kg|g|lb|lbs|oz|l|litres?|gal|gallons?|m[²2]|m[³3]|m[³3]\/h|cfm|ft[²2]|sq ft|ft|m|cm|in|mg\/l.*|ppm|dkh|kg\/m[³3]|lb\/gal|head|fish|%)$/i;

export interface Heading {
  readonly role: Role;
  readonly unit?: UnitId;
  /** The unit written in the heading: "Mean weight (kg)" or "Weight, kg". */
  readonly written?: string;
}

/** Longer texts are no headings, however many blanks they hold; some are made to fill the memory. */
const LONGEST = 1_000;

/** A text in small letters and single blanks; empty where it is too long to mean anything here. */
const normalised = (text: string): string =>
  text.length > LONGEST ? '' : text.toLowerCase().replace(/\s+/g, ' ').trim();

/** What a heading says of its column; undefined where it means nothing to the checks. */
export function readHeading(text: string): Heading | undefined {
  const heading = normalised(text);
  if (heading === '' || heading.length > 60) return undefined;
  const split = /^(.*?)\s*(?:[([]([^)\]]+)[)\]]|,\s*(\S+(?: ft)?))$/.exec(heading);
  const written = split?.[2] ?? split?.[3];
  const name = written !== undefined && unitText.test(written) ? (split?.[1] ?? heading) : heading;
  const fact =
    roles.find((role) => role.heading.test(name)) ??
    roles.find((role) => role.heading.test(heading));
  if (!fact) return undefined;
  return {
    role: fact.role,
    ...(fact.unit !== undefined && { unit: fact.unit }),
    ...(written !== undefined && unitText.test(written) && { written }),
  };
}

/** True for a cell that only names a unit, as in a line of units under the heads. */
export const isUnitText = (text: string): boolean => unitText.test(normalised(text));
