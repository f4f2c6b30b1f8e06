import { saveFile } from "../ui/picture";
import { ask } from "./ask";
import type { Drafts } from "./drafts";
import { workbookBlob } from "./file-intake";
import type { Grid } from "./grid";
import type { Writing } from "./messages";
import type { OpenBook } from "./open-book";
import { makePrinting } from "./printing";
import type { StatusLine } from "./status";
import { takenFile } from "./text-file";
import { messageOf } from "../ui/message-of";

type Draft = Awaited<ReturnType<Drafts["takeLost"]>> & object;

/** What a person does with the workbook as a file. */
export interface FileActions {
  openFile(file: File): Promise<void>;
  /** Offers the work back that was not saved when its page closed. */
  offer(draft: Draft): Promise<void>;
  write(writing: Writing): Promise<void>;
  print(): Promise<void>;
}

const ENDINGS: Readonly<Record<Writing, string>> = {
  workbook: "",
  "partner copy": " (values)",
  "put back": "",
};

export function makeFileActions(open: OpenBook, grid: Grid, status: StatusLine): FileActions {
  const printing = makePrinting();

  /** Brings back the file of a draft with the work that was done to it. */
  async function recover({ bytes, name, work }: Draft): Promise<void> {
    const session = open.makeSession();
    try {
      session.resume(bytes, work);
      const file = await session.write("workbook");
      await open.open(file.bytes, name, "your changes are back; save them to keep them in a file");
    } catch (error) {
      status.say(`${name} could not be brought back: ${messageOf(error)}`, "error");
    } finally {
      session.close();
    }
  }

  return {
    async openFile(file) {
      const { book } = open;
      if (book?.isChanged) {
        const question = `${book.name} has changes that are not saved.`;
        if (!(await ask(question, `Open ${file.name}`))) return;
      }
      try {
        const bytes = new Uint8Array(await file.arrayBuffer());
        const taken = takenFile(bytes, file.name, new Date().toISOString());
        await open.open(taken.bytes, taken.name, taken.note);
      } catch (error) {
        open.notOpened(file.name, error);
      }
    },
    async offer(draft) {
      const when = new Date(draft.time).toLocaleString();
      const question = `${draft.name} had changes that were not saved when its page closed (${when}).`;
      if (await ask(question, "Go on with them", "Discard them")) await recover(draft);
    },
    async write(writing) {
      const { book } = open;
      if (!book) return;
      const { name } = book;
      status.working("Saving", undefined, () => {
        book.stop();
      });
      try {
        const { bytes, note } = await book.write(writing);
        if (writing === "put back") {
          await open.open(bytes, name, note);
          return;
        }
        const ending = ENDINGS[writing];
        const named = name.replace(/(\.[a-z]+)?$/i, (old) => `${ending}${old === "" ? ".xlsx" : old}`);
        saveFile(workbookBlob(bytes), named);
        open.noteChange();
        status.say(`saved as ${named}${note === "" ? "" : `: ${note}`}`);
      } catch (error) {
        status.say(`${name} was not saved: ${messageOf(error)}`, "error");
      }
      status.rest();
    },
    async print() {
      const { book } = open;
      if (!book) return;
      status.working("Laying out the paper", undefined, () => {
        book.stop();
      });
      try {
        printing.print(await book.paper(grid.place.sheet));
      } catch (error) {
        status.say(`nothing was printed: ${messageOf(error)}`, "error");
      }
      status.rest();
    },
  };
}
