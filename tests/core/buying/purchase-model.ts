import loadHighs from "highs";
import type { Offer, Wanted } from "../../../src/core/buying/purchase";
import type { SupplierTerms } from "../../../src/core/buying/purchase";

/** A purchase to plan, in cents so that numbers stay small for a solver in floating point. */
export interface Purchase {
  readonly wanted: readonly Wanted[];
  readonly terms: readonly SupplierTerms[];
}

/** A small generator of repeatable numbers (mulberry32), so that a failing case can be named by its seed. */
export function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  };
}

export interface Shape {
  readonly items: number;
  readonly suppliers: number;
  readonly bags: readonly number[];
  readonly mostNeeded: number;
  readonly offersPerItem: number;
  /** Thresholds as a share of what everything costs, in percent, at most. */
  readonly threshold: number;
}

/** A random purchase in which every item is sold somewhere. */
export function randomPurchase(seed: number, shape: Shape): Purchase {
  const random = randomFrom(seed);
  const wanted = Array.from({ length: shape.items }, (): Wanted => {
    const each = 6 + random(20);
    const offers = Array.from({ length: 1 + random(shape.offersPerItem) }, (): Offer => {
      const pieces = shape.bags[random(shape.bags.length)] ?? 1;
      const price = Math.max(1, Math.round(each * pieces ** 0.9 * (0.8 + random(41) / 100)));
      return { supplier: random(shape.suppliers), pieces, price };
    });
    return { need: 1 + random(shape.mostNeeded), offers };
  });
  const usual = wanted.reduce((sum, { need }) => sum + need * 12, 0);
  const terms = Array.from({ length: shape.suppliers }, (): SupplierTerms => {
    const threshold = (): number => Math.ceil((usual * random(shape.threshold + 1)) / 100);
    const kind = random(6);
    return {
      charge: kind === 0 ? 0 : 100 + random(1400),
      minimum: kind === 1 || kind === 2 ? threshold() : 0,
      freeFrom: kind >= 2 && kind <= 4 ? threshold() : Infinity,
    };
  });
  return { wanted, terms };
}

/** Checks a plan against the rules and gives its price; Infinity where it breaks one. */
export function priceOfPlan(purchase: Purchase, bags: readonly (readonly number[])[]): number {
  const goods = purchase.terms.map(() => 0);
  for (const [i, { need, offers }] of purchase.wanted.entries()) {
    let pieces = 0;
    for (const [j, offer] of offers.entries()) {
      const count = bags[i]?.[j] ?? 0;
      if (!Number.isInteger(count) || count < 0) return Infinity;
      pieces += count * offer.pieces;
      goods[offer.supplier] = (goods[offer.supplier] ?? 0) + count * offer.price;
    }
    if (pieces < need) return Infinity;
  }
  return goods.reduce((sum, spent, supplier) => {
    const terms = purchase.terms[supplier];
    if (terms === undefined || spent === 0) return sum;
    return spent < terms.minimum ? Infinity : sum + spent + (spent < terms.freeFrom ? terms.charge : 0);
  }, 0);
}

/** The same purchase as a mixed-integer program in the solver's own text form. */
export function asProgram(purchase: Purchase): string {
  const goods: string[][] = purchase.terms.map(() => []);
  const rows: string[] = [];
  const whole: string[] = [];
  for (const [i, { need, offers }] of purchase.wanted.entries()) {
    const cover = offers.map((offer, j) => {
      const name = `x_${i}_${j}`;
      whole.push(name);
      goods[offer.supplier]?.push(`${offer.price} ${name}`);
      return `${offer.pieces} ${name}`;
    });
    rows.push(`${cover.join(" + ")} >= ${need}`);
  }
  const dearest = (offers: readonly Offer[]): number => Math.max(...offers.map((offer) => offer.price));
  const ceiling = purchase.wanted.reduce(
    (sum, { need, offers }) => sum + dearest(offers) * (need / Math.min(...offers.map((o) => o.pieces)) + 1),
    0,
  );
  const costs = goods.flat();
  const yesNo: string[] = [];
  for (const [s, { charge, minimum, freeFrom }] of purchase.terms.entries()) {
    const sum = goods[s] ?? [];
    if (sum.length === 0 || charge + minimum === 0) continue;
    const most = Math.ceil(ceiling + minimum + (freeFrom < Infinity ? freeFrom : 0));
    const modes = [{ name: `paid_${s}`, floor: minimum }];
    if (charge > 0) costs.push(`${charge} paid_${s}`);
    if (freeFrom < Infinity) modes.push({ name: `free_${s}`, floor: Math.max(minimum, freeFrom) });
    yesNo.push(...modes.map((mode) => mode.name));
    rows.push(`${sum.join(" + ")} - ${modes.map((mode) => `${most} ${mode.name}`).join(" - ")} <= 0`);
    const floors = modes.filter((mode) => mode.floor > 0).map((mode) => ` - ${mode.floor} ${mode.name}`);
    if (floors.length > 0) rows.push(`${sum.join(" + ")}${floors.join("")} >= 0`);
    if (modes.length > 1) rows.push(`${modes.map((mode) => mode.name).join(" + ")} <= 1`);
  }
  const constraints = rows.map((row, i) => ` r${i}: ${row}`).join("\n");
  return `Minimize\n cost: ${costs.join(" + ")}\nSubject To\n${constraints}\nGenerals\n ${whole.join("\n ")}\n${
    yesNo.length > 0 ? `Binaries\n ${yesNo.join("\n ")}\n` : ""
  }End\n`;
}

/** A solver to hold plans against: the optimum to the cent, or as near to it as the gap says. */
export async function loadSolver(gap = 0): Promise<(purchase: Purchase) => number> {
  const highs = await loadHighs();
  return (purchase) => {
    const result = highs.solve(asProgram(purchase), {
      output_flag: false,
      mip_rel_gap: gap,
      mip_abs_gap: 1e-6,
    });
    if (result.Status !== "Optimal") throw new Error(`the solver ends with ${result.Status}`);
    return Math.round(result.ObjectiveValue);
  };
}
