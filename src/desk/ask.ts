import { button, element } from "../ui/element";

/** Asks before something that cannot be taken back; false where the person leaves by Escape. */
export function ask(sentence: string, yes: string, no = "Cancel"): Promise<boolean> {
  return new Promise((resolve) => {
    const accept = button(yes, "primary", () => {
      dialog.close("yes");
    });
    const cancel = button(no, "plain", () => {
      dialog.close();
    });
    const dialog = element(
      "dialog",
      { class: "desk-dialog", "aria-label": "Question" },
      element("p", {}, sentence),
      element("div", { class: "bln-row" }, accept, cancel),
    );
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(dialog.returnValue === "yes");
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
