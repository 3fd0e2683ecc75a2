import type { Crop } from './crop';
import { flowerCrops } from './crops-flowers';
import { fruitingCrops } from './crops-fruiting';
import { headAndRootCrops } from './crops-heads-and-roots';
import { herbCrops } from './crops-herbs';
import { leafyCrops } from './crops-leafy';

export * from './crop';

/** Every crop, group by group. */
export const crops: readonly Crop[] = [
  ...leafyCrops,
  ...herbCrops,
  ...headAndRootCrops,
  ...fruitingCrops,
  ...flowerCrops,
];
