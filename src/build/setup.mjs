// Runs before anything is installed: Node's own modules only.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

const OLDEST_NODE = 20;

/** Says something to the person without disturbing what a program reads from standard output. */
export function say(text) {
  process.stderr.write(`${text}\n`);
}

/** Runs a command in the project folder; gives its exit code. */
export function exitCodeOf(command, args, options = {}) {
  const isScript = process.platform === "win32" && command === "npm";
  const result = spawnSync(isScript ? "npm.cmd" : command, args, {
    cwd: root,
    stdio: "inherit",
    shell: isScript,
    ...options,
  });
  if (result.error) {
    say(`${command} could not be started: ${result.error.message}`);
    process.exit(2);
  }
  return result.status ?? 2;
}

/** Runs a command in the project folder; ends this process with its exit code where it fails. */
export function run(command, args, options = {}) {
  const code = exitCodeOf(command, args, options);
  if (code !== 0) process.exit(code);
}

/** Path of a command that an installed package brings. */
export function tool(path) {
  return join(root, "node_modules", ...path.split("/"));
}

function readStamp(file) {
  return existsSync(file) ? readFileSync(file, "utf8") : "";
}

/** What is installed for a command: all that the lock file names, or what building and running needs of it. */
const INSTALLATIONS = {
  all: { options: ["--include=dev"], length: "a minute or two" },
  running: { options: ["--omit=dev"], length: "half a minute" },
};

/** Whether what a stamp says was installed serves a command that needs `needed`, `all` or `running`, of a lock file. */
export function isInstalled(stamp, lock, needed) {
  const [installed, what] = stamp.split(" ");
  return installed === lock && (what === "all" || what === needed);
}

/** What to install where `needed` is not there: never less than a person put there without us. */
export function installation(needed, hasTestTools) {
  return hasTestTools ? "all" : needed;
}

/** Installs `all` packages that package-lock.json names or those for `running`, unless they are there already. */
export function ensureInstalled(needed) {
  const major = Number(process.versions.node.split(".")[0]);
  if (major < OLDEST_NODE) {
    say(`Node ${OLDEST_NODE} or newer is needed, this is ${process.versions.node}`);
    process.exit(2);
  }
  const wanted = createHash("sha256")
    .update(readFileSync(join(root, "package-lock.json")))
    .digest("hex");
  const stamp = join(root, "node_modules", ".installed-from");
  if (isInstalled(readStamp(stamp), wanted, needed)) return;
  const what = installation(needed, existsSync(tool("vitest")));
  const { options, length } = INSTALLATIONS[what];
  say(`Installing packages (once, ${length}) ...`);
  // Standard output belongs to the command that was asked for.
  run("npm", ["ci", ...options, "--no-audit", "--no-fund", "--loglevel=error"], { stdio: ["ignore", 2, 2] });
  writeFileSync(stamp, `${wanted} ${what}`);
}

function hashTree(hash, path) {
  for (const entry of readdirSync(path, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const child = join(path, entry.name);
    if (entry.isDirectory()) hashTree(hash, child);
    else hash.update(child.slice(root.length)).update(readFileSync(child));
  }
}

function sourceStamp(extra) {
  const hash = createHash("sha256").update(extra);
  for (const file of [
    "package-lock.json",
    "package.json",
    "tsconfig.json",
    "webpack.config.mjs",
    "manifest.xml",
  ]) {
    hash.update(readFileSync(join(root, file)));
  }
  hashTree(hash, join(root, "src"));
  if (existsSync(join(root, "sample-workbooks"))) hashTree(hash, join(root, "sample-workbooks"));
  return hash.digest("hex");
}

/** Builds the named parts (`node`, `addin`, `desk`) where their sources changed since the last build. */
export function ensureBuilt(parts, environment = {}) {
  const settings = Object.entries(environment).map(([name, value]) => `${name}=${value}`);
  const stamps = join(root, "dist", ".built-from");
  mkdirSync(stamps, { recursive: true });
  // Taken before the build, so that what is edited while it runs is built the next time.
  const wanted = parts.map((part) => [part, sourceStamp(`${part} ${settings.join(" ")}`)]);
  const made = wanted.filter(([part, stamp]) => readStamp(join(stamps, part)) !== stamp);
  const stale = made.map(([part]) => part);
  if (stale.length === 0) return;
  say(`Building ${stale.join(", ")} ...`);
  const names = stale.flatMap((part) => ["--config-name", part]);
  const env = settings.flatMap((setting) => ["--env", setting]);
  run(process.execPath, [tool("webpack-cli/bin/cli.js"), ...names, ...env], { stdio: ["ignore", 2, 2] });
  for (const [part, stamp] of made) writeFileSync(join(stamps, part), stamp);
}
