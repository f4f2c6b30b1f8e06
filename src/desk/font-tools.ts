import type { IStyleData } from "@univerjs/core";
import { fontFamily } from "../paper/font-family";
import { element } from "../ui/element";

/** Faces that spreadsheets on most computers have; the file keeps the name, whatever is installed here. */
const FACES = [
  "Aptos",
  "Arial",
  "Calibri",
  "Cambria",
  "Courier New",
  "Georgia",
  "Liberation Sans",
  "Tahoma",
  "Times New Roman",
  "Verdana",
];
/** Sizes in points. */
const SIZES = [8, 9, 10, 11, 12, 14, 16, 18, 20, 24, 28, 36, 48, 72];

/** The choices of a face and of a size for the selected cells. */
export function makeFontTools(dress: (style: IStyleData) => void): readonly HTMLElement[] {
  const choice = (
    label: string,
    entries: readonly string[],
    style: (entry: string) => IStyleData,
  ): HTMLSelectElement => {
    const select = element(
      "select",
      { "aria-label": label, title: `${label} of the selected cells`, class: "desk-select" },
      element("option", { value: "", selected: true }, label),
      ...entries.map((entry) => element("option", { value: entry }, entry)),
    );
    select.addEventListener("change", () => {
      const entry = select.value;
      select.selectedIndex = 0;
      if (entry !== "") dress(style(entry));
    });
    return select;
  };
  return [
    choice("Font", FACES, (face) => ({ ff: fontFamily(face) })),
    choice("Size", SIZES.map(String), (size) => ({ fs: Number(size) })),
  ];
}
