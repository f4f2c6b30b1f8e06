import type { PictureAction } from "./picture-view";
import { saveFile, svgBlob, svgToPng } from "./picture";

const PNG_WIDTH = 1600;

/** A file name from words that a person may have typed. */
function fileName(name: string, ending: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "_")
    .replace(/^_+|_+$/g, "");
  return `${plain === "" ? "picture" : plain}.${ending}`;
}

/** Buttons that hand a picture to the person as a file. */
export const SAVE_ACTIONS: readonly PictureAction[] = [
  {
    label: "Save as SVG",
    run(svg, name) {
      saveFile(svgBlob(svg), fileName(name, "svg"));
      return "saved as SVG";
    },
  },
  {
    label: "Save as PNG",
    async run(svg, name) {
      saveFile(await svgToPng(svg, PNG_WIDTH), fileName(name, "png"));
      return "saved as PNG";
    },
  },
];
