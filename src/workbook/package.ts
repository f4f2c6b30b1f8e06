import { WorkbookError } from "./model";
import { NAMESPACES, STRICT_MAIN, STRICT_RELATIONSHIPS } from "./namespaces";
import { nameOtherPackage, nameStranger } from "./other-files";
import { PACKAGE_ROOT, partKey, relationshipsPart, resolveTarget, TYPES_PART } from "./part-names";
import { appendTo, applyEdits, escapeAttribute, readXml, XML_DECLARATION } from "./xml";
import type { XmlElement } from "./xml";
import {
  deflateEntry,
  inflateEntry,
  PACKAGE_LIMITS,
  type PackageLimits,
  readZip,
  writeZip,
  type ZipEntry,
} from "./zip";

const EMPTY_RELATIONSHIPS = `${XML_DECLARATION}<Relationships xmlns="${NAMESPACES.packageRelationships}"/>`;

/** A link from one part to another, its target resolved to a part's name where it is inside the package. */
export interface Relationship {
  readonly id: string;
  /** Last segment of the type, such as `worksheet`, the same for transitional and strict files. */
  readonly kind: string;
  readonly type: string;
  readonly target: string;
  readonly isExternal: boolean;
}

/** A part as it came, as it was inflated, or as it was written. */
type Part =
  | { readonly name: string; readonly entry: ZipEntry; content?: Uint8Array }
  | { readonly name: string; readonly entry?: undefined; readonly content: Uint8Array };

/** Content types by the lower-case names of parts and of extensions. */
interface ContentTypes {
  readonly byPart: ReadonlyMap<string, string>;
  readonly byExtension: ReadonlyMap<string, string>;
}

/** An Office Open XML package (ECMA-376 part 2). Parts stay compressed until read, and untouched parts are saved as they came. */
export class WorkbookPackage {
  private readonly parts: Map<string, Part>;
  private types: ContentTypes | undefined;

  private constructor(
    parts: Iterable<readonly [string, Part]>,
    private original: Uint8Array | undefined,
  ) {
    this.parts = new Map(parts);
  }

  /** Opens an .xlsx file. Throws WorkbookError for anything else, naming what it is where that can be told. */
  static open(bytes: Uint8Array, limits: PackageLimits = PACKAGE_LIMITS): WorkbookPackage {
    const stranger = nameStranger(bytes);
    if (stranger !== undefined) throw new WorkbookError(stranger);
    const parts = new Map<string, Part>();
    for (const entry of readZip(bytes, limits)) {
      const key = partKey(entry.name);
      if (parts.has(key))
        throw new WorkbookError(`the file is damaged: it holds the part ${entry.name} twice`);
      parts.set(key, { name: entry.name, entry });
    }
    const result = new WorkbookPackage(parts, bytes);
    const other = nameOtherPackage(result);
    if (other !== undefined) throw new WorkbookError(other);
    return result;
  }

  /** A package without parts, to be filled. */
  static empty(): WorkbookPackage {
    const result = new WorkbookPackage([], undefined);
    const types = `<Types xmlns="${NAMESPACES.contentTypes}"/>`;
    result.writeText(TYPES_PART, XML_DECLARATION + types);
    result.addExtension("rels", "application/vnd.openxmlformats-package.relationships+xml");
    result.addExtension("xml", "application/xml");
    return result;
  }

  /** A package that can be changed while this one stays as it is. */
  copy(): WorkbookPackage {
    return new WorkbookPackage(this.parts, this.original);
  }

  /** Names of all parts in the file's order. */
  get names(): readonly string[] {
    return [...this.parts.values()].map((part) => part.name);
  }

  has(name: string): boolean {
    return this.parts.has(name.toLowerCase());
  }

  /** Bytes of a part; 0 where it is missing. */
  sizeOf(name: string): number {
    const part = this.parts.get(name.toLowerCase());
    return part?.entry?.size ?? part?.content?.length ?? 0;
  }

