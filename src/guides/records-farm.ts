/** A small invented farm as a grower would write its file first, with everything that a plan must know. */
const farm = {
  name: 'Millrace Shed',
  units: 'US',
  currency: 'USD',
  asOf: '2026-05-04',
  site: { place: 'Invented: a shed by a mill stream', latitude: 39, altitude: '400 ft' },
  months: [50, 52, 58, 66, 74, 82, 86, 85, 79, 69, 59, 52].map((high) => ({
    water: high > 75 ? 80 : 76,
    high,
    low: high - 18,
    humidity: 0.7,
  })),
  water: { total: '2400 gal', sump: '400 gal' },
  filter: { media: '40 gal', specificSurface: 150 },
  feed: { price: 0.9 },
  stock: {
    species: 'Nile tilapia',
    wanted: 40,
    startWeight: '0.1 lb',
    harvestWeight: '1.5 lb',
    survival: 0.92,
  },
  tanks: [
    { name: 'North', volume: '800 gal', species: 'Nile tilapia', fish: 130, weight: '0.5 lb' },
    { name: 'South', volume: '800 gal', species: 'Nile tilapia' },
  ],
  beds: [
    { name: 'Raft 1', kind: 'raft', length: '24 ft', width: '4 ft' },
    { name: 'Raft 2', kind: 'raft', length: '24 ft', width: '4 ft' },
  ],
  waterTests: [{ date: '2026-05-01', temperature: 78, ph: 7.1, tan: 0.8 }],
};

/** Laid out as people write it: a short row on one line. */
const fileText = (content: typeof farm): string => {
  const row = (value: unknown): string =>
    JSON.stringify(value).replaceAll('":', '": ').replaceAll(',"', ', "');
  const part = ([key, value]: [string, unknown]): string =>
    Array.isArray(value)
      ? `  "${key}": [\n${value.map((item) => `    ${row(item)}`).join(',\n')}\n  ]`
      : `  "${key}": ${row(value)}`;
  return `{\n${Object.entries(content).map(part).join(',\n')}\n}\n`;
};

export const recordsFile = fileText(farm);

/** The same with two slips: a pH that lost its point, and a misspelt fish. */
export const slippedFile = fileText({
  ...farm,
  stock: { ...farm.stock, species: 'Nile tilapa' },
  waterTests: farm.waterTests.map((test) => ({ ...test, ph: 71 })),
});
