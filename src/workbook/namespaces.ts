const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006";

/** Namespaces of the transitional form; the strict form is mapped to them while scanning. */
export const NAMESPACES = {
  main: "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
  relationships: `${OFFICE}/relationships`,
  packageRelationships: "http://schemas.openxmlformats.org/package/2006/relationships",
  contentTypes: "http://schemas.openxmlformats.org/package/2006/content-types",
  drawing: "http://schemas.openxmlformats.org/drawingml/2006/main",
} as const;

/** What strict files (ISO/IEC 29500 part 1) write instead. */
export const STRICT_RELATIONSHIPS = "http://purl.oclc.org/ooxml/officeDocument/relationships";
export const STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main";
const STRICT: ReadonlyMap<string, string> = new Map([
  [STRICT_MAIN, NAMESPACES.main],
  [STRICT_RELATIONSHIPS, NAMESPACES.relationships],
  ["http://purl.oclc.org/ooxml/drawingml/main", NAMESPACES.drawing],
]);

/** Namespaces that are compared for every element: one text for all of them, which compares at a glance. */
const KNOWN: ReadonlyMap<string, string> = new Map([
  ...Object.values(NAMESPACES).map((uri) => [uri, uri] as const),
  ...STRICT,
]);

/** A namespace in its transitional form. */
export function canonical(uri: string): string {
  return KNOWN.get(uri) ?? uri;
}