  /** Whether both packages hold a part in the same bytes, as far as that can be told without inflating it. */
  hasSame(name: string, other: WorkbookPackage): boolean {
    const [one, two] = [this, other].map(({ parts }) => parts.get(name.toLowerCase())?.entry);
    if (one === undefined || two === undefined) return false;
    if (one.crc !== two.crc || one.size !== two.size || one.isDeflated !== two.isDeflated) return false;
    const { length } = one.compressed;
    if (length !== two.compressed.length) return false;
    for (let i = 0; i < length; i++) if (one.compressed[i] !== two.compressed[i]) return false;
    return true;
  }

  /** Content of a part. Throws WorkbookError where it is missing or damaged. */
  read(name: string): Uint8Array {
    const part = this.parts.get(name.toLowerCase());
    if (part === undefined) throw new WorkbookError(`the file is damaged: its part ${name} is missing`);
    if (part.entry === undefined) return part.content;
    return (part.content ??= inflateEntry(part.entry));
  }

  /** Text of an XML part; a byte order mark stays its first character. */
  readText(name: string): string {
    const content = this.read(name);
    try {
      return new TextDecoder(encodingOf(content), { fatal: true, ignoreBOM: true }).decode(content);
    } catch {
      throw new WorkbookError(`the part ${name} of the file is damaged: it is not text`);
    }
  }

  /** Sets a part's content; a new part goes to the end. */
  write(name: string, content: Uint8Array): void {
    const key = partKey(name);
    this.parts.set(key, { name: this.parts.get(key)?.name ?? name, content });
    this.original = undefined;
    if (name === TYPES_PART) this.types = undefined;
  }

  /** Sets a part's text, in the encoding that the part had. */
  writeText(name: string, text: string): void {
    const encoding = this.has(name) ? encodingOf(this.read(name)) : "utf-8";
    this.write(name, encoding === "utf-8" ? new TextEncoder().encode(text) : encodeUtf16(text, encoding));
  }

  /** Adds a part with its content type. */
  add(name: string, contentType: string, text: string): void {
    this.writeText(name, text);
    const types = this.readText(TYPES_PART);
    const root = readXml(types, TYPES_PART);
    const attributes = `PartName="/${escapeAttribute(name)}" ContentType="${escapeAttribute(contentType)}"`;
    this.writeText(TYPES_PART, applyEdits(types, [appendTo(root, root.wrap("Override", attributes, ""))]));
  }

  /** Removes a part with its own links, its content type and the link to it from `source`. */
  remove(name: string, source: string): void {
    this.parts.delete(name.toLowerCase());
    this.parts.delete(relationshipsPart(name).toLowerCase());
    this.original = undefined;
    this.dropElements(TYPES_PART, (element) => {
      return element.get("PartName")?.slice(1).toLowerCase() === name.toLowerCase();
    });
    this.dropElements(relationshipsPart(source), (element) => {
      return resolveTarget(source, element)?.toLowerCase() === name.toLowerCase();
    });
  }

  /** The content type of a part, by its own entry or by its extension. */
  contentType(name: string): string | undefined {
    this.types ??= readContentTypes(this.readText(TYPES_PART));
    const key = name.toLowerCase();
    return this.types.byPart.get(key) ?? this.types.byExtension.get(key.slice(key.lastIndexOf(".") + 1));
  }

  /** Sets the content type of all parts with an extension, where none is set. */
  addExtension(extension: string, contentType: string): void {
    const types = this.readText(TYPES_PART);
    const root = readXml(types, TYPES_PART);
    const isKnown = root.all("Default", NAMESPACES.contentTypes).some((element) => {
      return element.get("Extension")?.toLowerCase() === extension;
    });
    if (isKnown) return;
    const at = root.children[0]?.start;
    const markup = root.wrap("Default", `Extension="${extension}" ContentType="${contentType}"`, "");
    const edit = at === undefined ? appendTo(root, markup) : { start: at, end: at, text: markup };
    this.writeText(TYPES_PART, applyEdits(types, [edit]));
  }

  /** The links that a part has; none where it has no relationships part. */
  relationships(source: string): readonly Relationship[] {
    const part = relationshipsPart(source);
    if (!this.has(part)) return [];
    return readXml(this.readText(part), part)
      .all("Relationship", NAMESPACES.packageRelationships)
      .map((element) => {
        const type = element.get("Type") ?? "";
        const target = resolveTarget(source, element);
        return {
          id: element.get("Id") ?? "",
          kind: type.slice(type.lastIndexOf("/") + 1),
          type,
          target: target ?? element.get("Target") ?? "",
          isExternal: target === undefined,
        };
      });
  }

