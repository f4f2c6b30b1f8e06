import { placedTables, type FoundTable } from "../functions/event/find-tables";
import { button, element, type View } from "./element";
import type { Field } from "./field";
import { messageOf } from "./message-of";

/** Fills the fields of a job's tables with what the workbook holds. */
export interface TableFinder extends View {
  find(): Promise<void>;
  /** Why the formula may not go into the chosen cell; undefined where it may. */
  refusal(): Promise<string | undefined>;
}

/** What to do about a chosen cell inside a table that the formula reads. */
function elsewhere(tables: readonly FoundTable[]): string | undefined {
  const held = tables.find(({ holdsCell }) => holdsCell === true);
  return held && `The selected cell is in ${held.reference}: select one outside of it for the formula.`;
}

const rowsOf = ({ rows }: FoundTable): string => `${rows} ${rows === 1 ? "row" : "rows"}`;

/**
 * Looks for the tables of a job in the workbook, fills their fields, and says which one was read as what.
 *
 * @param fields of the form; only those for tables in any order are filled
 * @param find reads the workbook; undefined where there is none
 * @param onFilled fields have another content
 */
export function tableFinder(
  fields: readonly Field[],
  find: (() => Promise<readonly FoundTable[]>) | undefined,
  onFilled: () => void,
): TableFinder | undefined {
  const own = fields.filter(({ param }) => param.kind === "table" && param.anyPlace === true);
  if (find === undefined || own.length === 0) return undefined;
  const status = element("p", { class: "bln-quiet", role: "status" });
  const list = element("ul", { class: "bln-quiet" });
  const say = (text: string, lines: readonly string[] = []): void => {
    status.textContent = text;
    list.hidden = lines.length === 0;
    list.replaceChildren(...lines.map((line) => element("li", {}, line)));
  };
  const look = async (): Promise<void> => {
    say("Looking for the tables of the job");
    try {
      const found = await find();
      const { fields: placed, leftOut } = placedTables(
        found,
        own.map(({ param }) => param.name),
      );
      for (const field of own) {
        const table = placed.get(field.param.name);
        if (table === undefined) field.clear();
        else field.refer(table.reference);
      }
      const tables = own.flatMap(({ param }) => placed.get(param.name) ?? []);
      const said = tables.map(
        (table) => `${table.reference} read as ${table.sort.replaceAll("_", " ")}, ${rowsOf(table)}`,
      );
      const left = leftOut.map(
        (table) =>
          `${table.reference} is left out: another table is read as ${table.sort.replaceAll("_", " ")}`,
      );
      const none = "No table of a job was found: each is known by its headings, such as name and kind.";
      const count = tables.length === 1 ? "1 table was" : `${tables.length} tables were`;
      const held = elsewhere(tables);
      say(tables.length === 0 ? none : `${count} found in the workbook.`, [
        ...said,
        ...left,
        ...(held === undefined ? [] : [held]),
      ]);
    } catch (error) {
      say(messageOf(error));
    }
    onFilled();
  };
  return {
    element: element(
      "div",
      { class: "bln-field" },
      status,
      list,
      button("Look for the tables again", "plain", () => void look()),
    ),
    find: look,
    refusal: async () => elsewhere(await find()),
  };
}
