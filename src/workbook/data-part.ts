import { PLAIN, readXml, XML_DECLARATION } from "./xml";
import { WorkbookError } from "./model";

// Data of ours inside a workbook is JSON in one XML element, so that the file and Excel keep it and any program can read it.

/** The content of a custom XML part: data under a namespace of ours. */
export function dataPart(namespace: string, data: unknown): string {
  // Escapes keep the XML within what every parser allows, whatever text a cell holds.
  const json = JSON.stringify(data).replace(
    /[^\x20-\x7e]|[<>&]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
  return XML_DECLARATION + PLAIN.wrap("data", `xmlns="${namespace}"`, json);
}

/** The data of such a part; undefined where it is not one or is damaged. */
export function partData(namespace: string, xml: string): unknown {
  try {
    const root = readXml(xml, namespace);
    return root.uri === namespace ? (JSON.parse(root.text) as unknown) : undefined;
  } catch (error) {
    if (error instanceof WorkbookError || error instanceof SyntaxError) return undefined;
    throw error;
  }
}
