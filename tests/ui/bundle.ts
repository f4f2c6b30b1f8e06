import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import webpack from "webpack";

// The strictest policy the views must live with; pictures become PNG files by way of a blob.
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; base-uri 'none'; form-action 'none'";

async function bundled(entry: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "ui-page-"));
  try {
    await new Promise<void>((done, fail) => {
      webpack(
        {
          mode: "development",
          devtool: false,
          target: ["web", "es2022"],
          entry: resolve(entry),
          output: { path: folder, filename: "page.js" },
          resolve: { extensions: [".ts", ".js"] },
          module: {
            rules: [
              {
                test: /\.ts$/,
                loader: "ts-loader",
                options: { transpileOnly: true, compilerOptions: { noEmit: false } },
              },
            ],
          },
        },
        (fault, stats) => {
          if (fault) fail(fault);
          else if (stats?.hasErrors()) fail(new Error(stats.toString("errors-only")));
          else done();
        },
      );
    });
    return await readFile(join(folder, "page.js"), "utf8");
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** A page on localhost that loads the views. */
export interface ServedPage {
  readonly address: string;
  close(): Promise<void>;
}

/** Bundles `entry`, a browser script, and serves it with the views' styles under a strict content security policy. */
export async function servePage(entry: string): Promise<ServedPage> {
  const files: Readonly<Record<string, readonly [type: string, content: string]>> = {
    "/": [
      "text/html",
      '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Views</title>' +
        '<meta name="viewport" content="width=device-width, initial-scale=1">' +
        '<link rel="stylesheet" href="styles.css"><link rel="stylesheet" href="page.css"></head>' +
        '<body><main><h1>Views</h1><div id="place"></div></main><script src="page.js"></script></body></html>',
    ],
    "/favicon.ico": ["image/x-icon", ""],
    "/page.css": [
      "text/css",
      "body { margin: 0; background: var(--bln-paper); color: var(--bln-ink); } " +
        "h1 { margin: 0; padding: 12px 12px 0; font: 600 1rem system-ui, sans-serif; }",
    ],
    "/styles.css": ["text/css", await readFile("src/ui/styles.css", "utf8")],
    "/page.js": ["text/javascript", await bundled(entry)],
  };
  const server = createServer((request, response) => {
    const [type, content] = files[new URL(request.url ?? "/", "http://localhost").pathname] ?? [];
    if (type === undefined) response.writeHead(404).end();
    else
      response
        .writeHead(200, { "content-type": `${type}; charset=utf-8`, "content-security-policy": POLICY })
        .end(content);
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error("the page has no port");
  return {
    address: `http://127.0.0.1:${bound.port}/`,
    close: () =>
      new Promise((done) => {
        server.closeAllConnections();
        server.close(() => {
          done();
        });
      }),
  };
}
