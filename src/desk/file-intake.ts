import { element } from "../ui/element";

const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** Takes files from a chooser and from the window, on which they can be dropped; gives what opens the chooser. */
export function listenForFiles(open: (file: File) => Promise<void>): () => void {
  const chooser = element("input", {
    type: "file",
    accept: `.xlsx,.xlsm,.xltx,.csv,.tsv,.txt,.ods,${XLSX}`,
    hidden: true,
    "aria-label": "Workbook",
  });
  document.body.append(chooser);
  chooser.addEventListener("change", () => {
    const [file] = chooser.files ?? [];
    // Emptied, so that choosing the same file again is a change too.
    if (file) void open(file).finally(() => (chooser.value = ""));
  });
  const hint = element("div", { class: "desk-drop", hidden: true }, "Drop the workbook here");
  document.body.append(hint);
  const isFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
  addEventListener("dragover", (event) => {
    if (!isFile(event)) return;
    event.preventDefault();
    hint.hidden = false;
  });
  addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) hint.hidden = true;
  });
  addEventListener("drop", (event) => {
    if (!isFile(event)) return;
    event.preventDefault();
    hint.hidden = true;
    const [file] = event.dataTransfer?.files ?? [];
    if (file) void open(file);
  });
  return () => {
    chooser.click();
  };
}

/** Gives a workbook to the browser to be saved. */
export function workbookBlob(bytes: Uint8Array): Blob {
  return new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX });
}
