// Serves the built add-in over https and shows it to an Excel on this machine.
import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, readFileSync, statSync } from "node:fs";
import { createServer } from "node:https";
import { createRequire } from "node:module";
import { homedir } from "node:os";
import { join } from "node:path";
import { getHttpsServerOptions } from "office-addin-dev-certs";

const PORT = 3000;
const DEVELOPER_KEY = "HKCU\\SOFTWARE\\Microsoft\\Office\\16.0\\WEF\\Developer";

function say(text) {
  process.stdout.write(`${text}\n`);
}

/** Puts the manifest where Excel on this system looks for add-ins under development. */
function sideload(manifest) {
  if (process.platform === "darwin") {
    const folder = join(homedir(), "Library/Containers/com.microsoft.Excel/Data/Documents/wef");
    mkdirSync(folder, { recursive: true });
    copyFileSync(manifest, join(folder, "balloon-decor-functions.xml"));
    return "Restart Excel, then Home > Add-ins > Developer Add-ins.";
  }
  if (process.platform === "win32") {
    const id = /<Id>([^<]+)<\/Id>/.exec(readFileSync(manifest, "utf8"))?.[1] ?? "";
    const { status } = spawnSync("reg", [
      "add",
      DEVELOPER_KEY,
      "/v",
      id,
      "/t",
      "REG_SZ",
      "/d",
      manifest,
      "/f",
    ]);
    if (status === 0) return "Restart Excel, then Home > Add-ins > Advanced.";
  }
  return `Excel on the web: Home > Add-ins > More Settings > Upload My Add-in, then ${manifest}`;
}

/** A certificate for localhost, trusted by this system where it lets itself be told to. */
async function certificate() {
  try {
    return await getHttpsServerOptions();
  } catch (error) {
    const folder = join(homedir(), ".office-addin-dev-certs");
    const [cert, key] = ["localhost.crt", "localhost.key"].map((name) => join(folder, name));
    if (!statSync(cert, { throwIfNoEntry: false }) || !statSync(key, { throwIfNoEntry: false })) throw error;
    say("The certificate could not be made trusted here: Excel and browsers will ask about it.");
    return { cert: readFileSync(cert), key: readFileSync(key) };
  }
}

/** Serves `dist/addin` of the project in `root` until it is stopped. */
export async function serveToExcel(root) {
  const folder = join(root, "dist", "addin");
  const options = await certificate();
  const { answerFiles, ADD_IN } = createRequire(import.meta.url)(
    join(root, "dist", "node", "answer-files.cjs"),
  );
  const server = createServer(options, answerFiles(folder, ADD_IN));
  server.on("error", (error) => {
    say(`the add-in could not be served: ${error.message}`);
    process.exitCode = 2;
  });
  server.listen(PORT, "127.0.0.1", () => {
    say(`The add-in is at https://localhost:${PORT}/ (Ctrl+C stops it)`);
    say(sideload(join(folder, "manifest.xml")));
  });
}
