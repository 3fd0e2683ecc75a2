/** What the remarks of rows begin with that the planners of the weeks ahead wrote. */
export const FISH_REMARK = 'fish plan';
export const BED_REMARK = 'bed plan';
