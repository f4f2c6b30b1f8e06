// Tries the corrections of src/sheet on versions of Univer other than the one that package.json pins.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { root, say, tool } from "./setup.mjs";

/** Versions that are tried where none is asked for. */
const VERSIONS = ["0.24.0", "0.25.0", "0.25.1"];
const TESTS = ["corrections", "univer-corrections", "documented-values", "reference-operators"].map(
  (name) => `tests/sheet/${name}.test.ts`,
);
const NPM = ["install", "--no-audit", "--no-fund", "--loglevel=error"];
/** Characters of a message. */
const MOST_SHOWN = 160;

/** Installs one version into a folder that holds nothing else; false where npm could not. */
function install(version, folder) {
  const { dependencies } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const own = Object.entries(dependencies).filter(([name]) => !name.startsWith("@univerjs/"));
  const univer = ["core", "engine-formula"].map((name) => [`@univerjs/${name}`, version]);
  const manifest = { private: true, dependencies: Object.fromEntries([...own, ...univer]) };
  writeFileSync(join(folder, "package.json"), JSON.stringify(manifest));
  const { status } = spawnSync(process.platform === "win32" ? "npm.cmd" : "npm", NPM, {
    cwd: folder,
    shell: process.platform === "win32",
    stdio: ["ignore", 2, 2],
  });
  return status === 0;
}

/** Outcomes of the tests against the packages of a folder. */
function outcomes(folder) {
  const report = join(folder, "report.json");
  spawnSync(
    process.execPath,
    [
      tool("vitest/vitest.mjs"),
      ...["run", "--config", "tests/univer.config.mts", "--reporter=json", `--outputFile=${report}`],
      ...TESTS,
    ],
    { cwd: root, env: { ...process.env, UNIVER_FOLDER: folder }, stdio: ["ignore", "ignore", 2] },
  );
  const { testResults } = JSON.parse(readFileSync(report, "utf8"));
  const broken = testResults.filter(({ assertionResults }) => assertionResults.length === 0);
  return [
    ...broken.map(({ message }) => ({
      title: "the tests could not run",
      status: "failed",
      failureMessages: [message],
    })),
    ...testResults.flatMap(({ assertionResults }) => assertionResults),
  ];
}

function firstLine(message) {
  const [line] = String(message).split("\n");
  return line.length > MOST_SHOWN ? `${line.slice(0, MOST_SHOWN)} ...` : line;
}

/** Tries each version and prints what fails; true where nothing does. */
export function tryUniverVersions(asked) {
  let isSound = true;
  for (const version of asked.length > 0 ? asked : VERSIONS) {
    const folder = mkdtempSync(join(tmpdir(), "univer-"));
    try {
      say(`Univer ${version}: installing into ${folder} ...`);
      const all = install(version, folder) ? outcomes(folder) : [];
      const failed = all.filter(({ status }) => status !== "passed");
      isSound &&= failed.length === 0 && all.length > 0;
      console.log(`Univer ${version}: ${all.length - failed.length} of ${all.length} checks hold`);
      for (const { title, failureMessages } of failed)
        console.log(`  ${title}: ${firstLine(failureMessages[0])}`);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
  return isSound;
}
