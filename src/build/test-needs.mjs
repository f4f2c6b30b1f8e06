// Which built parts the test files need that a person asked for, so that they never run against yesterday's bundle.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";

function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(path) : [path];
  });
}

/** Files of tests that a file imports, itself among them. */
function withImports(file, found) {
  if (found.has(file) || !existsSync(file)) return found;
  found.add(file);
  for (const [, specifier] of readFileSync(file, "utf8").matchAll(/from "(\.[^"]+)"/g)) {
    if (!specifier.includes("/src/")) withImports(`${resolve(dirname(file), specifier)}.ts`, found);
  }
  return found;
}

/**
 * The parts of `all` that the chosen tests name as `dist/PART`, by themselves or in files that they import; all of them where
 * no path chooses tests or a test makes the part's name up.
 */
export function partsNeeded(root, args, all) {
  const paths = args
    .filter((argument) => !argument.startsWith("-"))
    .map((path) => relative(root, resolve(root, path)));
  if (paths.length === 0) return all;
  const tests = filesBelow(join(root, "tests")).filter(
    (file) => file.endsWith(".test.ts") && paths.some((path) => relative(root, file).includes(path)),
  );
  const needed = new Set();
  const files = tests.reduce((found, test) => withImports(test, found), new Set());
  for (const file of files) {
    for (const [, part] of readFileSync(file, "utf8").matchAll(/\bdist\/([\w-]*)/g)) {
      for (const name of part === "" ? all : [part]) needed.add(name);
    }
  }
  return all.filter((part) => needed.has(part));
}
