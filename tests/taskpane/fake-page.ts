// The pane as the add-in ships it, but for the workbook: `window.book` is one in memory.
import "../../src/ui/styles.css";
import "../../src/taskpane/taskpane.css";
import { startPane } from "../../src/taskpane/pane";
import { makePreferences } from "../../src/taskpane/preferences";
import { area, FakeHost } from "./fake-host";

const book = new FakeHost()
  .addSheet("Plan")
  .addSheet("Locked")
  .fill("Plan!A1", [
    ["Piece", "Height", "Balloon", "Count"],
    ["Door, left", 1.8, 10, ""],
    ["Door, right", 2.1, 11, ""],
  ])
  .table("Pieces", "Plan!A1:D3")
  .fill("Plan!F1", [
    ["=BLN.COUNT_ARCH(5, 2.8, 9)"],
    ["=BLN.AIR_LITRES(250)"],
    ["=BLN.BAG_PLAN(200, {50,100}, {8,14})"],
  ])
  .show("Plan!A10", "=BLN.METRES(3)", "#NAME?")
  .fill("Plan!A20", [
    ["supplier", "printed", "colour", "bag", "price"],
    ["Town", 11, "red", 50, 8],
    ["Town", 5, "white", 100, 5.9],
  ])
  .table("Prices", "Plan!A20:E22")
  .fill("Plan!A30", [
    ["name", "price", "cost"],
    ["Regatta", 500, 350],
    ["Birthday", 200, 100],
  ])
  .table("Quotes", "Plan!A30:C32")
  .fill("Locked!A1", [["=BLN.METRES(2)"]])
  .protect("Locked");

// `?excel=9&decimal=,` is an older Excel whose formulas have decimal commas.
const asked = new URLSearchParams(location.search);
book.version = Number(asked.get("excel") ?? book.version);
book.mark = asked.get("decimal") ?? book.mark;

declare global {
  interface Window {
    book: FakeHost;
    /** Selects cells as a person would. */
    choose: (address: string) => void;
  }
}

window.book = book;
window.choose = (address) => {
  book.selected = area(address);
  book.events?.selected();
};

const root = document.getElementById("pane");
if (root !== null) {
  startPane(root, {
    host: book,
    preferences: makePreferences("test-", () => localStorage),
    now: () => "2027-06-19T10:00:00.000Z",
  });
}
