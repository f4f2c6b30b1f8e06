import { SaxesParser } from "saxes";

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly path: string;
}

const MOST_RESID_CHARACTERS = 32;
/** Where the shared runtime's page must be one and the same. */
const RUNTIME_PLACES = [
  /Runtimes\/Runtime$/,
  /Page\/SourceLocation$/,
  /\/FunctionFile$/,
  /Action\/SourceLocation$/,
];

function elementsOf(xml: string): readonly Element[] {
  const elements: Element[] = [];
  const path: string[] = [];
  const parser = new SaxesParser();
  parser.on("opentag", (tag) => {
    path.push(tag.name.replace(/^\w+:/, ""));
    elements.push({
      name: path.at(-1) ?? "",
      attributes: tag.attributes as Record<string, string>,
      path: path.join("/"),
    });
  });
  parser.on("closetag", () => path.pop());
  parser.on("error", (error) => {
    throw error;
  });
  parser.write(xml).close();
  return elements;
}

/** Faults of a manifest that its schema does not see; `sizeOf` gives the pixel size of an icon file. */
export function manifestFaults(xml: string, sizeOf: (file: string) => number | undefined): readonly string[] {
  const elements = elementsOf(xml);
  const faults: string[] = [];
  const resources = new Map(
    elements
      .filter((element) => element.path.includes("Resources/"))
      .map((element) => [element.attributes["id"] ?? "", element]),
  );
  for (const { attributes, path } of elements) {
    const { resid, DefaultValue: value } = attributes;
    if (resid !== undefined && !resources.has(resid)) faults.push(`${path}: resid ${resid} is not defined`);
    if (resid !== undefined && resid.length > MOST_RESID_CHARACTERS)
      faults.push(`${path}: resid ${resid} is too long`);
    if (value !== undefined && /^[a-z]+:\/\//i.test(value) && !value.startsWith("https://"))
      faults.push(`${path}: ${value} is not https`);
  }
  for (const { attributes, path } of elements.filter(
    (element) => element.name === "Image" && element.attributes["size"],
  )) {
    const url = resources.get(attributes["resid"] ?? "")?.attributes["DefaultValue"] ?? "";
    const actual = sizeOf(url.split("/").at(-1) ?? "");
    if (actual !== Number(attributes["size"]))
      faults.push(`${path}: ${url} is ${actual} pixels, not ${attributes["size"]}`);
  }
  const pages = RUNTIME_PLACES.map(
    (place) => elements.find((element) => place.test(element.path))?.attributes["resid"],
  );
  if (new Set(pages).size !== 1 || pages[0] === undefined)
    faults.push(`the shared runtime has pages ${pages.join(", ")}`);
  if (!elements.some((element) => element.name === "Namespace")) faults.push("there is no Namespace");
  return faults;
}
