import type { WorkbookPackage } from "./package";
import { TYPES_PART } from "./part-names";

const OLE_SIGNATURE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const ZIP_SIGNATURE = [0x50, 0x4b];

/** What a file is that is no ZIP container; undefined for one that is. */
export function nameStranger(bytes: Uint8Array): string | undefined {
  const starts = (signature: readonly number[]): boolean => signature.every((byte, i) => bytes[i] === byte);
  if (bytes.length === 0) return "the file is empty";
  if (starts(ZIP_SIGNATURE)) {
    return bytes.length < 22 ? "the file is damaged or cut short: save it again as .xlsx" : undefined;
  }
  if (starts(OLE_SIGNATURE)) {
    // Names of streams are UTF-16 in this container's directory.
    const text = new TextDecoder("utf-16le").decode(bytes);
    const isEncrypted = text.includes("EncryptedPackage") || text.includes("EncryptionInfo");
    return isEncrypted
      ? "the file is protected with a password: open it in Excel and save it without one"
      : "the file is an old Excel workbook (.xls): open it in Excel and save it as .xlsx";
  }
  // A letter that the end cuts is none of this text's faults.
  const head = new TextDecoder("utf-8").decode(bytes.subarray(0, 4096), { stream: true }).trimStart();
  if (head.startsWith("%PDF")) return "the file is a PDF, not an .xlsx workbook";
  if (/^<(?:\?xml|!doctype|html|table)/i.test(head)) {
    return "the file is a page or XML text, not an .xlsx workbook: open it in Excel and save it as .xlsx";
  }
  if (!/[^\P{Cc}\t\r\n]|\uFFFD/u.test(head)) {
    return "the file is plain text such as .csv, not an .xlsx workbook: open it in Excel and save it as .xlsx";
  }
  return "the file is not an .xlsx workbook";
}

/** What a ZIP container is that holds no .xlsx workbook; undefined for one that does. */
export function nameOtherPackage(parts: Pick<WorkbookPackage, "has">): string | undefined {
  if (parts.has("xl/workbook.bin")) {
    return "the file is a binary workbook (.xlsb): open it in Excel and save it as .xlsx";
  }
  if (parts.has("mimetype") && parts.has("content.xml")) {
    return "the file is an OpenDocument file (.ods): open it in its own program and save it as .xlsx";
  }
  if (parts.has("word/document.xml")) return "the file is a text document (.docx), not an .xlsx workbook";
  if (parts.has("ppt/presentation.xml")) return "the file is a presentation (.pptx), not an .xlsx workbook";
  if (!parts.has(TYPES_PART)) return "the file is a ZIP archive, not an .xlsx workbook";
  return undefined;
}
