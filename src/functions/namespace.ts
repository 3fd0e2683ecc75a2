/** What stands before every id in a formula. */
export const NAMESPACE = 'GILL';
