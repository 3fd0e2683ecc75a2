import { bedKinds, marketUnits } from '../plan/farm';
import { type QuantityId, shownIn, type UnitSystem } from '../plan/quantities';
import { percent } from './figure-words';
import { SURVIVAL } from './fish-size';
import type { VariantLine, VariantPart, WishRemarks } from './variant-line';

/** What is typed of each variant. */

const number = (min: number, max: number, message: string): NonNullable<VariantLine['rule']> => ({
  rule: { kind: 'number', min, max },
  message,
});

export function typedParts(
  system: UnitSystem,
  crops: readonly string[],
  currency: string,
  remarks: WishRemarks = {},
): readonly VariantPart[] {
  const money = (quantity: QuantityId): string => `${currency} ${shownIn(quantity, system).unit}`;
  const priced = (
    id: string,
    label: string,
    wish: VariantLine['wish'],
    quantity: QuantityId = 'number',
    unit?: string,
  ): VariantLine => ({
    id,
    label,
    quantity,
    unit: unit ?? (quantity === 'number' ? currency : money(quantity)),
    format: 'money',
    look: 'input',
    ...(wish && { wish }),
    rule: number(0, 1e9, 'Type the price, or leave it blank: then nothing is counted for it.'),
  });
  return [
    {
      title: 'Fish',
      ...(remarks.fish !== undefined && { remark: remarks.fish }),
      lines: [
        {
          id: 'species',
          label: 'Species',
          look: 'input',
          format: 'text',
          wish: ['fish', 'species'],
          rule: {
            rule: { kind: 'list', name: 'Fish_name' },
            message: 'Choose a species of the Species sheet.',
          },
        },
        {
          id: 'wanted',
          label: 'Fish to sell (blank: as many as the beds call for)',
          quantity: 'massMonth',
          look: 'input',
          wish: ['fish', 'perMonth'],
          rule: number(0.1, 1e6, 'Type the weight to sell a month, or leave it blank.'),
        },
        {
          id: 'start',
          label: 'Weight when stocked',
          quantity: 'fishWeight',
          look: 'input',
          wish: ['choices', 'startWeight'],
          rule: number(0, 20000, 'Type the weight of a fingerling.'),
        },
        {
          id: 'harvest',
          label: 'Weight when sold',
          quantity: 'fishWeight',
          look: 'input',
          wish: ['choices', 'harvestWeight'],
          rule: number(0, 50000, 'Type the weight of a fish that is sold.'),
        },
        {
          id: 'protein',
          label: 'Protein of the feed (blank: usual for the species)',
          quantity: 'share',
          look: 'input',
          wish: ['protein'],
          rule: number(0.1, 0.7, 'Type a share from 10 % to 70 %, or leave it blank.'),
        },
        {
          id: 'survival',
          label: `Fish that live to be sold (blank: usual, ${percent(SURVIVAL)})`,
          quantity: 'share',
          look: 'input',
          wish: ['choices', 'survival'],
          rule: number(0.05, 1, 'Type a share from 5 % to 100 %, or leave it blank.'),
        },
        {
          id: 'coefficient',
          label: 'Growth coefficient (blank: usual for the species)',
          format: 'two',
          look: 'input',
          wish: ['choices', 'coefficient'],
          rule: number(0.1, 10, 'Type a coefficient from 0.1 to 10, or leave it blank.'),
        },
        {
          id: 'conversion',
          label: 'Feed for a kg of growth (blank: usual for the species)',
          format: 'two',
          look: 'input',
          wish: ['choices', 'conversion'],
          rule: number(0.1, 10, 'Type a conversion from 0.1 to 10, or leave it blank.'),
        },
        {
          id: 'tanks',
          label: 'Tanks, stocked in turn',
          unit: 'tanks',
          format: 'whole',
          look: 'input',
          wish: ['choices', 'tanks'],
          rule: {
            rule: { kind: 'whole', min: 1, max: 52 },
            message: 'Type how many tanks, 1 to 52.',
          },
        },
        {
          id: 'own',
          label: 'Water in each that is there (blank: as a batch needs)',
          quantity: 'volume',
          look: 'input',
          wish: ['ownTank'],
          rule: number(0.1, 1e7, 'Type the water of a tank, or leave it blank.'),
        },
        {
          id: 'heat',
          label: 'Water is held at least at (blank: not heated)',
          quantity: 'temperature',
          look: 'input',
          wish: ['heatedTo'],
          rule: number(
            -10,
            110,
            'Type a temperature, or leave it blank where nothing heats the water.',
          ),
        },
      ],
    },
    {
      title: 'Crops and market',
      ...(remarks.crops !== undefined && { remark: remarks.crops }),
      lines: crops.flatMap((id, i): VariantLine[] => [
        {
          id,
          label: `Crop ${i + 1}`,
          look: 'input',
          format: 'text',
          wish: ['market', i, 'crop'],
          rule: {
            rule: { kind: 'list', name: 'Crop_name' },
            message: 'Choose a crop of the Crops sheet, or leave it blank.',
          },
        },
        {
          id: `${id}_bed`,
          label: `Crop ${i + 1} stands on`,
          look: 'input',
          format: 'text',
          wish: ['market', i, 'bed'],
          rule: {
            rule: { kind: 'words', words: bedKinds },
            message: 'Choose raft, gravel or film.',
          },
        },
        {
          id: `${id}_week`,
          label: `Crop ${i + 1} to sell a week`,
          format: 'general',
          look: 'input',
          wish: ['market', i, 'perWeek'],
          rule: number(0, 1e5, 'Type how many a week.'),
        },
        {
          id: `${id}_unit`,
          label: `Crop ${i + 1} is sold by`,
          look: 'input',
          format: 'text',
          wish: ['market', i, 'unit'],
          rule: {
            rule: { kind: 'words', words: marketUnits },
            message: `Choose one of ${marketUnits.join(', ')}.`,
          },
        },
        {
          id: `${id}_gives`,
          label: `Crop ${i + 1}, units of a plant in its life (blank: by the Crops sheet)`,
          format: 'two',
          look: 'input',
          wish: ['market', i, 'perPlant'],
          rule: number(0, 1e5, 'Type how many units a plant gives, or leave it blank.'),
        },
        priced(`${id}_price`, `Crop ${i + 1}, price of a unit`, ['market', i, 'price']),
      ]),
    },
    {
      title: 'Prices and work',
      lines: [
        priced('fishPrice', 'Fish sold', ['prices', 'fish'], 'pricePerMass'),
        priced('feedPrice', 'Feed', ['prices', 'feed'], 'pricePerMass'),
        priced('fingerlingPrice', 'One fingerling', ['prices', 'fingerling']),
        priced('powerPrice', 'Power', ['prices', 'power'], 'number', `${currency} a kWh`),
        priced(
          'heatPrice',
          'Heat that reaches the water',
          ['prices', 'heat'],
          'number',
          `${currency} a kWh`,
        ),
        priced('workPrice', 'An hour of work', ['prices', 'work']),
        {
          id: 'workTank',
          label: 'Work a week for each tank',
          quantity: 'hours',
          look: 'input',
          wish: ['work', 'tank'],
          rule: number(0, 168, 'Type the hours a week.'),
        },
        {
          id: 'workBed',
          label: 'Work a week for the beds',
          quantity: 'hoursPerArea',
          look: 'input',
          wish: ['work', 'bed'],
          rule: number(0, 168, 'Type the hours a week.'),
        },
        {
          ...priced('otherCosts', 'All other costs of a month', ['otherCosts']),
          unit: `${currency} a month`,
        },
        priced('buildTank', 'To build: tanks', ['prices', 'tanks'], 'pricePerVolume'),
        priced('buildRaft', 'To build: rafts', ['prices', 'raft'], 'pricePerArea'),
        priced('buildGravel', 'To build: gravel beds', ['prices', 'gravel'], 'pricePerArea'),
        priced('buildFilm', 'To build: film channels', ['prices', 'film'], 'pricePerArea'),
        priced('buildMedia', 'To build: filter media', ['prices', 'media'], 'pricePerVolume'),
        priced('buildSump', 'To build: sump', ['prices', 'sump'], 'pricePerVolume'),
        priced('buildRest', 'To build: all else', ['prices', 'rest']),
        {
          id: 'years',
          label: 'Years that it lasts',
          unit: 'years',
          look: 'input',
          wish: ['years'],
          rule: number(0, 100, 'Type the years.'),
        },
      ],
    },
  ];
}
