import { createReadStream, fstatSync, readFileSync, realpathSync, statSync } from "node:fs";
import type { IncomingMessage, RequestListener, ServerResponse } from "node:http";
import { extname, join, sep } from "node:path";
import { pipeline } from "node:stream";
import { createGzip } from "node:zlib";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".xml": "text/xml; charset=utf-8",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};
const COMPRESSED: ReadonlySet<string> = new Set([".html", ".js", ".css", ".json", ".svg", ".txt", ".xml"]);

/** How the files of one site are answered. */
export interface SiteRules {
  /** Pages that may show a page of the site in a frame, as the directive `frame-ancestors` lists them. */
  readonly framedBy: string;
  readonly headers: Readonly<Record<string, string>>;
}

const COMMON = {
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cache-Control": "no-cache",
};

/** The spreadsheet page: on its own in a tab. */
export const OWN_PAGE: SiteRules = {
  framedBy: "'none'",
  headers: {
    ...COMMON,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
  },
};

/** The add-in: its pane is a frame inside Excel on the web, which also fetches functions.json from another origin. */
export const ADD_IN: SiteRules = {
  // Where Excel on the web lives, from memory.
  framedBy: [
    "'self'",
    ...[
      "office.com",
      "officeapps.live.com",
      "live.com",
      "sharepoint.com",
      "microsoft.com",
      "cloud.microsoft",
    ].map((host) => `https://*.${host}`),
  ].join(" "),
  headers: { ...COMMON, "Access-Control-Allow-Origin": "*" },
};

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly text: string;
}

const refused = (status: number, text: string): Answer => ({
  status,
  headers: { "Content-Type": "text/plain; charset=utf-8" },
  text,
});
const MISSING = refused(404, "there is no such file");

// A page elsewhere that lets its own name lead here must not read what is served.
function isForThisMachine(host: string | undefined): boolean {
  return /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d{1,5})?$/i.test(host ?? "");
}

/** The file that an address names, inside the folder; undefined where there is none. */
function fileFor(folder: string, url: string): string | undefined {
  try {
    const path = decodeURIComponent(new URL(url, "http://localhost").pathname);
    // Signs that name another folder, drive or stream on some system.
    if (/[\\:\p{Cc}]/u.test(path)) return undefined;
    const file = realpathSync(join(folder, path.endsWith("/") ? `${path}index.html` : path));
    return file.startsWith(realpathSync(folder) + sep) && statSync(file).isFile() ? file : undefined;
  } catch {
    // An address that is none, a name that the disk does not take, a file in place of a folder.
    return undefined;
  }
}

/** A page's own policy with who may frame it, which only a header can say. */
function policyOf(file: string, framedBy: string): string {
  const isPage = extname(file) === ".html";
  const own = isPage
    ? /<meta\s+http-equiv="Content-Security-Policy"\s+content="([^"]*)"/.exec(readFileSync(file, "utf8"))?.[1]
    : undefined;
  return [...(own === undefined ? [] : [own]), `frame-ancestors ${framedBy}`].join("; ");
}

function takesGzip(request: IncomingMessage): boolean {
  const accepted = String(request.headers["accept-encoding"] ?? "");
  return accepted
    .split(",")
    .some((coding) => /^\s*(?:gzip|\*)\s*(?:;\s*q=(?!0(?:\.0*)?\s*$).*)?$/i.test(coding));
}

function send(request: IncomingMessage, response: ServerResponse, rules: SiteRules, answer: Answer): void {
  response.writeHead(answer.status, { ...rules.headers, ...answer.headers });
  response.end(request.method === "HEAD" ? undefined : answer.text);
}

function sendFile(request: IncomingMessage, response: ServerResponse, rules: SiteRules, file: string): void {
  const extension = extname(file);
  const isCompressed = COMPRESSED.has(extension) && takesGzip(request);
  const policy = policyOf(file, rules.framedBy);
  const stream = createReadStream(file);
  stream.once("error", () => {
    if (!response.headersSent) send(request, response, rules, MISSING);
  });
  stream.once("open", (handle) => {
    response.writeHead(200, {
      ...rules.headers,
      "Content-Type": TYPES[extension] ?? "application/octet-stream",
      "Content-Security-Policy": policy,
      ...(COMPRESSED.has(extension) ? { Vary: "Accept-Encoding" } : {}),
      ...(isCompressed
        ? { "Content-Encoding": "gzip" }
        : { "Content-Length": String(fstatSync(handle).size) }),
    });
    if (request.method === "HEAD") {
      stream.destroy();
      response.end();
      return;
    }
    // Where the reader goes away half way, the file is closed and nothing else happens.
    const done = (): void => undefined;
    if (isCompressed) pipeline(stream, createGzip(), response, done);
    else pipeline(stream, response, done);
  });
}

/** Answers requests for the files of one folder, to this machine only; whatever is asked gets an answer. */
export function answerFiles(folder: string, rules: SiteRules): RequestListener {
  return (request, response) => {
    request.resume();
    if (!isForThisMachine(request.headers.host)) {
      send(request, response, rules, refused(421, "this server answers to localhost only"));
    } else if (request.method !== "GET" && request.method !== "HEAD") {
      const answer = refused(405, "only GET and HEAD are answered");
      send(request, response, rules, { ...answer, headers: { ...answer.headers, Allow: "GET, HEAD" } });
    } else {
      const file = fileFor(folder, request.url ?? "/");
      try {
        if (file === undefined) send(request, response, rules, MISSING);
        else sendFile(request, response, rules, file);
      } catch {
        // Gone since it was found, as while the page is built anew.
        send(request, response, rules, MISSING);
      }
    }
  };
}
