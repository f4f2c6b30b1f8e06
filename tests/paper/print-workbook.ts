import { createWorkbook, type WorkbookDescription } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";

const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };

/** A workbook whose first sheet has more of a page setup than the writer of new workbooks knows: `markup` behind its cells. */
export function printWorkbook(sheets: WorkbookDescription["sheets"], markup = ""): Uint8Array {
  const bytes = createWorkbook({ ...PLAIN, sheets });
  if (markup === "") return bytes;
  const { model, parts: opened } = openWorkbook(bytes);
  const parts = opened.copy();
  const part = model.sheets[0]?.part ?? "";
  const whole = parts.readText(part);
  const text = markup.includes("<pageMargins") ? whole.replace(/<pageMargins[^>]*>/, "") : whole;
  const place = text.includes("<pageSetup") ? "<pageSetup" : "</worksheet>";
  // Breaks and heads come behind the setup of the page, margins and options before it.
  const [before = "", after = ""] = markup.split("|");
  const cut = text.indexOf(place);
  const tail = text.slice(cut);
  const end = place === "<pageSetup" ? tail.indexOf(">") + 1 : 0;
  parts.writeText(part, text.slice(0, cut) + before + tail.slice(0, end) + after + tail.slice(end));
  return parts.toBytes();
}

/** A list of some rows under two lines of heading, beside a remark that is not to be printed. */
export function priceSheet(rows: number): WorkbookDescription["sheets"][number] {
  const lines = Array.from({ length: rows }, (_, index) => [
    [`A${String(index + 3)}`, { value: `item ${String(index + 1)}` }],
    [`B${String(index + 3)}`, { value: (index + 1) / 4, style: { numberFormat: "#,##0.00" } }],
  ]).flat();
  return {
    name: "Price list",
    columnWidths: { A: 40, B: 14 },
    cells: {
      A1: { value: "Prices of the season", style: { bold: true } },
      A2: { value: "item", style: { fill: "#1f4e79", fontColor: "#ffffff" } },
      B2: { value: "price", style: { fill: "#1f4e79", fontColor: "#ffffff" } },
      D1: { value: "for us only" },
      ...(Object.fromEntries(lines) as object),
    },
    page: {
      orientation: "landscape",
      printArea: `A1:B${String(rows + 2)}`,
      repeatedRows: "2:2",
      paper: 9,
      fit: { wide: 1, tall: 0 },
    },
  };
}
