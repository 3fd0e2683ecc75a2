import { flowForOxygen, headLoss, pumpWatts, turnover } from '../core/flow';
import { type PipeMaterial, pipeRoughness } from '../core/tables/pipe-roughness';
import { nameKey } from '../core/nearest-name';
import { card, type Source, type ValueCard } from './card';
import { waterVolume as volume } from './common-parameters';
import { type NameBook, nameOrNumber, number } from './parameter';
import { kell, kestin, roughnessTables, swameeJain, volumeBalance } from './water-sources';

const subject = 'Flow and pumps';

const flow = number('flow', 'flow', { unit: 'L/h', min: 0, max: 1e8 });

const turn = card({
  id: 'FLOW.TURNOVER',
  subject,
  summary: 'Flow that turns the water of a tank over so many times an hour',
  searchWords: [
    'pump size',
    'exchange',
    'circulation',
    'gph',
    'gallons an hour',
    'water change',
    'how big a pump',
    'circulation pump',
  ],
  parameters: [
    volume,
    number('per_hour', 'times an hour', { unit: '1/h', above: 0, max: 60, default: 1 }),
  ],
  result: { kind: 'number', unit: 'L/h', meaning: 'flow' },
  method: 'Volume times turnovers an hour.',
  formula: { flow: 'volume * per_hour' },
  sources: [
    volumeBalance,
    {
      author: 'Usage of the trade',
      year: '',
      title: 'a tank turns over once an hour, dense tanks twice',
      evidence: 'common practice',
    },
  ],
  validity:
    'Once an hour is usual practice, not a limit: the oxygen that the fish need (FLOW.OXYGEN) may ask for more.',
  dangers: ['electricity'],
  examples: [
    { args: [7800], result: 7800, says: 'A 7800 L tank once an hour' },
    { args: [7800, 0.75], result: 5850, says: 'A 7800 L tank every 80 minutes, near the UVI flow' },
  ],
  seeAlso: ['FLOW.OXYGEN', 'FLOW.WATTS'],
  compute: turnover,
});

const oxygenFlow = card({
  id: 'FLOW.OXYGEN',
  subject,
  summary: 'Flow of water that brings a tank its oxygen',
  searchWords: ['exchange', 'dissolved oxygen', 'inflow', 'aerator', 'gph'],
  parameters: [
    number('oxygen_day', 'oxygen used a day (LOAD.OXYGEN)', { unit: 'g/day', min: 0, max: 1e9 }),
    number('inlet', 'oxygen in the water that enters', { unit: 'mg/L', above: 0, max: 60 }),
    number('outlet', 'oxygen in the water that leaves', { unit: 'mg/L', min: 0, max: 60 }),
  ],
  result: { kind: 'number', unit: 'L/h', meaning: 'flow' },
  method: 'Oxygen used an hour over what each litre gives up between inlet and outlet.',
  formula: {
    flow: 'IF(inlet <= outlet, VALUE("inlet must be above outlet"), oxygen_day * 1000 / 24 / (inlet - outlet))',
  },
  sources: [volumeBalance],
  validity:
    'A daily mean without air stones in the tank; multiply for the hours after feeding. What stands at the outlet is what the fish live in.',
  dangers: ['air', 'electricity'],
  examples: [
    {
      args: [1080, 8, 5],
      result: 15000,
      says: '1080 g a day carried by water that falls from 8 to 5 mg/L',
    },
    { args: [24, 7.5, 6.5], result: 1000, says: '1 g an hour at 1 mg/L a litre' },
  ],
  seeAlso: ['LOAD.OXYGEN', 'OXYGEN.FULL', 'FLOW.TURNOVER'],
  compute: flowForOxygen,
});

const pipeBook: NameBook<PipeMaterial> = {
  what: 'pipe material',
  listedBy: 'the page of GILL.FLOW.HEADLOSS',
  names: pipeRoughness.map((row) => row.name),
  find: (name) =>
    pipeRoughness.find((row) =>
      [row.name, ...row.spellings].some((spelling) => nameKey(spelling) === nameKey(name)),
    ),
};

const pipeWords: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  pipeRoughness.map((row) => [row.name, row.spellings]),
);

const roughnessByName = pipeRoughness
  .map(({ name, roughness }) => `"${name}", ${roughness}`)
  .join(', ');

