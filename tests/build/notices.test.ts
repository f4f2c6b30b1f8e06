import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import webpack, { type WebpackPluginInstance } from "webpack";

interface NoticesModule {
  readonly Notices: new (root: string, name?: string) => WebpackPluginInstance;
  readonly isAllowed: (licence?: string) => boolean;
}
const { Notices, isAllowed } = (await import(resolve("src/build/notices.mjs"))) as NoticesModule;

let folder: string;
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "notices-")));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

interface Package {
  readonly license?: string;
  readonly author?: string;
  readonly files?: Readonly<Record<string, string>>;
}

/** Bundles a script that imports these packages; gives the faults of the build and the notices. */
async function bundle(
  packages: Readonly<Record<string, Package>>,
): Promise<{ readonly faults: readonly string[]; readonly notices: string }> {
  for (const [name, { files = {}, ...rest }] of Object.entries(packages)) {
    const place = join(folder, "node_modules", name);
    mkdirSync(place, { recursive: true });
    writeFileSync(
      join(place, "package.json"),
      JSON.stringify({ name, version: "1.2.3", main: "main.js", ...rest }),
    );
    writeFileSync(join(place, "main.js"), `export const it = "${name}";`);
    for (const [file, text] of Object.entries(files)) writeFileSync(join(place, file), text);
  }
  const imports = Object.keys(packages).map(
    (name) => `export * as ${name.replace(/\W/g, "_")} from "${name}";`,
  );
  writeFileSync(join(folder, "entry.js"), imports.join("\n"));
  const compiler = webpack({
    mode: "production",
    context: folder,
    entry: join(folder, "entry.js"),
    output: { path: join(folder, "out"), library: { type: "commonjs2" } },
    plugins: [new Notices(resolve("."), "notices.txt")],
  });
  const stats = await new Promise<webpack.Stats | undefined>((done, fail) => {
    compiler.run((error, result) => {
      if (error) fail(error);
      else done(result);
    });
  });
  const faults = (stats?.compilation.errors ?? []).map(({ message }) => message);
  return {
    faults,
    notices: faults.length > 0 ? "" : readFileSync(join(folder, "out", "notices.txt"), "utf8"),
  };
}

describe("the notices of a build", () => {
  it("are those of every bundled package, in their own words", async () => {
    const { faults, notices } = await bundle({
      "a-package": { license: "MIT", files: { "LICENSE.md": "Terms of a." } },
      "@scope/b": {
        license: "(MIT OR GPL-3.0-only)",
        files: { licence: "Terms of b.", NOTICE: "Notice of b." },
      },
      "no-text": { license: "ISC", author: "A. Writer" },
    });
    expect(faults).toEqual([]);
    expect(notices).toMatch(/^These 3 packages/);
    expect(notices).toContain("a-package 1.2.3 (MIT)\n\nTerms of a.");
    expect(notices).toMatch(/@scope\/b 1\.2\.3 [^]*Notice of b\.[^]*Terms of b\./);
    // The words of the ISC licence (opensource.org/license/isc-license-txt).
    expect(notices).toMatch(
      /no-text 1\.2\.3 \(ISC\)\n\nCopyright \(c\) A\. Writer\n\nPermission to use, copy, modify, and\/or distribute/,
    );
    expect(notices.match(/Copyright/g)).toHaveLength(1);
  });

  it("read the licence from its text where a package names none", async () => {
    const text = readFileSync("LICENSE", "utf8");
    const { faults, notices } = await bundle({ unnamed: { files: { LICENSE: text } } });
    expect(faults).toEqual([]);
    expect(notices).toContain("unnamed 1.2.3 (MIT)");
  });

  it.each<[string, Package, RegExp]>([
    ["names none", {}, /cannot be shipped: its licence is not named/],
    [
      "names another",
      { license: "GPL-3.0-only", files: { LICENSE: "text" } },
      /its licence is GPL-3\.0-only/,
    ],
    ["asks for two", { license: "MIT AND LGPL-2.1-only" }, /its licence is MIT AND LGPL-2\.1-only/],
    [
      "has no text that is known",
      { license: "BSD-3-Clause" },
      /text of its licence, BSD-3-Clause, is not there/,
    ],
  ])("fail the build where a package %s", async (_what, found, sentence) => {
    const { faults } = await bundle({ faulty: found });
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(/^the package faulty 1\.2\.3/);
    expect(faults[0]).toMatch(sentence);
  });
});

it.each([
  ["MIT", true],
  ["(MIT OR Apache-2.0)", true],
  ["GPL-2.0-only OR ISC", true],
  ["MIT AND CC-BY-3.0", false],
  ["UNLICENSED", false],
  ["", false],
])("tells whether %j may be shipped: %s", (licence, expected) => {
  expect(isAllowed(licence)).toBe(expected);
});

describe.each([
  ["addin", ["saxes", "xmlchars"]],
  [
    "desk",
    ["fflate", "saxes", "numfmt", "react", "@univerjs/core", "@univerjs/sheets-ui", "@univerjs/telemetry"],
  ],
])("dist/%s", (part, names) => {
  it.each(names)("carries the notice of %s", (name) => {
    const notices = readFileSync(join("dist", part, "third-party-notices.txt"), "utf8");
    const { version } = JSON.parse(readFileSync(join("node_modules", name, "package.json"), "utf8")) as {
      readonly version: string;
    };
    expect(notices).toContain(`\n${name} ${version} (`);
  });

  it("names no package that only builds it", () => {
    expect(readFileSync(join("dist", part, "third-party-notices.txt"), "utf8")).not.toMatch(
      /^[\w-]+-loader /m,
    );
  });
});
