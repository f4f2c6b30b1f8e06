/** Physical dimensions the worksheet functions deal in. Core computes in the SI unit named beside each. */
export type Dimension =
  | "length" // m
  | "area" // m2
  | "volume" // m3
  | "mass" // kg
  | "pressure" // Pa
  | "speed" // m/s
  | "duration" // s
  | "force"; // N

/** One unit: its dimension and how many SI units it is. */
export interface Unit {
  readonly dimension: Dimension;
  readonly si: number;
}

const unit = (dimension: Dimension, si: number): Unit => ({ dimension, si });

/**
 * Units by symbol, with their exact factors to SI.
 * Source: NIST SP 811 (2008) Appendix B, exact factors; bar and litre from the SI brochure.
 */
export const UNITS = {
  m: unit("length", 1),
  cm: unit("length", 0.01),
  mm: unit("length", 0.001),
  km: unit("length", 1000),
  in: unit("length", 0.0254),
  ft: unit("length", 0.3048),
  yd: unit("length", 0.9144),
  mi: unit("length", 1609.344),
  m2: unit("area", 1),
  ft2: unit("area", 0.09290304),
  m3: unit("volume", 1),
  L: unit("volume", 0.001),
  ml: unit("volume", 0.000001),
  ft3: unit("volume", 0.028316846592),
  kg: unit("mass", 1),
  g: unit("mass", 0.001),
  oz: unit("mass", 0.028349523125),
  lb: unit("mass", 0.45359237),
  Pa: unit("pressure", 1),
  kPa: unit("pressure", 1000),
  MPa: unit("pressure", 1e6),
  bar: unit("pressure", 100000),
  psi: unit("pressure", 6894.757293168361),
  "m/s": unit("speed", 1),
  "km/h": unit("speed", 1 / 3.6),
  mph: unit("speed", 0.44704),
  kn: unit("speed", 1852 / 3600),
  s: unit("duration", 1),
  min: unit("duration", 60),
  h: unit("duration", 3600),
  d: unit("duration", 86400),
  N: unit("force", 1),
  lbf: unit("force", 4.4482216152605),
} as const satisfies Record<string, Unit>;

/** A unit symbol of `UNITS`. */
export type UnitSymbol = keyof typeof UNITS;

const SPELLINGS: Readonly<Record<string, UnitSymbol>> = {
  metre: "m",
  metres: "m",
  meter: "m",
  meters: "m",
  mtr: "m",
  centimetre: "cm",
  centimetres: "cm",
  centimeter: "cm",
  centimeters: "cm",
  cms: "cm",
  millimetre: "mm",
  millimetres: "mm",
  millimeter: "mm",
  millimeters: "mm",
  kilometre: "km",
  kilometres: "km",
  kilometer: "km",
  kilometers: "km",
  inch: "in",
  inches: "in",
  ins: "in",
  '"': "in",
  foot: "ft",
  feet: "ft",
  "'": "ft",
  yard: "yd",
  yards: "yd",
  mile: "mi",
  miles: "mi",
  yds: "yd",
  "m²": "m2",
  sqm: "m2",
  "sq m": "m2",
  "ft²": "ft2",
  sqft: "ft2",
  "sq ft": "ft2",
  "m³": "m3",
  cbm: "m3",
  "cu m": "m3",
  "ft³": "ft3",
  cuft: "ft3",
  "cu ft": "ft3",
  l: "L",
  litre: "L",
  litres: "L",
  liter: "L",
  liters: "L",
  millilitre: "ml",
  millilitres: "ml",
  gram: "g",
  grams: "g",
  gramme: "g",
  grammes: "g",
  gr: "g",
  kilogram: "kg",
  kilograms: "kg",
  kilo: "kg",
  kilos: "kg",
  kgs: "kg",
  ounce: "oz",
  ounces: "oz",
  pound: "lb",
  pounds: "lb",
  lbs: "lb",
  pa: "Pa",
  kpa: "kPa",
  mpa: "MPa",
  megapascal: "MPa",
  megapascals: "MPa",
  bars: "bar",
  "metres per second": "m/s",
  "meters per second": "m/s",
  kmh: "km/h",
  kph: "km/h",
  "miles per hour": "mph",
  knot: "kn",
  knots: "kn",
  kt: "kn",
  kts: "kn",
  sec: "s",
  secs: "s",
  second: "s",
  seconds: "s",
  mins: "min",
  minute: "min",
  minutes: "min",
  hr: "h",
  hrs: "h",
  hour: "h",
  hours: "h",
  day: "d",
  days: "d",
  n: "N",
  newton: "N",
  newtons: "N",
};

/**
 * Finds a unit by symbol or by a usual spelling, any case, with or without a closing full stop.
 *
 * @param word the unit as typed
 * @returns its symbol, or undefined where no unit is spelled so
 */
export function unitNamed(word: string): UnitSymbol | undefined {
  const trimmed = word.trim().replace(/\.$/, "");
  if (Object.hasOwn(UNITS, trimmed)) return trimmed as UnitSymbol;
  const lower = trimmed.toLowerCase();
  if (Object.hasOwn(UNITS, lower)) return lower as UnitSymbol;
  return Object.hasOwn(SPELLINGS, lower) ? SPELLINGS[lower] : undefined;
}

/**
 * Upper end of each Beaufort force from 0 to 11, m/s; 12 has none.
 * Source: WMO, Beaufort scale in equivalent speeds at 10 m above open ground (WMO-No. 8), as weather services print it.
 */
const BEAUFORT_ENDS = [0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6] as const;

/**
 * Wind speed of a Beaufort force, taken at its upper end, since what stands outdoors meets all of it.
 *
 * @param force whole number, 0 to 11
 * @returns m/s, or undefined where the force has no upper end or does not exist
 */
export function beaufortSpeed(force: number): number | undefined {
  return BEAUFORT_ENDS[force];
}

/**
 * Converts to SI.
 *
 * @param value a number in `symbol`
 * @param symbol its unit
 * @returns the same quantity in the SI unit of its dimension
 */
export function toSi(value: number, symbol: UnitSymbol): number {
  return value * UNITS[symbol].si;
}

/**
 * Converts from SI.
 *
 * @param value a number in the SI unit of the dimension of `symbol`
 * @param symbol the unit wanted
 * @returns the same quantity in `symbol`
 */
export function fromSi(value: number, symbol: UnitSymbol): number {
  return value / UNITS[symbol].si;
}

/**
 * Kelvin from degrees Celsius. Source: ITS-90, T/K = t/C + 273.15 exactly.
 *
 * @param celsius temperature, C
 * @returns temperature, K
 */
export function kelvinFromCelsius(celsius: number): number {
  return celsius + 273.15;
}

/**
 * Degrees Celsius from Fahrenheit. Source: NIST SP 811 (2008), t/C = (t/F - 32)/1.8 exactly.
 *
 * @param fahrenheit temperature, F
 * @returns temperature, C
 */
export function celsiusFromFahrenheit(fahrenheit: number): number {
  return (fahrenheit - 32) / 1.8;
}
