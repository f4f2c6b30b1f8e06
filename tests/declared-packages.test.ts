import { readdirSync, readFileSync, statSync } from "node:fs";
import { builtinModules } from "node:module";
import { join } from "node:path";
import { expect, it } from "vitest";

interface Declared {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}
const { dependencies, devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as Declared;
const declared = { ...dependencies, ...devDependencies };

function scriptsBelow(folder: string): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return scriptsBelow(path);
    return /\.(?:ts|mts|mjs|js|css)$/.test(name) ? [path] : [];
  });
}

/** Names of packages that a file imports, by any way of importing. */
function packagesOf(path: string): readonly string[] {
  const text = readFileSync(path, "utf8");
  const specifiers = text.matchAll(
    /^(?:import|export|\}) ?[^"'\n]*from "([^"]+)"|^import "([^"]+)"|\bimport\(\s*"([^"]+)"|\brequire\("([^"]+)"|\.resolve\("([^"./][^"]*\/[^"]*)"|@import "([^"]+)"/gm,
  );
  return [...specifiers].flatMap((match) => {
    const specifier = match.slice(1).find((group) => group !== undefined) ?? "";
    if (/^(?:[./]|node:)/.test(specifier) || builtinModules.includes(specifier)) return [];
    const parts = specifier.split("/");
    return [parts.slice(0, specifier.startsWith("@") ? 2 : 1).join("/")];
  });
}

const files = [
  ...scriptsBelow("src"),
  ...scriptsBelow("tests").filter((path) => !/declared-packages|notices\.test/.test(path)),
  ...readdirSync(".").filter((name) => /\.m?[jt]s$/.test(name)),
];

it("finds the packages that files import", () => {
  const used = new Set(files.flatMap(packagesOf));
  for (const name of ["fflate", "@univerjs/core", "vitest", "webpack", "typescript-eslint", "fast-check"]) {
    expect(used).toContain(name);
  }
});

it("declares every package that a file imports, none found by the way npm happens to install", () => {
  const faults = files.flatMap((path) =>
    packagesOf(path)
      .filter((name) => !Object.hasOwn(declared, name))
      .map((name) => `${path} imports ${name}`),
  );
  expect(faults).toEqual([]);
});

it("names exact versions, those that are installed", () => {
  const lock = JSON.parse(readFileSync("package-lock.json", "utf8")) as {
    readonly packages: Readonly<Record<string, { readonly version?: string }>>;
  };
  for (const [name, version] of Object.entries(declared)) {
    expect(version).toMatch(/^\d+\.\d+\.\d+(?:-[\w.]+)?$/);
    expect([name, lock.packages[`node_modules/${name}`]?.version]).toEqual([name, version]);
  }
});

it("names in the README every library that what people use is made with", () => {
  const [, licence = ""] = readFileSync("README.md", "utf8").split("## Licence");
  const libraries = scriptsBelow("src")
    .filter((path) => path.endsWith(".ts"))
    .flatMap(packagesOf)
    .map((name) => (name.startsWith("@univerjs/") ? "Univer" : name));
  expect([...new Set(libraries)].filter((name) => !licence.includes(name))).toEqual([]);
});
