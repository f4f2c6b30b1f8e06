/** The part of cephes 3.3.3 that the tests compare with; the package's own types do not resolve. */
declare module "cephes" {
  interface Cephes {
    readonly compiled: Promise<void>;
    ellpk(complement: number): number;
    ellpe(complement: number): number;
  }
  const cephes: Cephes;
  export default cephes;
}