const head = card({
  id: 'FLOW.HEADLOSS',
  subject,
  summary: 'Height of water that friction in a pipe and its fittings costs the pump',
  searchWords: [
    'friction',
    'pipe size',
    'pressure drop',
    'plumbing',
    'bends',
    'elbow',
    'head loss',
    'pipe diameter',
  ],
  parameters: [
    flow,
    number('bore', 'inside width of the pipe', { unit: 'mm', above: 0, max: 3000 }),
    number('length', 'length of the pipe', { unit: 'm', min: 0, max: 100000 }),
    number('water', 'water temperature', { unit: 'degC', min: 0, max: 50, default: 20 }),
    nameOrNumber('roughness', 'roughness of the wall, or what the pipe is made of', pipeBook, {
      unit: 'mm',
      above: 0,
      max: 10,
      default: 'plastic',
      defaultText: 'plastic, 0.0015 mm',
      words: pipeWords,
      of: (row) => row.roughness,
    }),
    number('fittings', 'sum of the loss coefficients (K) of all fittings, inlet and outlet', {
      min: 0,
      max: 10000,
      default: 0,
    }),
  ],
  result: { kind: 'number', unit: 'm', meaning: 'head lost, metres of water' },
  method:
    'Darcy-Weisbach. Friction is 64/Re up to Re 2300, Swamee-Jain from Re 4000, and a straight line in Re between them, so that the result has no jump. Fittings add K times the velocity head.',
  formula: {
    h: 'IF(epsilon > 0.05, VALUE("the wall is too rough for the bore"), IF(flow = 0, 0, loss))',
    loss: '(f * length / bore * 1000 + fittings) * v^2 / 2 / 9.80665',
    f: '64 / MIN(Re, 2300) + (f_t - 64 / 2300) * MIN(1, MAX(0, (Re - 2300) / 1700))',
    f_t: '0.25 / LOG10(epsilon / 3.7 + 5.74 / MAX(Re, 4000)^0.9)^2',
    Re: 'v * bore / 1000 * rho / mu',
    v: 'flow / 3600000 / (PI() / 4 * (bore / 1000)^2)',
    epsilon: 'k / bore',
    k: `IF(ISNUMBER(roughness), roughness, SWITCH(roughness, ${roughnessByName}, NA()))`,
    rho: '(999.83952 + 16.945176 * water - 0.0079870401 * water^2 - 0.000046170461 * water^3 + 0.00000010556302 * water^4 - 0.00000000028054253 * water^5) / (1 + 0.01687985 * water)',
    mu: '0.001002 * 10^((20 - water) / (water + 96) * (1.2364 - 0.00137 * (20 - water) + 0.0000057 * (20 - water)^2))',
  },
  symbols: {
    loss: 'head lost in flowing water, m',
    f: 'friction factor: smooth flow, rough flow, and a line between them',
    f_t: 'friction factor of rough flow',
    Re: 'Reynolds number',
    v: 'speed of the water in the pipe, m/s',
    epsilon: 'roughness over bore',
    k: 'roughness of the wall, mm',
    rho: 'density of the water, kg/m³',
    mu: 'viscosity of the water, Pa s',
  },
  sources: [swameeJain, kell, kestin, roughnessTables],
  validity:
    'A full pipe of fresh water, new and clean: slime can double the loss in a year. Between Re 2300 and 4000 nobody can say what the flow does. Usual K: sharp inlet 0.5, outlet 1.0, 90-degree elbow 0.9, 45-degree 0.4, tee run 0.9 and branch 2.0, ball valve 0.05, swing check 2 to 2.5. The head of the pump is this plus the lift.',
  dangers: ['electricity'],
  examples: [
    {
      args: [508938, 300, 6, 20.15, 0.12, 0],
      result: 0.0689,
      tolerance: 0.0004,
      says: '2 m/s in a 300 mm pipe, wall 0.12 mm, 6 m: Surge Analysis and the Wave Plan Method, problem 0.2',
    },
    {
      args: [7800, 55, 20, 25, 'plastic', 6],
      result: 0.5681,
      tolerance: 0.00005,
      says: '7800 L/h through 20 m of 55 mm pipe with five bends',
    },
  ],
  seeAlso: ['FLOW.WATTS', 'FLOW.TURNOVER'],
  compute: headLoss,
});

const smallPumps: Source = {
  author: 'Usage of the trade',
  year: '',
  title: 'small submersible pumps turn 15 to 40 % of what they draw into lifted water',
  evidence: 'common practice',
};

const watts = card({
  id: 'FLOW.WATTS',
  subject,
  summary: 'Power that a pump draws from the wall',
  searchWords: ['electricity', 'pump', 'energy', 'kilowatt', 'power bill', 'electric bill'],
  parameters: [
    flow,
    number('head', 'lift plus friction (FLOW.HEADLOSS)', { unit: 'm', min: 0, max: 1000 }),
    number('efficiency', 'share of the power from the wall that ends in the water', {
      unit: 'share',
      above: 0,
      max: 1,
      default: 0.3,
      defaultText: '0.3, a small submersible pump',
    }),
  ],
  result: { kind: 'number', unit: 'W', meaning: 'power from the wall' },
  method: 'Density 1000 kg/m³ times gravity times flow times head, over efficiency.',
  formula: { W: '1000 * 9.80665 * flow / 3600000 * head / efficiency' },
  sources: [volumeBalance, smallPumps],
  validity:
    "Efficiency left out is usual practice for small pumps (0.15 to 0.40): the maker's curve says more.",
  dangers: ['electricity'],
  examples: [
    {
      args: [36000, 10, 0.7],
      result: 1400,
      tolerance: 5,
      says: '10 L/s lifted 10 m at 70 %: 1.40 kW',
    },
    { args: [7800, 1.8], result: 127.49, tolerance: 0.02, says: '7800 L/h against 1.8 m' },
  ],
  seeAlso: ['FLOW.HEADLOSS', 'FLOW.TURNOVER'],
  compute: pumpWatts,
});

export const flowCards: readonly ValueCard[] = [turn, oxygenFlow, head, watts];
