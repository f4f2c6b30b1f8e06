// The commands of package.json: each sets up what it needs, then runs.
import { join, resolve } from "node:path";
import { takenByNpm, unknownArgument } from "./npm-options.mjs";
import { ensureBuilt, ensureInstalled, exitCodeOf, root, run, say, tool } from "./setup.mjs";
import { partsNeeded } from "./test-needs.mjs";

/** What `npm run build` builds. */
const PARTS = ["node", "addin", "desk", "google-sheets"];

/** Commands that need more than what builds and runs the project: the dev dependencies. */
const DEVELOPING = ["test", "excel", "models", "bench", "fuzz", "mutate"];

const [command = "", ...rest] = process.argv.slice(2);
const bundled = (bundle) => join(root, "dist", "node", `${bundle}.cjs`);
const node = (bundle, args = []) => run(process.execPath, [bundled(bundle), ...args]);
const vitest = (args, options) => run(process.execPath, [tool("vitest/vitest.mjs"), ...args], options);

// npm runs in the project's folder; a person means files in the folder they typed the command in.
const asTyped = (args) =>
  args.map((argument) =>
    /^--|^-[a-z]$/i.test(argument) ? argument : resolve(process.env.INIT_CWD ?? process.cwd(), argument),
  );

/** Options of the commands that a person may type without "--" before them; one that takes a value ends in "=". */
const OPTIONS = {
  start: ["--no-serve"],
  recalc: ["--json", "--each", "--accept", "--seconds="],
  share: ["--put-back"],
  build: ["--origin="],
};

function refuseTaken() {
  const taken = takenByNpm(OPTIONS[command] ?? [], process.env, rest);
  if (taken.length === 0) return;
  const quoted = rest.map((argument) => (/\s/.test(argument) ? `"${argument}"` : argument));
  say(
    `npm took ${taken.join(" and ")} for itself; type: npm run ${[command, "--", ...quoted, ...taken].join(" ")}`,
  );
  process.exit(2);
}

// What nobody reads would be passed over in silence.
function refuseUnknown() {
  const unknown = unknownArgument(OPTIONS[command], rest);
  if (unknown === undefined) return;
  const [option] = OPTIONS[command];
  say(`${command} takes no other option than ${option.replace(/=$/, "=VALUE")}, found ${unknown}`);
  process.exit(2);
}

const commands = {
  start() {
    refuseUnknown();
    ensureBuilt(["node"]);
    process.exitCode = exitCodeOf(process.execPath, [bundled("start")]);
    if (rest.includes("--no-serve")) return;
    // The page takes the longer part of the build: the quote stands there before it.
    ensureBuilt(["desk"]);
    node("page");
  },
  recalc() {
    ensureBuilt(["node"]);
    node("recalc", asTyped(rest));
  },
  share() {
    ensureBuilt(["node"]);
    node("share", asTyped(rest));
  },
  paper() {
    // Papers and events are words; what ends like a file is one.
    const [input, ...words] = rest;
    const files = words.map((word) => (/\.pdf$/i.test(word) ? asTyped([word])[0] : word));
    ensureBuilt(["node"]);
    node("paper", [...(input === undefined ? [] : asTyped([input])), ...files]);
  },
  async excel() {
    ensureBuilt(["node", "addin"]);
    const { serveToExcel } = await import("./excel.mjs");
    await serveToExcel(root);
  },
  build() {
    refuseUnknown();
    const origin = rest.find((argument) => argument.startsWith("--origin="))?.slice("--origin=".length);
    ensureBuilt(PARTS, origin === undefined ? {} : { origin });
  },
  test() {
    if (rest.length > 0) {
      ensureBuilt(partsNeeded(root, rest, PARTS));
      return vitest(["run", ...rest]);
    }
    for (const project of [".", "src/core", "src/functions"])
      run(process.execPath, [tool("typescript/bin/tsc"), "-p", project]);
    run(process.execPath, [tool("eslint/bin/eslint.js"), "."]);
    run(process.execPath, [tool("prettier/bin/prettier.cjs"), "--check", "--log-level", "warn", "."]);
    ensureBuilt(PARTS);
    vitest(["run"]);
  },
  docs() {
    ensureBuilt(["node"]);
    node("docs", rest);
  },
  conformance() {
    ensureBuilt(["node"]);
    node("conformance", asTyped(rest));
  },
  samples() {
    ensureBuilt(["node"]);
    node("samples", rest);
  },
  models() {
    const [RENEW_MODEL_VALUES = "new version"] = rest;
    vitest(["run", "tests/functions/model-version.test.ts"], { env: { ...process.env, RENEW_MODEL_VALUES } });
  },
  bench() {
    ensureBuilt(["node", "addin", "desk"]);
    vitest(["run", "--config", "tests/bench/bench.config.mts", ...rest]);
  },
  fuzz() {
    const { FUZZ_CALLS = "1000000" } = process.env;
    vitest(["run", "tests/fuzz", ...rest], { env: { ...process.env, FUZZ_CALLS } });
  },
  async univer() {
    const { tryUniverVersions } = await import("./univer-versions.mjs");
    if (!tryUniverVersions(rest)) process.exit(1);
  },
  mutate() {
    run(process.execPath, [tool("@stryker-mutator/core/bin/stryker.js"), "run", ...rest]);
  },
};

if (!Object.hasOwn(commands, command)) {
  say(`run.mjs must be given one of ${Object.keys(commands).join(", ")}, found "${command}"`);
  process.exit(2);
}
refuseTaken();
ensureInstalled(DEVELOPING.includes(command) ? "all" : "running");
await commands[command]();
