import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";

const BUNDLE = join(import.meta.dirname, "../../dist/node/recalc.cjs");
const TELL_USAGE = `data:text/javascript,${encodeURIComponent(
  'import { writeSync } from "node:fs"; process.on("exit", () => { const u = process.resourceUsage(); writeSync(3, `${u.maxRSS} ${u.userCPUTime + u.systemCPUTime}`); });',
)}`;

/** How a run of the command ended. */
export interface RecalcRun {
  /** Undefined where the process was killed. */
  readonly code: number | undefined;
  readonly stdout: string;
  /** Without the lines that tell the progress. */
  readonly stderr: string;
  /** Most memory that the process held, in MB; 0 where it was killed. */
  readonly peakMegabytes: number;
  readonly seconds: number;
  /** Seconds of the processor, which other work on the machine does not lengthen; 0 where it was killed. */
  readonly processorSeconds: number;
}

/** Runs the built recalculation command in a process of its own. Killed after `killAfter` milliseconds, if given. */
export function recalc(args: readonly string[], killAfter?: number): Promise<RecalcRun> {
  if (!existsSync(BUNDLE)) throw new Error("dist/node/recalc.cjs is missing: run npm run build first");
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", TELL_USAGE, BUNDLE, ...args], {
    stdio: ["ignore", "pipe", "pipe", "pipe"],
  });
  const texts = ["", "", "", ""];
  child.stdio.forEach((stream, index) => {
    if (stream === null || stream === undefined || !("setEncoding" in stream)) return;
    stream.setEncoding("utf8");
    stream.on("data", (chunk: string) => {
      texts[index] = `${texts[index] ?? ""}${chunk}`;
    });
  });
  const timer = killAfter === undefined ? undefined : setTimeout(() => child.kill("SIGKILL"), killAfter);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => {
      clearTimeout(timer);
      const [, stdout = "", stderr = "", usage = ""] = texts;
      const [kilobytes = 0, microseconds = 0] = usage.split(" ").map(Number);
      resolve({
        code: code ?? undefined,
        stdout,
        stderr: stderr.replace(/computing \d+ %\n/g, ""),
        peakMegabytes: kilobytes / 1024,
        seconds: (performance.now() - start) / 1000,
        processorSeconds: microseconds / 1e6,
      });
    });
  });
}
