import { WorkbookError } from "./model";
import { WorkbookPackage } from "./package";
import { PACKAGE_ROOT } from "./part-names";
import { findWorkbookPart } from "./workbook-part";
import { escapeAttribute, PLAIN, readXml, XML_DECLARATION } from "./xml";

// Custom XML data (ECMA-376 part 1, 15.2.5 and 15.2.6): Excel keeps such parts and never shows them.

const PROPERTIES_TYPE = "application/vnd.openxmlformats-officedocument.customXmlProperties+xml";
const PROPERTIES_NAMESPACE = "http://schemas.openxmlformats.org/officeDocument/2006/customXml";

/** The XML that a file carries under a namespace of ours, or undefined where it carries none. */
export function customPart(parts: WorkbookPackage, namespace: string): string | undefined {
  const found = findCustomPart(parts, namespace);
  return found === undefined ? undefined : parts.readText(found.part);
}

/** The file with XML under a namespace of ours, or without it. Throws WorkbookError where the XML is not in that namespace. */
export function setCustomPart(bytes: Uint8Array, namespace: string, xml: string | undefined): Uint8Array {
  const parts = WorkbookPackage.open(bytes).copy();
  if (xml !== undefined && readXml(xml, namespace).uri !== namespace) {
    throw new WorkbookError(`the data to be kept in the file must have the namespace ${namespace}`);
  }
  const workbookPart = findWorkbookPart(parts);
  const found = findCustomPart(parts, namespace);
  const known = found?.part;
  if (xml === undefined) {
    if (known !== undefined) {
      for (const properties of parts.linked(known, "customXmlProps")) parts.remove(properties, known);
      parts.remove(known, found?.source ?? workbookPart);
    }
  } else if (known !== undefined) parts.writeText(known, xml);
  else {
    const part = parts.freeName("customXml/item", ".xml");
    const properties = parts.freeName("customXml/itemProps", ".xml");
    parts.addExtension("xml", "application/xml");
    parts.writeText(part, xml);
    parts.add(properties, PROPERTIES_TYPE, propertiesMarkup(namespace));
    parts.link(part, "customXmlProps", properties);
    parts.link(workbookPart, "customXml", part);
  }
  return parts.toBytes();
}

/** The part and what links to it: the workbook, or the package itself, where LibreOffice moves the link. */
function findCustomPart(
  parts: WorkbookPackage,
  namespace: string,
): { readonly part: string; readonly source: string } | undefined {
  const linked = [findWorkbookPart(parts), PACKAGE_ROOT].flatMap((source) =>
    parts.linked(source, "customXml").map((part) => ({ part, source })),
  );
  return linked.find(({ part }) => {
    try {
      return readXml(parts.readText(part), part).uri === namespace;
    } catch (error) {
      // Another program's part may be missing or damaged; that is no reason to refuse the file.
      if (error instanceof WorkbookError) return false;
      throw error;
    }
  });
}

function propertiesMarkup(namespace: string): string {
  const schema = PLAIN.wrap("ds:schemaRef", `ds:uri="${escapeAttribute(namespace)}"`, "");
  const attributes = `ds:itemID="${itemId(namespace)}" xmlns:ds="${PROPERTIES_NAMESPACE}"`;
  return (
    XML_DECLARATION + PLAIN.wrap("ds:datastoreItem", attributes, PLAIN.wrap("ds:schemaRefs", "", schema))
  );
}

/** An identifier that depends on the namespace only, so that the same file always gives the same bytes (FNV-1a, four times). */
function itemId(namespace: string): string {
  const words = [1, 2, 3, 4].map((salt) => {
    let hash = 0x811c9dc5 ^ salt;
    for (let i = 0; i < namespace.length; i++) hash = Math.imul(hash ^ namespace.charCodeAt(i), 0x01000193);
    return (hash >>> 0).toString(16).padStart(8, "0");
  });
  const digits = words.join("").toUpperCase();
  const cuts = [0, 8, 12, 16, 20, 32];
  return `{${cuts
    .slice(1)
    .map((end, i) => digits.slice(cuts[i], end))
    .join("-")}}`;
}
