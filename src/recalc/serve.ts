import { createReadStream, statSync } from "node:fs";
import { createServer, type Server } from "node:http";
import { extname, join, normalize, sep } from "node:path";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

const HEADERS = {
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cache-Control": "no-cache",
};

function fileFor(folder: string, url: string): string | undefined {
  let path: string;
  try {
    path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  } catch {
    return undefined;
  }
  const file = normalize(join(folder, path.endsWith("/") ? `${path}index.html` : path));
  return file.startsWith(folder + sep) && !path.includes("\0") ? file : undefined;
}

/** A server for the files of one folder, for this machine only. */
function folderServer(folder: string): Server {
  return createServer((request, response) => {
    const refuse = (status: number): void => {
      response.writeHead(status, { ...HEADERS, "Content-Type": "text/plain; charset=utf-8" });
      response.end(status === 405 ? "only GET and HEAD are answered" : "there is no such file");
    };
    if (request.method !== "GET" && request.method !== "HEAD") {
      refuse(405);
      return;
    }
    const file = fileFor(folder, request.url ?? "/");
    const stats = file === undefined ? undefined : statSync(file, { throwIfNoEntry: false });
    if (file === undefined || !stats?.isFile()) {
      refuse(404);
      return;
    }
    const type = TYPES[extname(file)] ?? "application/octet-stream";
    response.writeHead(200, { ...HEADERS, "Content-Type": type, "Content-Length": stats.size });
    if (request.method === "HEAD") response.end();
    else createReadStream(file).pipe(response);
  });
}

/**
 * Serves a folder on the loopback address, on `port` or where that is taken on any free one.
 *
 * @returns the server and its address
 */
export async function serveFolder(
  folder: string,
  port: number,
): Promise<{ readonly server: Server; readonly address: string }> {
  const server = folderServer(normalize(folder));
  const listen = (wanted: number): Promise<void> =>
    new Promise((resolve, reject) => {
      server.once("error", reject);
      server.listen(wanted, "127.0.0.1", () => {
        server.removeListener("error", reject);
        resolve();
      });
    });
  try {
    await listen(port);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EADDRINUSE") throw error;
    await listen(0);
  }
  const bound = server.address();
  const actual = typeof bound === "object" && bound !== null ? bound.port : port;
  return { server, address: `http://localhost:${actual}/` };
}
