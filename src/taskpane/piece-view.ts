import { labelOf, type SheetCell } from "../formula/scope";
import { button, element } from "../ui/element";
import { PLAIN_COLOURS } from "../ui/picture";
import { SAVE_ACTIONS } from "../ui/picture-files";
import { pictureView, type PictureAction, type PictureView } from "../ui/picture-view";
import { piecesView, type PiecesView } from "../ui/pieces-view";
import { selectedCell } from "./find-view";
import type { PaneView } from "./pane-view";
import {
  pieceAt,
  pieceOfTables,
  putPieceBeside,
  refreshPictures,
  type PicturedPiece,
  type PictureLook,
} from "./piece-pictures";
import type { SheetHost } from "./sheet-host";
import { makeWorkLine } from "./work-line";
import { messageOf } from "../ui/message-of";

const MOST_COLOURS = 8;
const MOST_PALETTE_CELLS = 200;
const HEX = /^#[0-9a-f]{6}$/i;

/** The colours that a person chose in a picture. */
function lookOf(view: PictureView): PictureLook {
  const wells = [...view.element.querySelectorAll<HTMLInputElement>("input[type=color]")];
  const order = view.element.querySelector("select")?.value;
  return { colours: wells.map(({ value }) => value), order: order === "rows" ? "rows" : "balloons" };
}

/** Colours of palette cells: what is written in them as `#rrggbb`, else what they are filled with; white is no filling. */
async function paletteColours(host: SheetHost): Promise<readonly string[]> {
  const { sheet, range } = await host.selection();
  const lastRow = Math.min(range.lastRow, range.firstRow + MOST_PALETTE_CELLS);
  const area = {
    sheet,
    range: { ...range, lastRow, lastColumn: Math.min(range.lastColumn, range.firstColumn + 9) },
  };
  const [fills, [block]] = await Promise.all([host.fillColours(area), host.read([area])]);
  const written = (block?.values ?? []).flat();
  const colours = fills.map((fill, index) => {
    const text = written[index];
    return typeof text === "string" && HEX.test(text) ? text : fill;
  });
  const told = colours.filter((colour) => HEX.test(colour) && colour.toLowerCase() !== "#ffffff");
  return [...new Set(told.map((colour) => colour.toLowerCase()))].slice(0, MOST_COLOURS);
}

/** The piece of the selected cell, to scale and in its palette's colours; put beside the cell it follows its numbers. */
export function pieceView(host: SheetHost): PaneView {
  const work = makeWorkLine();
  const shownCell = element("p", {});
  const place = element("div", { class: "pane-picture" });
  let view: PictureView | undefined;
  let pieces: PiecesView | undefined;
  let cell: SheetCell | undefined;
  let piece: PicturedPiece | undefined;
  let drawing: Promise<unknown> = Promise.resolve();
  let turn = 0;

  const paint = (): void => {
    if (piece?.pieces !== undefined) pieces?.draw(piece.pieces);
    if (piece === undefined || view === undefined) return;
    view.draw(
      piece.balloons,
      `${piece.formula} seen from the front`,
      `${piece.balloons.length} balloons, to scale`,
    );
  };
  const putBeside = (look: () => PictureLook | undefined): PictureAction => ({
    label: "Put beside the cell",
    run: async () => {
      const how = look();
      if (how === undefined) return undefined;
      if (cell === undefined) return "select a cell with a formula of the job first: the picture follows it";
      await putPieceBeside(host, cell, how);
      return `Put beside ${labelOf(cell)}; it follows the numbers while the pane is open`;
    },
  });
  const makeView = (colours: readonly string[]): void => {
    pieces = undefined;
    view = pictureView("the piece", {
      colours,
      actions: [putBeside(() => view && lookOf(view)), ...SAVE_ACTIONS],
    });
    place.replaceChildren(view.element);
    paint();
  };
  const makePiecesView = (): void => {
    view = undefined;
    const look = (): PictureLook | undefined =>
      pieces && { colours: [], order: "balloons", piece: pieces.chosen() };
    pieces = piecesView("the pieces", { actions: [putBeside(look), ...SAVE_ACTIONS] });
    place.replaceChildren(pieces.element);
    paint();
  };

  const look = async (): Promise<void> => {
    turn += 1;
    const mine = turn;
    try {
      const at = await selectedCell(host);
      const outline = await host.outline();
      const described = await pieceAt(host, outline, at);
      // Without a formula the tables of the job say what its pieces are; one that is shown already stays.
      const found = described ?? (cell === undefined ? await pieceOfTables(host, outline, at) : undefined);
      if (mine !== turn) return;
      if (found !== undefined) {
        piece = found;
        if (described) cell = at;
        shownCell.replaceChildren(
          ...(described
            ? [element("strong", {}, labelOf(at)), " ", element("code", {}, found.formula)]
            : [`Drawn from ${found.formula}. Select a cell with a formula to see what that describes.`]),
        );
        const isJob = found.pieces !== undefined;
        if (isJob && pieces === undefined) makePiecesView();
        else if (!isJob && view === undefined) makeView(PLAIN_COLOURS);
        else paint();
        colourButton.hidden = isJob;
      } else if (piece === undefined) {
        shownCell.textContent =
          "Select a cell with a formula that describes a piece, such as =BLN.COUNT_COLUMN(1.8, 10), or all of them, =BLN.PART_PLAN(Pieces!A1:F40).";
      }
    } catch (error) {
      work.say(messageOf(error));
    }
  };
  const colourButton = button("Colours from the selected cells", "plain", () => {
    void work.run("Reading", async () => {
      const colours = await paletteColours(host);
      if (colours.length === 0)
        work.say("The selected cells have no colours: fill them, or write #c8553d in them.");
      else makeView(colours);
    });
  });
  colourButton.hidden = true;
  const refresh = (): void => {
    // One after the other: two at once would each see the picture that the other replaces.
    drawing = drawing
      .then(() => refreshPictures(host))
      .catch((error: unknown) => {
        work.say(messageOf(error));
      });
    if (piece !== undefined) void look();
  };

  return {
    label: "Picture",
    needs: "1.14",
    element: element(
      "section",
      { class: "bln-view" },
      element("h2", { class: "bln-title" }, "Picture of a piece"),
      shownCell,
      place,
      colourButton,
      work.element,
    ),
    shown: () => void look(),
    selected: () => void look(),
    changed: refresh,
  };
}
