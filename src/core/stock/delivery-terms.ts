import type { SupplierTerms } from "../buying/purchase";
import { invalid } from "../calc-error";
import { subcentsOf } from "../numeric/cents";
import { orNone } from "../numeric/tally";
import { lookAlikes, nameKey } from "../palette/names";
import { check, type Problem } from "../problem";
import { grouped } from "./grouped";

/** What a supplier asks beside the prices, in the sheet's currency. */
export interface DeliveryRow {
  readonly row: number;
  readonly supplier: string;
  readonly charge: number;
  /** Least value of goods of an order. */
  readonly minimum?: number | undefined;
  /** Value of goods from which delivery is free. */
  readonly freeFrom?: number | undefined;
}

/**
 * What each supplier of a price list asks beside the prices.
 *
 * @param delivery rows of terms
 * @param suppliers of the price list, with their keys
 * @returns terms per supplier, subcents; nothing is asked where there is no row
 * @throws `#VALUE!` naming the row for a second row of a supplier, or a supplier who looks like one on the price list
 */
export function deliveryTerms(
  delivery: readonly DeliveryRow[],
  suppliers: readonly { readonly key: string; readonly name: string }[],
): readonly SupplierTerms[] {
  const byKey = grouped(delivery, (row) => nameKey(row.supplier));
  const names = suppliers.map(({ name }) => name);
  for (const [key, [first, second]] of byKey) {
    if (second) {
      const place = `delivery row ${second.row}: supplier`;
      throw invalid(place, `stand once, as in row ${first.row}`, second.supplier);
    }
    const [like] = suppliers.some((supplier) => supplier.key === key)
      ? []
      : lookAlikes(first.supplier, names);
    if (like !== undefined) {
      const place = `delivery row ${first.row}: supplier`;
      throw invalid(place, "be on the price list", first.supplier, `did you mean "${like}"`);
    }
  }
  return suppliers.map(({ key }) => {
    const row = byKey.get(key)?.[0];
    return {
      charge: subcentsOf(orNone(row?.charge)),
      minimum: subcentsOf(orNone(row?.minimum)),
      freeFrom: row?.freeFrom === undefined ? Infinity : subcentsOf(row.freeFrom),
    };
  });
}

/**
 * Suppliers of an order whose delivery nobody has typed, so that it costs nothing: often a slip in a name.
 *
 * @param used suppliers that are bought from
 * @param listed suppliers of the delivery rows, readable or not
 * @returns one check for each, with the name that it looks like
 */
export function undelivered(used: readonly string[], listed: readonly string[]): readonly Problem[] {
  const keys = new Set(listed.map(nameKey));
  return used
    .filter((supplier) => !keys.has(nameKey(supplier)))
    .map((supplier) => {
      const [like] = lookAlikes(supplier, listed);
      const hint = like === undefined ? "" : `; did you mean "${like.trim()}"`;
      const what = `${supplier} has no delivery row, its delivery costs nothing${hint}`;
      return check("delivery", what, "add the supplier to delivery");
    });
}
