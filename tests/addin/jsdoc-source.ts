import type { CatalogueFunction } from "../../src/functions/definition";
import { isOptional, type Param } from "../../src/functions/param";
import { parameterText } from "../../src/functions/parameter-help";

function enumSource(id: string, options: readonly string[]): string {
  const members = options.map((option) => `  ${JSON.stringify(option)} = ${JSON.stringify(option)},`);
  return ["/**", " * @customenum {string}", " */", `enum ${id} {`, ...members, "}"].join("\n");
}

/**
 * The catalogue as JSDoc-annotated TypeScript, so that the official generator can judge our own metadata.
 *
 * @param page address of the reference page
 */
export function jsdocSource(
  catalogue: readonly CatalogueFunction[],
  describe: (fn: CatalogueFunction) => string,
  page: string,
): string {
  const enums = new Map<string, string>();
  const enumOf = (fn: CatalogueFunction, param: Param): string | undefined => {
    if (param.kind !== "choice") return undefined;
    const key = JSON.stringify(param.options);
    const id = enums.get(key) ?? `${fn.name}_${param.name.toUpperCase()}`;
    enums.set(key, id);
    return id;
  };
  const blocks = catalogue.map((fn, index) => {
    const params = fn.params.map((param) => {
      const slot = isOptional(param) ? `[${param.name}]` : param.name;
      return ` * @param ${slot} ${parameterText(param)}`;
    });
    const typed = fn.params.map((param) => {
      const mark = isOptional(param) ? "?" : "";
      return `${param.name}${mark}: ${param.kind === "list" || param.kind === "table" ? "any[][]" : (enumOf(fn, param) ?? "any")}`;
    });
    const result = fn.result.kind === "value" ? "any" : "any[][]";
    return [
      "/**",
      ` * ${describe(fn)}`,
      ` * @customfunction ${fn.name} ${fn.name}`,
      ` * @helpurl ${page}#${fn.name}`,
      ...(fn.replacedBy === undefined ? [] : [" * @excludeFromAutoComplete"]),
      ...params,
      ` * @returns {${result}} ${fn.result.text}`,
      " */",
      `function f${index}(${typed.join(", ")}): ${result} { return 0 as any; }`,
    ].join("\n");
  });
  const lists = [...enums].map(([key, id]) => enumSource(id, JSON.parse(key) as readonly string[]));
  return `${[...lists, ...blocks].join("\n")}\n`;
}
