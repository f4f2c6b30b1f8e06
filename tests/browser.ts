import { execFileSync } from "node:child_process";
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { delimiter, join } from "node:path";
import { chromium, type Browser } from "playwright-core";

const COMMANDS = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "msedge",
  "microsoft-edge",
];
const PLACES = [
  "/snap/bin/chromium",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];
const PACKED = "@sparticuz/chromium";
const PACKED_LIBRARIES = "al2023";

const isRoot = process.getuid?.() === 0;
// Without these a closed network sees the browser's own background traffic refused, many times a second.
const FLAGS = [
  ...(isRoot ? ["--no-sandbox"] : []),
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** An executable with what it needs around it. */
interface Candidate {
  readonly from: string;
  readonly path: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** A place to look; undefined where nothing is there. */
type Source = () => Candidate | undefined;

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function named(): Candidate | undefined {
  const path = process.env["CHROMIUM_PATH"];
  return path === undefined || path === "" ? undefined : { from: "CHROMIUM_PATH", path };
}

function installed(): Candidate | undefined {
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  const suffix = process.platform === "win32" ? ".exe" : "";
  const onPath = COMMANDS.flatMap((command) => folders.map((folder) => join(folder, command + suffix)));
  const path = [...onPath, ...PLACES].find(isExecutable);
  return path === undefined ? undefined : { from: "installed", path };
}

function fontSettings(folder: string): string {
  return [
    '<?xml version="1.0"?>',
    '<!DOCTYPE fontconfig SYSTEM "fonts.dtd">',
    "<fontconfig>",
    '  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>',
    `  <dir>${join(folder, "fonts", "fonts")}</dir>`,
    `  <cachedir>${join(folder, "font-cache")}</cachedir>`,
    "</fontconfig>",
    "",
  ].join("\n");
}

/**
 * The Chromium inside the npm package. It unpacks into the temporary folder and brings its shared libraries (nss, nspr,
 * expat) only where it believes to run in a cloud function, so it is told so, in a process of its own.
 */
function packed(): Candidate | undefined {
  if (process.platform !== "linux" || process.arch !== "x64") return undefined;
  if (!existsSync(join("node_modules", PACKED))) return undefined;
  const cache = join(process.cwd(), "node_modules", ".cache");
  const folder = join(cache, "packed-chromium");
  if (!existsSync(folder)) {
    mkdirSync(cache, { recursive: true });
    const staging = mkdtempSync(join(cache, "unpacking-"));
    const unpack = `import(${JSON.stringify(PACKED)}).then((module) => module.default.executablePath())`;
    execFileSync(process.execPath, ["-e", unpack], {
      env: { ...process.env, TMPDIR: staging, AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x" },
    });
    writeFileSync(join(staging, "fonts.conf"), fontSettings(folder));
    // Test files start side by side: whoever is first puts the whole folder in place at once.
    try {
      renameSync(staging, folder);
    } catch {
      rmSync(staging, { recursive: true });
    }
  }
  const libraries = join(folder, PACKED_LIBRARIES, "lib");
  const known = process.env["LD_LIBRARY_PATH"];
  return {
    from: PACKED,
    path: join(folder, "chromium"),
    env: {
      LD_LIBRARY_PATH: known === undefined || known === "" ? libraries : `${known}:${libraries}`,
      FONTCONFIG_FILE: join(folder, "fonts.conf"),
    },
  };
}

function fromDebian(): Candidate | undefined {
  if (!isRoot || !isExecutable("/usr/bin/apt-get")) return undefined;
  const aptGet = (...args: string[]): void => {
    execFileSync("/usr/bin/apt-get", ["-q", "-y", "-o", "DPkg::Lock::Timeout=300", ...args], {
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
      stdio: ["ignore", "ignore", "inherit"],
    });
  };
  try {
    aptGet("update");
  } catch {
    // Another test file may hold the lists; what it fetched serves this one too.
  }
  aptGet("install", "--no-install-recommends", "chromium");
  return { from: "Debian package", path: "/usr/bin/chromium" };
}

const SOURCES: readonly (readonly [string, Source])[] = [
  ["CHROMIUM_PATH", named],
  ["installed", installed],
  [PACKED, packed],
  ["Debian package", fromDebian],
];

/** What a command that looks for a browser has to find in its environment, so that it takes the one that tests take. */
export function browserEnvironment(): Readonly<Record<string, string | undefined>> {
  for (const [, source] of SOURCES) {
    const candidate = source();
    if (candidate) return { ...process.env, ...candidate.env, CHROMIUM_PATH: candidate.path };
  }
  throw new Error("no browser is found; set CHROMIUM_PATH");
}

/**
 * Starts a browser: the one named by CHROMIUM_PATH, else one that is installed, else the one inside a development
 * package, else Debian's. One that does not start is passed over, except the one that was asked for by name.
 */
export async function launchBrowser(): Promise<Browser> {
  const faults: string[] = [];
  for (const [name, source] of SOURCES) {
    try {
      const candidate = source();
      if (candidate === undefined) continue;
      const browser = await chromium.launch({
        executablePath: candidate.path,
        args: FLAGS,
        env: { ...process.env, ...candidate.env } as Record<string, string>,
      });
      console.log(`browser: ${candidate.from}, ${candidate.path}, version ${browser.version()}`);
      return browser;
    } catch (error) {
      const [reason = ""] = (error instanceof Error ? error.message : String(error)).split("\n");
      if (name === "CHROMIUM_PATH")
        throw new Error(`CHROMIUM_PATH does not start: ${reason}`, { cause: error });
      faults.push(`${name}: ${reason}`);
    }
  }
  throw new Error(`no browser starts; set CHROMIUM_PATH (${faults.join("; ") || "none found"})`);
}
