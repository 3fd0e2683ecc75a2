import type { FactSource } from './tables/evidence';

/** g of the heaviest fish of a species that is published, with where. Those of which none was found are left out. */
const published = (page: string): FactSource => ({
  text: `FishBase, ${page}: max. published weight`,
  evidence: 'read',
});
const tilapia: FactSource = {
  text: 'texts on the species quote FishBase with 4.3 kg and say elsewhere that it can exceed 5; the larger counts',
  evidence: 'derived',
};

export const heaviestFish: ReadonlyMap<string, readonly [grams: number, source: FactSource]> =
  new Map([
    ['Nile tilapia', [5000, tilapia]],
    ['improved Nile tilapia', [5000, tilapia]],
    ['Mozambique tilapia', [1100, published('Oreochromis mossambicus')]],
    ['rainbow trout', [25_400, published('Oncorhynchus mykiss')]],
    ['common carp', [40_100, published('Cyprinus carpio')]],
    ['channel catfish', [26_300, published('Ictalurus punctatus')]],
    ['African catfish', [60_000, published('Clarias gariepinus')]],
    ['barramundi', [60_000, published('Lates calcarifer')]],
    ['largemouth bass', [10_000, published('Micropterus salmoides, field guide')]],
  ]);
