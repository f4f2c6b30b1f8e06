import { BrowserClipboardService } from "@univerjs/ui";

/** What the grid library puts around its tables; no other program needs it. */
const WRAPPER = /<\/?[\w-]+-html-origin>/g;

/**
 * Hands copied cells over in the event of copying: the browser's other way reads the table as a document first, whose
 * styles the page's content security policy refuses, and needs a permission.
 */
export class PageClipboard extends BrowserClipboardService {
  override async write(text: string, html: string, customData?: Record<string, string>): Promise<void> {
    const table = html.replace(WRAPPER, "");
    let isTaken = false;
    const give = (event: ClipboardEvent): void => {
      if (!event.clipboardData) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      event.clipboardData.setData("text/plain", text);
      event.clipboardData.setData("text/html", table);
      isTaken = true;
    };
    addEventListener("copy", give, { capture: true });
    try {
      // Deprecated, and still the one way that asks for no permission.

      document.execCommand("copy");
    } finally {
      removeEventListener("copy", give, { capture: true });
    }
    if (!isTaken) await super.write(text, table, customData);
  }
}
