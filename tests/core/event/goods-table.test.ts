import { expect, it } from "vitest";
import { goodsTable } from "../../../src/core/event/goods-table";
import { jobOf } from "./job-builder";

it("takes rows of one item as one good that fill each other's blanks", () => {
  const { goods, silenced, problems } = goodsTable(
    jobOf({
      goods: [
        { item: "Ties", per: "balloon", for: "cover" },
        { item: " ties", per: "metre", pack: 100, price: 2.5, supplier: "Town" },
        { item: "none", per: "piece", for: "Bar" },
      ],
    }),
  );
  expect(goods).toMatchObject([
    { item: "Ties", unit: "piece", pack: 100, price: 2.5, supplier: "Town", returns: false, owned: 0 },
  ]);
  expect([...silenced]).toEqual(["bar"]);
  expect(problems).toEqual([]);
});

it("stops the job where a row's item cannot be read, else the item", () => {
  const { problems } = goodsTable(
    jobOf({
      goods: [{ doubt: "item must be given" }, { item: "Pole", price: 1, doubt: "per must be one of" }],
    }),
  );
  expect(problems.map(({ what, reach }) => [what, reach.of])).toEqual([
    ["goods row 2: item must be given", "job"],
    ["goods row 3: per must be one of", "good"],
  ]);
});
