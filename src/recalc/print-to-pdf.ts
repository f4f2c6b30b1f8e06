import { type ChildProcess, spawn } from "node:child_process";
import { accessSync, constants, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import type { Readable, Writable } from "node:stream";
import { pathToFileURL } from "node:url";
import { CommandError } from "./file-fault";

const COMMANDS = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "microsoft-edge",
  "microsoft-edge-stable",
  "msedge",
  "chrome",
];
const WINDOWS_PLACES = [
  ["Google", "Chrome", "Application", "chrome.exe"],
  ["Microsoft", "Edge", "Application", "msedge.exe"],
  ["Chromium", "Application", "chrome.exe"],
];
const PLACES = [
  "/snap/bin/chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];
const NO_BROWSER =
  "a PDF needs Chrome, Chromium or Edge on this computer, and none was found; install one, or set CHROMIUM_PATH to it, or print from the page that npm start serves";
/** Seconds after which a browser that does not answer is given up. */
const PATIENCE = 60;

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** A browser that prints: the one named by CHROMIUM_PATH, else one that is installed. */
function findBrowser(): string | undefined {
  const surroundings = process.env;
  const named = surroundings["CHROMIUM_PATH"];
  if (named !== undefined && named !== "") return named;
  const folders = (surroundings["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  const suffix = process.platform === "win32" ? ".exe" : "";
  const roots = ["ProgramFiles", "ProgramFiles(x86)", "LOCALAPPDATA"].flatMap(
    (name) => surroundings[name] ?? [],
  );
  return [
    ...COMMANDS.flatMap((command) => folders.map((folder) => join(folder, command + suffix))),
    ...PLACES,
    ...roots.flatMap((root) => WINDOWS_PLACES.map((place) => join(root, ...place))),
  ].find(isExecutable);
}

/** A message of the browser: an answer to a call, or an event. */
interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly result?: Readonly<Record<string, unknown>>;
  readonly error?: { readonly message: string };
}

interface Waiting {
  readonly resolve: (result: Readonly<Record<string, unknown>>) => void;
  readonly reject: (error: Error) => void;
}

/** The Chrome DevTools Protocol over a pipe: messages in JSON, each ended by a zero byte. */
class Connection {
  private readonly waiting = new Map<number, Waiting>();
  private readonly events = new Map<string, () => void>();
  private nextId = 1;
  private rest = "";

  constructor(
    private readonly to: Writable,
    from: Readable,
  ) {
    from.setEncoding("utf8");
    from.on("data", (chunk: string) => {
      const pieces = (this.rest + chunk).split("\0");
      this.rest = pieces.pop() ?? "";
      for (const piece of pieces) this.take(JSON.parse(piece) as Message);
    });
    // What is written to a browser that has ended says nothing new.
    to.on("error", () => undefined);
  }

  call(method: string, params: object = {}, sessionId?: string): Promise<Readonly<Record<string, unknown>>> {
    const id = this.nextId++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.to.write(`${JSON.stringify({ id, method, params, sessionId })}\0`);
    });
  }

  event(name: string): Promise<void> {
    return new Promise((resolve) => {
      this.events.set(name, resolve);
    });
  }

  private take({ id, method, result, error }: Message): void {
    if (method !== undefined) this.events.get(method)?.();
    const waiting = id === undefined ? undefined : this.waiting.get(id);
    if (id === undefined || !waiting) return;
    this.waiting.delete(id);
    if (error) waiting.reject(new Error(error.message));
    else waiting.resolve(result ?? {});
  }
}

async function printed(connection: Connection, url: string): Promise<Uint8Array> {
  const { targetId } = await connection.call("Target.createTarget", { url: "about:blank" });
  const { sessionId } = await connection.call("Target.attachToTarget", { targetId, flatten: true });
  const session = String(sessionId);
  await connection.call("Page.enable", {}, session);
  const loaded = connection.event("Page.loadEventFired");
  await connection.call("Page.navigate", { url }, session);
  await loaded;
  const how = { preferCSSPageSize: true, printBackground: true };
  const { data } = await connection.call("Page.printToPDF", how, session);
  return new Uint8Array(Buffer.from(String(data), "base64"));
}

/** What a browser does not come back from, as a rejection. */
function endOf(process: ChildProcess): { readonly failed: Promise<never>; clear(): void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const failed = new Promise<never>((_, reject) => {
    process.once("error", reject);
    process.once("exit", (code, signal) => {
      reject(new Error(`it ended with ${String(code ?? signal)}`));
    });
    timer = setTimeout(() => {
      reject(new Error(`it gave no answer in ${String(PATIENCE)} seconds`));
    }, PATIENCE * 1000);
  });
  failed.catch(() => undefined);
  return {
    failed,
    clear: () => {
      clearTimeout(timer);
    },
  };
}

function start(browser: string, profile: string): ChildProcess {
  return spawn(
    browser,
    [
      "--headless",
      "--disable-gpu",
      "--no-first-run",
      "--disable-extensions",
      "--disable-background-networking",
      // The page is our own file without scripts, and for this user a sandbox does not start.
      ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
      // A profile of its own, so that a browser in use does not take the command over.
      `--user-data-dir=${profile}`,
      "--remote-debugging-pipe",
    ],
    { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] },
  );
}

/** Prints a page to PDF by an installed browser. Throws CommandError with a sentence where none is there or it fails. */
export async function printToPdf(html: string): Promise<Uint8Array> {
  const browser = findBrowser();
  if (browser === undefined) throw new CommandError(NO_BROWSER);
  const folder = mkdtempSync(join(tmpdir(), "paper-"));
  const child = start(browser, join(folder, "profile"));
  const end = endOf(child);
  try {
    const page = join(folder, "paper.html");
    writeFileSync(page, html);
    const [, , , to, from] = child.stdio;
    const connection = new Connection(to as Writable, from as Readable);
    return await Promise.race([printed(connection, pathToFileURL(page).href), end.failed]);
  } catch (error) {
    throw new CommandError(
      `${browser} did not print: ${error instanceof Error ? error.message : String(error)}`,
      { cause: error },
    );
  } finally {
    end.clear();
    await ended(child);
    removeIfFree(folder);
  }
}

/** A helper of the browser may still write for a moment; what it keeps is the system's to clear, and the paper is printed. */
function removeIfFree(folder: string): void {
  try {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  } catch (error) {
    if (!(error instanceof Error && "code" in error)) throw error;
  }
}

/** Ends a browser, and waits until its files are free. */
function ended(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.pid === undefined || child.exitCode !== null || child.signalCode !== null) resolve();
    else {
      child.once("exit", () => {
        resolve();
      });
      child.kill("SIGKILL");
    }
  });
}
