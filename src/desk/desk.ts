import "./desk.css";
import { openWorkbook } from "../workbook/read";
import { Grid } from "./grid";
const container = document.querySelector<HTMLElement>(".desk-grid");
if (container) {
  const grid = new Grid(container, {
    edited: (e) => { console.log("edited", JSON.stringify(e)); },
    selected: (p) => { console.log("sel", JSON.stringify(p)); },
    history: (a, b) => { console.log("hist", a, b); },
    refused: (s) => { console.log("refused", s); },
  }, matchMedia("(prefers-color-scheme: dark)").matches);
  Object.assign(globalThis, { grid });
  void fetch("sample.xlsx").then((r) => r.arrayBuffer()).then((b) => {
    const { model } = openWorkbook(new Uint8Array(b));
    grid.open(model, "sample", (f) => f);
    performance.mark("opened");
  });
}
