import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { runInNewContext } from "node:vm";
import { transform } from "esbuild";
import webpack from "webpack";
import { icon } from "./icon.mjs";

const { Compilation, sources } = webpack;
const DEVELOPMENT_ORIGIN = "https://localhost:3000";

/** Emits files computed while webpack has the assets in hand; `make(assets)` gives `{ name: content }`. */
class EmitFiles {
  constructor(make, after = []) {
    this.make = make;
    this.after = after;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap("EmitFiles", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: "EmitFiles", stage }, (assets) => {
        for (const [name, content] of Object.entries(this.make(assets))) {
          compilation.emitAsset(name, new sources.RawSource(content));
        }
        for (const name of this.after) if (compilation.getAsset(name)) compilation.deleteAsset(name);
      });
    });
  }
}

/**
 * Minifies scripts by esbuild, for the page whose grid library is so large that webpack's own minifier takes a minute and
 * gigabytes.
 */
export class QuickMinifier {
  constructor(target) {
    this.target = target;
  }

  apply(compiler) {
    compiler.hooks.compilation.tap("QuickMinifier", (compilation) => {
      const stage = Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_SIZE;
      compilation.hooks.processAssets.tapPromise({ name: "QuickMinifier", stage }, async (assets) => {
        for (const name of Object.keys(assets).filter((file) => file.endsWith(".js"))) {
          const { code } = await transform(assets[name].source().toString(), {
            minify: true,
            target: this.target,
            legalComments: "eof",
          });
          compilation.updateAsset(name, new sources.RawSource(code), { minimized: true });
        }
      });
    });
  }
}

/** What a bundle built as a CommonJS library exports. */
function exportsOf(assets, bundle) {
  const module = { exports: {} };
  runInNewContext(assets[bundle].source().toString(), { module, exports: module.exports });
  return module.exports;
}

/** The text with its addresses moved from the development origin to `origin`. */
function movedTo(origin, text) {
  const clean = origin.replace(/\/+$/, "");
  if (!/^https:\/\/[^\s"'<>&]+$/.test(clean))
    throw new Error(`origin must be an https address, found "${origin}"`);
  return text.replaceAll(DEVELOPMENT_ORIGIN, clean);
}

/** functions.json from the built catalogue bundle `metadata.js`, which itself is not shipped. */
export function functionsJson(origin = DEVELOPMENT_ORIGIN) {
  return new EmitFiles(
    (assets) => ({
      "functions.json": `${movedTo(origin, JSON.stringify(exportsOf(assets, "metadata.js").metadata, null, 2))}\n`,
    }),
    ["metadata.js"],
  );
}

/** Pages that a built bundle makes: each name with what makes it of the bundle's exports. The bundle is not shipped. */
export function madePages(source, pages) {
  return new EmitFiles(
    (assets) => {
      const made = exportsOf(assets, source);
      return Object.fromEntries(Object.entries(pages).map(([name, make]) => [name, made[make]()]));
    },
    [source],
  );
}

/** The script of Google Sheets from the built bundles, which themselves are not shipped. */
export function appsScript() {
  const text = (assets, name) => assets[name].source().toString();
  return new EmitFiles(
    (assets) => {
      const { codeText, sidebarPage, appsScriptManifest } = exportsOf(assets, "code.js");
      return {
        "Code.gs": codeText(text(assets, "bundle.js")),
        "Sidebar.html": sidebarPage(text(assets, "sidebar.js"), text(assets, "sidebar.css")),
        "appsscript.json": `${JSON.stringify(appsScriptManifest, null, 2)}\n`,
      };
    },
    ["bundle.js", "code.js", "sidebar.js", "sidebar.css"],
  );
}

/** The icons of the manifest, drawn at each size. */
export function icons(sizes) {
  return new EmitFiles(() => Object.fromEntries(sizes.map((size) => [`icon-${size}.png`, icon(size)])));
}

/** The manifest with its addresses moved from the development origin to `origin`. */
export function manifest(path, origin = DEVELOPMENT_ORIGIN) {
  return new EmitFiles(() => ({ "manifest.xml": movedTo(origin, readFileSync(path, "utf8")) }));
}

/** Files taken as they are, by their name in the output. */
export function copies(files) {
  return new EmitFiles(() =>
    Object.fromEntries(Object.entries(files).map(([name, path]) => [name, readFileSync(path)])),
  );
}

/** Those of `names` that are in `folder`, as `copies` takes them. */
export function existingFiles(folder, names) {
  return Object.fromEntries(
    names.map((name) => [name, join(folder, name)]).filter(([, path]) => existsSync(path)),
  );
}

/** The service worker `name` from the bundle `source`, which itself is not shipped, with the list of files to keep. */
export function precache(source, name) {
  return new EmitFiles(
    (assets) => {
      const files = Object.keys(assets).filter((file) => file !== source && !file.endsWith(".txt"));
      const hash = createHash("sha256");
      for (const file of files.sort()) hash.update(file).update(assets[file].buffer());
      const list = { version: hash.digest("hex").slice(0, 16), mark: "version.txt", files: ["./", ...files] };
      return {
        [name]: `const PRECACHE = ${JSON.stringify(list)};\n${assets[source].source()}`,
        [list.mark]: list.version,
      };
    },
    [source],
  );
}
