/** Why a comparison lies outside its band, by record and question. */
export const reasons: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'uvi-1997': {
    'base, g CaCO3-equivalent per kg feed':
      'The function gives the upper bound: all ammonia nitrified in soft water. Denitrifying, lime in the feed and alkalinity of make-up water give most of it back; the plan’s sheets start from what farms dosed and let the farm’s own log correct it.',
  },
};
