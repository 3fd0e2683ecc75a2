/** Eight answers and no more. */
export const smallestWish = {
  units: 'metric',
  currency: 'EUR',
  latitude: 44,
  coldest: 12,
  warmest: 27,
  heated: true,
  fish: { species: 'Nile tilapia', kgPerMonth: 100 },
  market: [
    { crop: 'lettuce', unit: 'piece', perWeek: 200 },
    { crop: 'basil', unit: 'bunch', perWeek: 80 },
  ],
};
