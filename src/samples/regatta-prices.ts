import { sampleTable } from "./sample-table";
import { DELIVERY_HEADINGS, GOODS_HEADINGS } from "./shared-headings";

const TOWN = { supplier: "Town shop" } as const;
const ONLINE = { supplier: "Online store" } as const;

/** What balloons cost, one row for each bag on sale. */
export const REGATTA_PRICES = sampleTable({
  name: "Prices",
  sort: "price_list",
  title: "Price list",
  spare: 12,
  columns: {
    supplier: "input",
    "printed in": "input",
    colour: "input",
    type: "input",
    bag: "input",
    price: "inputMoney",
    "good each": "inputShare",
  },
  rows: [
    { ...TOWN, "printed in": 5, colour: "Navy", bag: 100, price: 7.5, "good each": 0.99 },
    { ...TOWN, "printed in": 5, colour: "White", bag: 100, price: 7.2, "good each": 0.99 },
    { ...TOWN, "printed in": 5, colour: "Coral", bag: 100, price: 7.5, "good each": 0.99 },
    { ...TOWN, "printed in": 11, colour: "Navy", bag: 50, price: 9.9, "good each": 0.98 },
    { ...TOWN, "printed in": 11, colour: "White", bag: 50, price: 8.9, "good each": 0.98 },
    { ...TOWN, "printed in": 11, colour: "Coral", bag: 50, price: 9.9, "good each": 0.98 },
    { ...TOWN, "printed in": 11, colour: "Sky", bag: 50, price: 9.9, "good each": 0.98 },
    { ...TOWN, "printed in": 11, colour: "Sand", bag: 50, price: 10.4, "good each": 0.98 },
    { ...TOWN, "printed in": 16, colour: "Navy", bag: 25, price: 13.5, "good each": 0.98 },
    { ...TOWN, "printed in": 16, colour: "White", bag: 25, price: 12.9, "good each": 0.98 },
    { ...TOWN, "printed in": 16, colour: "Coral", bag: 25, price: 13.5, "good each": 0.98 },
    { ...TOWN, "printed in": 16, colour: "Clear", bag: 25, price: 14.2, "good each": 0.98 },
    { ...TOWN, "printed in": 18, colour: "Silver", type: "foil", bag: 1, price: 1.6 },
    { ...TOWN, "printed in": 60, colour: "White", type: "long", bag: 10, price: 6 },
    { ...ONLINE, "printed in": 5, colour: "White", bag: 100, price: 6.4, "good each": 0.98 },
    { ...ONLINE, "printed in": 5, colour: "Coral", bag: 100, price: 6.6, "good each": 0.98 },
    { ...ONLINE, "printed in": 11, colour: "Navy", bag: 100, price: 17.2, "good each": 0.97 },
    { ...ONLINE, "printed in": 11, colour: "White", bag: 100, price: 15.9, "good each": 0.97 },
    { ...ONLINE, "printed in": 11, colour: "Coral", bag: 100, price: 17.2, "good each": 0.97 },
    { ...ONLINE, "printed in": 11, colour: "Sky", bag: 100, price: 17.2, "good each": 0.97 },
    { ...ONLINE, "printed in": 11, colour: "Sand", bag: 100, price: 18.6, "good each": 0.97 },
    { ...ONLINE, "printed in": 16, colour: "Coral", bag: 50, price: 24.9, "good each": 0.97 },
    { ...ONLINE, "printed in": 16, colour: "Navy", bag: 50, price: 24.9, "good each": 0.97 },
    { ...ONLINE, "printed in": 18, colour: "Silver", type: "foil", bag: 10, price: 12 },
  ],
});

export const REGATTA_DELIVERY = sampleTable({
  name: "Delivery",
  sort: "delivery",
  title: "Delivery",
  spare: 3,
  columns: DELIVERY_HEADINGS,
  rows: [
    { ...TOWN, charge: "none" },
    { ...ONLINE, charge: 6.9, minimum: 20, "free from": 75 },
  ],
});

/** Names that a supplier writes in another way. */
export const NAMES = sampleTable({
  name: "Names",
  sort: "names",
  title: "Other names",
  spare: 6,
  columns: { written: "input", means: "input" },
  rows: [{ written: "Marine blue", means: "Navy" }],
});

export const REGATTA_STOCK = sampleTable({
  name: "Stock",
  sort: "stock",
  title: "On the shelf",
  spare: 12,
  columns: {
    "printed in": "input",
    colour: "input",
    type: "input",
    count: "input",
    "value each": "inputMoney",
  },
  rows: [
    { "printed in": 11, colour: "White", count: 30, "value each": 0.18 },
    { "printed in": 5, colour: "Coral", count: 40, "value each": 0.07 },
  ],
});

/** Everything that is no balloon, and what it goes by. */
export const REGATTA_GOODS = sampleTable({
  name: "Goods",
  sort: "goods",
  title: "Goods",
  spare: 10,
  columns: GOODS_HEADINGS,
  rows: [
    {
      item: "base with pole",
      per: "piece",
      for: "column",
      price: 1.5,
      returns: "yes",
      owned: 6,
      "m3 each": 0.04,
    },
    {
      item: "arch frame, section",
      per: "metre",
      for: "arch",
      price: 0.8,
      returns: "yes",
      owned: 12,
      "m3 each": 0.01,
    },
    {
      item: "line",
      per: "metre",
      for: "mix",
      amount: 1.2,
      unit: "m",
      pack: 100,
      price: 2.9,
      "m3 each": "none",
      ...TOWN,
    },
    {
      item: "adhesive dots",
      per: "balloon",
      for: "cover",
      pack: 100,
      price: 3.5,
      "m3 each": "none",
      ...TOWN,
    },
    {
      item: "adhesive dots",
      per: "balloon",
      for: "collar",
      pack: 100,
      price: 3.5,
      "m3 each": "none",
      ...TOWN,
    },
    {
      item: "stand",
      per: "piece",
      for: "Stand bouquets",
      price: 3,
      returns: "yes",
      owned: 2,
      "m3 each": 0.03,
    },
    {
      item: "bouquet weight",
      per: "piece",
      for: "Table bouquets",
      pack: 10,
      price: 8,
      "m3 each": 0.005,
      ...TOWN,
    },
    { item: "gift table net", per: "piece", for: "Gift table", price: 0.6, "m3 each": 0.001, ...TOWN },
    { item: "ribbon", per: "ribbon metre", unit: "m", pack: 250, price: 3.6, "m3 each": "none", ...TOWN },
    {
      item: "helium cylinder",
      per: "helium litre",
      unit: "L",
      pack: 9000,
      price: 189,
      returns: "yes",
      supplier: "Gas depot",
      "m3 each": 0.15,
    },
    { item: "ladder", per: "event", price: "none", returns: "yes", owned: 1, "m3 each": 0.2 },
  ],
});
