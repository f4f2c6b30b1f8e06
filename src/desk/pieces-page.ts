import { functionNamed } from "../functions/catalogue";
import { placedTables, type FoundTable } from "../functions/event/find-tables";
import type { DrawnPiece } from "../functions/definition";
import type { ReferenceValues } from "../ui/form-reading";
import { element, type View } from "../ui/element";
import { SAVE_ACTIONS } from "../ui/picture-files";
import { piecesView } from "../ui/pieces-view";
import { messageOf } from "../ui/message-of";

const plan = functionNamed("PART_PLAN");
const FIELDS = plan?.params.map(({ name }) => name) ?? [];

/** What the page of pictures reads from the sheet beside it. */
export interface PiecesHost {
  readonly findTables: () => Promise<readonly FoundTable[]>;
  readonly resolve: (reference: string) => Promise<ReferenceValues | undefined> | undefined;
}

/** The pieces of the workbook's tables, side by side or one by one. */
export interface PiecesPage extends View {
  /** The sheet changed; drawn anew where it is in sight, else once it is. */
  refresh(): void;
}

/** Draws all pieces of the tables that the workbook holds, without a formula. */
export function makePiecesPage(host: PiecesHost): PiecesPage {
  const view = piecesView("pieces", { actions: SAVE_ACTIONS });
  const status = element("p", { class: "bln-quiet", role: "status" });
  const root = element(
    "section",
    { class: "bln-view" },
    element("h2", { class: "bln-title" }, "The pieces, to scale"),
    status,
    view.element,
  );
  let turn = 0;
  let width = 0;
  let pieces: readonly DrawnPiece[] | undefined;

  const draw = async (): Promise<void> => {
    turn += 1;
    const mine = turn;
    const tables = [...placedTables(await host.findTables(), FIELDS).fields.values()];
    const values = await Promise.all(tables.map(({ reference }) => host.resolve(reference)));
    if (mine !== turn) return;
    pieces = plan?.drawPieces?.(values.map((rows) => rows ?? null)) ?? [];
    const source = tables.find(({ sort }) => sort === "pieces");
    status.textContent =
      source === undefined
        ? "No table of pieces was found: it is known by its headings name and kind."
        : `Drawn from ${source.reference}`;
    view.draw(pieces);
  };
  const refresh = (): void => {
    pieces = undefined;
    if (width === 0) return;
    draw().catch((error: unknown) => {
      status.textContent = messageOf(error);
    });
  };
  // It is as wide as its place only while it is in sight, and drawn for that width.
  new ResizeObserver(() => {
    if (root.clientWidth === width) return;
    width = root.clientWidth;
    if (pieces === undefined) refresh();
    else view.draw(pieces);
  }).observe(root);
  return { element: root, refresh };
}
