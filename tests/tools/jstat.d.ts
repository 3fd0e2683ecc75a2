/** What is used of the library. */
declare module 'jstat' {
  interface Continuous {
    inv(share: number, ...shape: number[]): number;
    cdf(x: number, ...shape: number[]): number;
  }
  const jstat: { readonly studentt: Continuous };
  export default jstat;
}
