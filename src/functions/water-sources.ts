import type { Source } from './card';

/** Publications on water, filters and pipes that more than one card rests on. */

export const stoichiometry: Source = {
  author: 'Definition',
  year: '',
  title: 'molar masses from the IUPAC abridged atomic weights, and the balanced reaction',
  evidence: 'definition',
};

export const volumeBalance: Source = {
  author: 'Definition',
  year: '',
  title: 'plain arithmetic of volumes, flows and time',
  evidence: 'definition',
};

/** Timmons & Ebeling, by what a card takes from it; recalled, not seen. */
export const timmonsEbeling = (where: string): Source => ({
  author: 'Timmons & Ebeling',
  year: 2010,
  title: 'Recirculating Aquaculture',
  where,
  evidence: 'memory',
});

export const faoFeedProtein: Source = {
  author: 'Somerville, Cohen, Pantanella, Stankus & Lovatelli',
  year: 2014,
  title: 'Small-scale aquaponic food production, FAO Fish. Aquac. Tech. Pap. 589',
  where: 'chapter 8: feed of 32 % protein',
  evidence: 'read',
};

export const wiesmann: Source = {
  author: 'Wiesmann, Choi & Dombrowski',
  year: 2007,
  title: 'Fundamentals of Biological Wastewater Treatment',
  where: 'eq. 10.17 and text: 4.57 g oxygen for each g of nitrogen',
  evidence: 'read',
};

export const bensonKrause: Source = {
  author: 'Benson & Krause',
  year: 1984,
  title: 'Solubility of oxygen in water, Limnol. Oceanogr. 29:620-632, as adopted by USGS 2011.03',
  where: 'equations for fresh and salt water and for pressure',
  evidence: 'read',
};

export const greenCarritt: Source = {
  author: 'Green & Carritt',
  year: 1967,
  title: 'New tables for oxygen saturation of seawater, J. Mar. Res. 25:140-147',
  where: 'vapour pressure over salt water',
  evidence: 'read',
};

export const standardAtmosphere: Source = {
  author: 'NOAA, NASA & USAF',
  year: 1976,
  title: 'US Standard Atmosphere',
  where: 'lowest layer: pressure against altitude',
  evidence: 'read',
};

export const plummerBusenberg: Source = {
  author: 'Plummer & Busenberg',
  year: 1982,
  title: 'Geochim. Cosmochim. Acta 46:1011-1040, as carried in the PHREEQC database',
  where: 'constants of carbonic acid against temperature',
  evidence: 'read',
};

export const uviPractice: Source = {
  author: 'University of the Virgin Islands, Agricultural Experiment Station',
  year: '',
  title: 'pages on its aquaponic system: pH and nutrients',
  where: 'bases by turns at pH 7.0, no sodium; 2 mg/L iron as chelate every three weeks',
  evidence: 'read',
};

export const nitriteExtension: Source = {
  author: 'Durborow, Crosby & Brunson',
  year: 1997,
  title: 'Nitrite in fish ponds, SRAC Publication 462',
  where: 'ten parts of chloride to one of nitrite (an extract of the text was seen)',
  evidence: 'read',
};

export const swameeJain: Source = {
  author: 'Swamee & Jain',
  year: 1976,
  title: 'Explicit equations for pipe-flow problems, J. Hydraul. Div. ASCE 102:657-664',
  where: 'friction factor',
  evidence: 'read',
};

export const kell: Source = {
  author: 'Kell',
  year: 1975,
  title: 'Density and other properties of water, J. Chem. Eng. Data 20:97-105',
  where: 'density against temperature',
  evidence: 'read',
};

export const kestin: Source = {
  author: 'Kestin, Sokolov & Wakeham',
  year: 1978,
  title: 'Viscosity of liquid water in the range -8 to 150 °C, J. Phys. Chem. Ref. Data 7:941',
  where: 'viscosity against temperature',
  evidence: 'memory',
};

export const roughnessTables: Source = {
  author: 'Textbook tables',
  year: '',
  title: 'roughness of pipe walls and loss coefficients of fittings',
  where: 'plastic 0 to 0.0015, steel 0.045, galvanised 0.15, cast iron 0.26 mm',
  evidence: 'read',
};
