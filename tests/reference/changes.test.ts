import { describe, expect, it } from 'vitest';
import { changes } from '../../src/reference/changes';
import { changesPage } from '../../src/reference/changes-page';
import { findCard } from '../../src/functions/card-list';
import { numberOf } from '../tools/card-value';

describe('what changed for an existing workbook', () => {
  it('names functions that are there', () => {
    const unknown = changes.flatMap(({ functions }) => functions.filter((id) => !findCard(id)));
    expect(unknown).toEqual([]);
  });

  it('says of crops what the table now says', () => {
    const page = changesPage();
    for (const [words, crop, fact, value] of [
      ['cucumber 4 kg a plant at 2.5/m²', 'cucumber', 'kg per plant', 4],
      ['cucumber 4 kg a plant at 2.5/m²', 'cucumber', 'plants per m2', 2.5],
      ['sweet pepper 2 kg at 3.25/m²', 'sweet pepper', 'plants per m2', 3.25],
      ['lettuce 0.18 kg', 'lettuce', 'kg per plant', 0.18],
      ['parsley 0.3 kg', 'parsley', 'kg per plant', 0.3],
      ['aubergine 2.2 kg at 2.7/m²', 'aubergine', 'kg per plant', 2.2],
      ['papaya 10.2 kg/m²', 'papaya', 'kg per m2', 10.2],
      ['spinach 0.045 kg at 48/m²', 'spinach', 'plants per m2', 48],
      ['Basil 3.6 kg/m²', 'basil', 'kg per m2', 3.6],
      ['Swiss chard 80', 'Swiss chard', 'harvest days', 80],
      ['Broccoli 0 °C', 'broccoli', 'base temp', 0],
    ] as const) {
      expect(page).toContain(words);
      expect(numberOf('FACT.CROP', crop, fact), words).toBe(value);
    }
    expect(numberOf('BED.AREA', 70, 'lettuce')).toBe(15);
  });
});