  /** The parts inside the package that a part links to in one way. */
  linked(source: string, kind: string): readonly string[] {
    const links = this.relationships(source).filter((link) => link.kind === kind && !link.isExternal);
    return [...new Set(links.map((link) => link.target))];
  }

  /** Links a part to another and gives the link's id. A bare kind such as `worksheet` takes the file's own type prefix. */
  link(source: string, kind: string, target: string): string {
    const part = relationshipsPart(source);
    const text = this.has(part) ? this.readText(part) : EMPTY_RELATIONSHIPS;
    const root = readXml(text, part);
    const links = root.all("Relationship", NAMESPACES.packageRelationships);
    const used = new Set(links.map((element) => element.get("Id")));
    let number = links.length + 1;
    while (used.has(`rId${String(number)}`)) number++;
    const id = `rId${String(number)}`;
    const prefix = this.isStrict ? STRICT_RELATIONSHIPS : NAMESPACES.relationships;
    const type = kind.includes("/") ? kind : `${prefix}/${kind}`;
    const attributes = `Id="${id}" Type="${escapeAttribute(type)}" Target="/${escapeAttribute(target)}"`;
    const markup = root.wrap("Relationship", attributes, "");
    this.writeText(part, applyEdits(text, [appendTo(root, markup)]));
    return id;
  }

  /** Whether the file follows the strict form of the standard (ISO/IEC 29500 part 1). */
  get isStrict(): boolean {
    return this.relationships(PACKAGE_ROOT).some((link) => link.type.startsWith(STRICT_RELATIONSHIPS));
  }

  /** The namespace of worksheets as this file writes it. */
  get mainNamespace(): string {
    return this.isStrict ? STRICT_MAIN : NAMESPACES.main;
  }

  /** A name that no part has: `xl/worksheets/sheet` and `.xml` give `xl/worksheets/sheet4.xml` beside three sheets. */
  freeName(stem: string, ending: string): string {
    let number = 1;
    while (this.has(`${stem}${String(number)}${ending}`)) number++;
    return `${stem}${String(number)}${ending}`;
  }

  /** The file. Unchanged, it is a copy of the bytes that were opened. */
  toBytes(): Uint8Array {
    if (this.original !== undefined) return this.original.slice();
    const parts = [...this.parts.values()];
    return writeZip(parts.map((part) => part.entry ?? deflateEntry(part.name, part.content)));
  }

  private dropElements(part: string, isDropped: (element: XmlElement) => boolean): void {
    if (!this.has(part)) return;
    const text = this.readText(part);
    const dropped = readXml(text, part).children.filter(isDropped);
    if (dropped.length === 0) return;
    this.writeText(
      part,
      applyEdits(
        text,
        dropped.map(({ start, end }) => ({ start, end, text: "" })),
      ),
    );
  }
}

function readContentTypes(text: string): ContentTypes {
  const root = readXml(text, TYPES_PART);
  const collect = (local: string, key: string): ReadonlyMap<string, string> => {
    const elements = root.all(local, NAMESPACES.contentTypes);
    return new Map(elements.map((e) => [(e.get(key) ?? "").toLowerCase(), e.get("ContentType") ?? ""]));
  };
  const overrides = [...collect("Override", "PartName")].map(
    ([name, type]) => [name.slice(1), type] as const,
  );
  return { byPart: new Map(overrides), byExtension: collect("Default", "Extension") };
}

function encodingOf(content: Uint8Array): "utf-8" | "utf-16le" | "utf-16be" {
  if (content[0] === 0xff && content[1] === 0xfe) return "utf-16le";
  return content[0] === 0xfe && content[1] === 0xff ? "utf-16be" : "utf-8";
}

function encodeUtf16(text: string, encoding: "utf-16le" | "utf-16be"): Uint8Array {
  const content = new Uint8Array(text.length * 2);
  const view = new DataView(content.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(i * 2, text.charCodeAt(i), encoding === "utf-16le");
  return content;
}
