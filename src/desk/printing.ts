import type { Paper } from "../paper/markup";
import { element } from "../ui/element";

const HINT =
  "Print with the button Print above the sheet, or with Ctrl+P: then the sheet is laid out for paper.";

/** What the browser prints: the paper that was made last, and a hint where none was. */
export interface Printing {
  /** Puts a paper on the page, unseen but for the printer, and opens the browser's print window. */
  print(paper: Paper): void;
}

export function makePrinting(): Printing {
  const rules = new CSSStyleSheet();
  const root = element("div", { class: "paper" });
  const rest = (): void => {
    rules.replaceSync("");
    root.replaceChildren(element("p", {}, HINT));
  };
  rest();
  // A style element would break the page's content security policy.
  document.adoptedStyleSheets.push(rules);
  document.body.append(root);
  // What is printed later is laid out anew, from what the sheet shows then.
  addEventListener("afterprint", rest);
  return {
    print({ css, markup }) {
      rules.replaceSync(css);
      root.replaceChildren(...new DOMParser().parseFromString(markup, "text/html").body.childNodes);
      print();
    },
  };
}
