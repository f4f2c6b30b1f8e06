import { officeHost } from "./office-host";
import type { SheetHost } from "./sheet-host";

/** Where the page runs: the host where it is Excel, and what Office says about the surroundings. */
export interface OfficeSurroundings {
  readonly host: SheetHost | undefined;
  /** `light` or `dark` as Office looks, undefined where Office does not say. */
  readonly theme: "light" | "dark" | undefined;
  /** A prefix for keys of local storage, where the browser keeps storage of several sites apart. */
  readonly partition: string;
}

/** Waits for Office. Outside of Excel there is no host, but the page can still be read. */
export async function connectOffice(): Promise<OfficeSurroundings> {
  const { host } = await Office.onReady();
  const context = Office.context as Partial<Office.Context> | undefined;
  return {
    host: host === Office.HostType.Excel ? officeHost : undefined,
    theme: themeOf(context?.officeTheme),
    partition: context?.partitionKey ?? "",
  };
}

function themeOf(theme: Partial<Office.OfficeTheme> | undefined): "light" | "dark" | undefined {
  if (theme?.isDarkTheme !== undefined) return theme.isDarkTheme ? "dark" : "light";
  const channels = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/i.exec(theme?.bodyBackgroundColor ?? "");
  if (channels === null) return undefined;
  const [red = 0, green = 0, blue = 0] = channels.slice(1).map((channel) => Number.parseInt(channel, 16));
  // Luma of ITU-R BT.601.
  return 0.299 * red + 0.587 * green + 0.114 * blue < 128 ? "dark" : "light";
}
