import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, extname, join, resolve } from "node:path";
import type { Page } from "playwright-core";
import webpack, { type Configuration } from "webpack";

const OFFICE = "https://appsforoffice.microsoft.com/lib/1/hosted/";
const officeFiles = join(
  dirname(createRequire(import.meta.url).resolve("@microsoft/office-js/package.json")),
  "dist",
);
const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
};

export interface Served {
  readonly address: string;
  close(): Promise<void>;
}

/** Serves a folder on this computer. */
export async function serveFolder(
  folder: string,
  whenClosed: () => Promise<void> = () => Promise.resolve(),
): Promise<Served> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://localhost");
    readFile(join(folder, pathname)).then(
      (content) =>
        response
          .writeHead(200, { "content-type": TYPES[extname(pathname)] ?? "application/octet-stream" })
          .end(content),
      () => response.writeHead(404).end(),
    );
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error("the server has no port");
  return {
    address: `http://127.0.0.1:${bound.port}/taskpane.html`,
    close: async () => {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
      await whenClosed();
    },
  };
}

/** Builds the add-in with another script for its pane and serves it. */
export async function servePane(entry: string): Promise<Served> {
  const folder = await mkdtemp(join(tmpdir(), "pane-"));
  const { default: configurations } = (await import(resolve("webpack.config.mjs"))) as {
    default: (environment: object) => readonly Configuration[];
  };
  const addin = configurations({}).find(({ name }) => name === "addin");
  if (addin === undefined) throw new Error("no build of the add-in");
  const configuration: Configuration = {
    ...addin,
    mode: "development",
    entry: { ...(addin.entry as Record<string, string>), taskpane: resolve(entry) },
    output: { ...addin.output, path: folder },
  };
  await new Promise<void>((done, fail) => {
    webpack(configuration, (fault, stats) => {
      if (fault) fail(fault);
      else if (stats?.hasErrors()) fail(new Error(stats.toString("errors-only")));
      else done();
    });
  });
  return serveFolder(folder, () => rm(folder, { recursive: true }));
}

/** Answers Microsoft's address of office.js from the package, and refuses every other address; gives what was refused. */
export async function routeOffice(page: Page): Promise<readonly string[]> {
  const refused: string[] = [];
  await page.route(/.*/, async (route) => {
    const { hostname, href } = new URL(route.request().url());
    if (hostname === "127.0.0.1" || href.startsWith("blob:")) return route.continue();
    if (href.startsWith(OFFICE))
      return route.fulfill({
        path: join(officeFiles, new URL(href).pathname.slice(new URL(OFFICE).pathname.length)),
      });
    refused.push(href);
    return route.abort();
  });
  return refused;
}
