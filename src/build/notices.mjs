import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import webpack from "webpack";

const { Compilation, sources, WebpackError } = webpack;

/** Licences under which what a bundle holds may be handed on, as SPDX names them. */
const ALLOWED = new Set(["0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT"]);

/** Licences by words of their texts, for a package that names none. */
const KNOWN_TEXTS = [
  ["Apache-2.0", /Apache License\s+Version 2\.0/],
  ["MIT", /Permission is hereby granted, free of charge, to any person obtaining a copy/],
  [
    "ISC",
    /Permission to use, copy, modify, and\/or distribute this software for any purpose with or without fee/,
  ],
];

/** Packages of this project whose file has the terms, for a package that names a licence and brings no text of it. */
const TERMS_FROM = { "Apache-2.0": "@univerjs/core", ISC: "kdbush", MIT: "fflate" };

const NOTICE_FILE = /^(?:licen[cs]e|copying|copyrightnotice|notice|third-?party-?notice)/i;

function readPackage(folder) {
  const { name, version, license, licenses, author } = JSON.parse(
    readFileSync(join(folder, "package.json"), "utf8"),
  );
  const text = readdirSync(folder)
    .filter((file) => NOTICE_FILE.test(file))
    .sort()
    .map((file) => readFileSync(join(folder, file), "utf8").trim())
    .join("\n\n");
  const named = license ?? licenses?.map((one) => one.type).join(" OR ");
  return {
    name,
    version,
    licence:
      (typeof named === "object" ? named?.type : named) ??
      KNOWN_TEXTS.find(([, words]) => words.test(text))?.[0],
    author: typeof author === "object" ? author.name : author,
    text,
  };
}

/** The folder of the package that a file belongs to; undefined for a file of the project itself. */
function packageFolder(file) {
  if (!/[\\/]node_modules[\\/]/.test(file)) return undefined;
  for (let folder = dirname(file); folder !== dirname(folder); folder = dirname(folder)) {
    const path = join(folder, "package.json");
    if (existsSync(path) && JSON.parse(readFileSync(path, "utf8")).name !== undefined) return folder;
  }
  return undefined;
}

/** Whether an SPDX expression leaves a way to hand the package on. */
export function isAllowed(licence = "") {
  return licence
    .replaceAll(/[()]/g, "")
    .split(/\s+OR\s+/)
    .some((way) => way.split(/\s+AND\s+/).every((name) => ALLOWED.has(name.trim())));
}

function termsOf(licence, root) {
  const source = TERMS_FROM[licence];
  const folder = source === undefined ? undefined : join(root, "node_modules", source);
  if (folder === undefined || !existsSync(folder)) return undefined;
  const lines = readPackage(folder).text.split("\n");
  return lines
    .filter((line) => !/^\s*(?:copyright\b|.{0,20}\blicen[cs]e\s*$)/i.test(line))
    .join("\n")
    .trim();
}

function notice(found, root) {
  const heading = `${found.name} ${found.version} (${found.licence})`;
  if (found.text !== "") return `${heading}\n\n${found.text}`;
  const terms = termsOf(found.licence, root);
  return terms === undefined
    ? undefined
    : `${heading}\n\n${found.author === undefined ? "" : `Copyright (c) ${found.author}\n\n`}${terms}`;
}

/** Files that modules come from, those inside others too; loaders are not among them. */
function* filesOf(modules) {
  for (const module of modules) {
    if (module.modules !== undefined) yield* filesOf(module.modules);
    const request = module.resource ?? module.identifier().split("!").at(-1);
    yield request.split(/[?|]/)[0];
  }
}

/** Puts the notices of all bundled packages beside them; a package without an allowed licence fails the build. */
export class Notices {
  constructor(root, name = "third-party-notices.txt") {
    this.root = root;
    this.name = name;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap("Notices", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tap({ name: "Notices", stage }, () => {
        compilation.emitAsset(this.name, new sources.RawSource(this.collect(compilation)));
      });
    });
  }

  collect(compilation) {
    const refuse = (found, why) => {
      compilation.errors.push(
        new WebpackError(`the package ${found.name} ${found.version} cannot be shipped: ${why}`),
      );
    };
    // Loaders run parts of themselves in the same compilation, which no file holds afterwards.
    const modules = [...compilation.modules].filter(
      (module) => compilation.chunkGraph.getNumberOfModuleChunks(module) > 0,
    );
    const folders = new Set([...filesOf(modules)].map(packageFolder).filter(Boolean));
    const packages = [...folders].map(readPackage).sort((a, b) => (a.name < b.name ? -1 : 1));
    const texts = packages.flatMap((found) => {
      const text = notice(found, this.root);
      if (!isAllowed(found.licence)) refuse(found, `its licence is ${found.licence ?? "not named"}`);
      else if (text === undefined) refuse(found, `the text of its licence, ${found.licence}, is not there`);
      return text ?? [];
    });
    const head = `These ${packages.length} packages are part of the files beside this one, each under its own licence.`;
    return `${[head, ...texts].join(`\n\n${"-".repeat(80)}\n\n`)}\n`;
  }
}
