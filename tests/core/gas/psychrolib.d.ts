/** The part of psychrolib 1.1.1 that the tests compare with; the package carries no types. */
declare module "psychrolib" {
  interface Psychrometrics {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetStandardAtmPressure(altitude: number): number;
    GetSatVapPres(celsius: number): number;
    GetHumRatioFromRelHum(celsius: number, humidity: number, pressure: number): number;
    GetMoistAirDensity(celsius: number, humidityRatio: number, pressure: number): number;
  }
  const psychrolib: Psychrometrics;
  export default psychrolib;
}
