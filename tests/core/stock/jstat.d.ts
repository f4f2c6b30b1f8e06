/** The part of jstat 1.9.6 that the tests compare with; the package carries no types. */
declare module "jstat" {
  interface Statistics {
    readonly jStat: { readonly negbin: { cdf(failures: number, successes: number, chance: number): number } };
  }
  const statistics: Statistics;
  export default statistics;
}
