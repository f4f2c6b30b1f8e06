import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { NAMESPACE } from "../functions/formula-style";
import { functionText } from "../functions/metadata";
import { isOptional, type Param } from "../functions/param";
import { parameterText } from "../functions/parameter-help";
import { MENU_ITEMS } from "./menu";
import { STAND_INS } from "./stand-ins";

/** The variable that holds everything but the declarations; its closing underscore keeps it out of lists. */
export const BUNDLE_VARIABLE = "bln_";

// One block of plain text: the host drops line breaks and markup, and an early end of the comment would end the script.
function commentText(text: string): string {
  return text.replaceAll("*/", "* /").replace(/\s+/g, " ").trim();
}

function identifier({ name }: Param): string {
  return name.replace(/\W/g, "_");
}

function parameterLine(param: Param): string {
  const text = isOptional(param) ? `optional: ${parameterText(param)}` : parameterText(param);
  return ` * @param ${identifier(param)} ${commentText(text)}`;
}

/** The declaration of one function with the comment that the host reads. */
export function declaration(fn: CatalogueFunction): string {
  return [
    "/**",
    ` * ${commentText(functionText(fn))}`,
    " *",
    ...fn.params.map(parameterLine),
    ` * @return ${commentText(fn.result.text)}`,
    // Without the tag the host lists a function nowhere, but computes it.
    ...(fn.replacedBy === undefined ? [" * @customfunction"] : []),
    " */",
    `function ${NAMESPACE}_${fn.name}(${fn.params.map(identifier).join(", ")}) {`,
    `  return ${BUNDLE_VARIABLE}.call("${fn.name}", arguments);`,
    "}",
  ].join("\n");
}

function handOn(name: string, params: readonly string[] = []): string {
  const list = params.join(", ");
  return `function ${name}(${list}) {\n  return ${BUNDLE_VARIABLE}.${name}(${list});\n}`;
}

/**
 * The whole script: the bundle in one variable, then plain declarations, since the host lists nothing else.
 *
 * @param bundle code that sets `module.exports`
 */
export function codeText(bundle: string): string {
  const parts = [
    "/** @OnlyCurrentDoc */",
    STAND_INS,
    `var ${BUNDLE_VARIABLE} = (function () {\n  var module = { exports: {} };\n${bundle.trimEnd()}\n  return module.exports;\n})();`,
    `function onOpen() {\n  ${BUNDLE_VARIABLE}.addMenu();\n}`,
    "function onInstall() {\n  onOpen();\n}",
    ...Object.keys(MENU_ITEMS).map((name) => handOn(name)),
    handOn("blnFile"),
    handOn("blnSelection"),
    handOn("blnValues", ["reference"]),
    handOn("blnInsert", ["formula", "isSure"]),
    ...catalogue.map(declaration),
  ];
  return `${parts.join("\n\n")}\n`;
}

/** The script's manifest. */
export const appsScriptManifest = {
  timeZone: "Etc/UTC",
  dependencies: {},
  exceptionLogging: "STACKDRIVER",
  runtimeVersion: "V8",
} as const;

/** The sidebar's page: everything inline, since the host serves a single file. */
export function sidebarPage(script: string, styles: string): string {
  const inline = script.replaceAll("</script", "<\\/script");
  return [
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><base target="_top"><title>Balloon functions</title>',
    `<style>body { margin: 0; background: var(--bln-paper); color: var(--bln-ink); }\n${styles}</style></head>`,
    `<body><main id="place"></main><script>${inline}</script></body></html>\n`,
  ].join("\n");
}
