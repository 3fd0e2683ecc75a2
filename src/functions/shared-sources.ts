import type { Source } from './card';

/** Publications that more than one card rests on. Each subject's own sources stand in its file. */
export const emerson1975: Source = {
  author: 'Emerson, Russo, Lund & Thurston',
  year: 1975,
  title: 'Aqueous ammonia equilibrium calculations, J. Fish. Res. Board Can. 32:2379-2383',
  where: 'equation for pKa',
  evidence: 'read',
};

export const bell2007: Source = {
  author: 'Bell, Johnson, Jickells & Liss',
  year: 2007,
  title:
    'Ammonia/ammonium dissociation coefficient in seawater, Environ. Chem. 4:183, corrected 2008',
  where: 'linear form in temperature and salinity',
  evidence: 'read',
};

/** FAO-56, by the equation or table that a card takes from it. */
export const fao56 = (where: string): Source => ({
  author: 'Allen, Pereira, Raes & Smith',
  year: 1998,
  title: 'Crop evapotranspiration, FAO Irrigation and Drainage Paper 56',
  where,
  evidence: 'read',
});
