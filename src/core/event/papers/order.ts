import { orNone } from "../../numeric/tally";
import { nameKey } from "../../palette/names";
import { grouped } from "../../stock/grouped";
import { itemWords } from "../../stock/item";
import { whenKnown } from "../../withheld";
import { settledCosts } from "../goods-plan";
import type { PlannedGood } from "../goods";
import type { Problem } from "../../problem";
import type { JobPlan } from "../job-plan";
import type { ItemPurchase } from "../purchases";
import { statusOf } from "../status";
import { moneyText, packText, paperLine, problemLines, type PaperRow } from "./paper";

const NO_SUPPLIER = "no supplier named";

interface OrderEntry {
  readonly supplier: string;
  readonly row: PaperRow;
}

/**
 * What to order for the whole job, supplier by supplier: bags, goods, what is hired, delivery; last what nobody sells.
 *
 * @param plan of the job
 * @returns lines; only problems that touch buying come before them
 * @throws CalcError `#N/A` where an option must be chosen
 */
export function orderPaper(plan: JobPlan): readonly PaperRow[] {
  const { purchases, goods, problems } = settledCosts(plan);
  const touching = problems.filter(
    ({ reach, weight }) => weight === "stop" && (reach.of === "job" || reach.of === "good"),
  );
  const entries: readonly OrderEntry[] = [
    ...purchases.items.flatMap(bagEntries),
    ...purchases.orders
      .filter(({ delivery }) => delivery > 0)
      .map(({ supplier, delivery }) => ({
        supplier,
        row: paperLine(supplier, "delivery", delivery, "charge"),
      })),
    ...goods.goods.flatMap(goodEntries),
  ];
  const bySupplier = grouped(entries, ({ supplier }) => nameKey(supplier));
  const named = [...bySupplier].filter(([key]) => key !== nameKey(NO_SUPPLIER));
  const unnamed = bySupplier.get(nameKey(NO_SUPPLIER)) ?? [];
  return [
    ...problemLines(touching),
    ...named.flatMap(([, [first, ...others]]) =>
      [first, ...others].map(({ row }) => ({ ...row, section: first.supplier.trim() })),
    ),
    ...unnamed.map(({ row }) => row),
    ...purchases.items.flatMap(shortLines),
  ];
}

function bagEntries({ lines, need, problems }: ItemPurchase): readonly OrderEntry[] {
  return lines.map(({ supplier, bag, price, bags, cost }) => ({
    supplier,
    row: {
      ...paperLine(
        supplier,
        itemWords(need.item),
        bags,
        `${bags === 1 ? "bag" : "bags"} of ${bag}`,
        `${moneyText(price)} each, ${moneyText(cost)} in all`,
      ),
      status: statusOf(problems.filter(({ weight }) => weight === "check")),
    },
  }));
}

function goodEntries(planned: PlannedGood): readonly OrderEntry[] {
  const { good, toGet, problems } = planned;
  if (toGet === 0) return [];
  const supplier = good.supplier.trim() === "" ? NO_SUPPLIER : good.supplier;
  const unit = packText(good, toGet);
  const cost = whenKnown([toGet], (packs) => packs * orNone(good.price));
  const isPriced = good.price !== undefined && typeof cost === "number";
  const price = isPriced ? `${moneyText(good.price)} each, ${moneyText(cost)} in all` : "";
  const note = [good.returns ? "to hire, comes back" : "", price].filter((part) => part !== "").join(", ");
  const own = problems.filter(({ weight }) => weight !== "note");
  return [{ supplier, row: { ...paperLine(supplier, good.item, toGet, unit, note), status: statusOf(own) } }];
}

function shortLines({ need, short, problems }: ItemPurchase): readonly PaperRow[] {
  const stops: readonly Problem[] = problems.filter(({ weight }) => weight === "stop");
  if (short === 0 && stops.length === 0) return [];
  const row = paperLine("nobody sells", itemWords(need.item), short, "balloons", stops[0]?.todo ?? "");
  return [{ ...row, status: statusOf(stops) }];
}
