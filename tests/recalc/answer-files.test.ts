import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { Agent, createServer, type IncomingHttpHeaders, request, type Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ADD_IN, answerFiles, OWN_PAGE } from "../../src/recalc/answer-files";

const POLICY = "default-src 'none'; script-src 'self'";
const PAGE = `<meta http-equiv="Content-Security-Policy" content="${POLICY}"><p>${"hello ".repeat(100)}</p>`;

let folder: string;
let server: Server;
const agent = new Agent({ keepAlive: true, maxSockets: 20 });
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "answer-"));
  const site = join(folder, "site");
  mkdirSync(join(site, "deep"), { recursive: true });
  writeFileSync(join(site, "index.html"), PAGE);
  writeFileSync(join(site, "desk.js"), "let x;");
  writeFileSync(join(site, "deep", "picture.png"), "png");
  writeFileSync(join(folder, "secret.txt"), "secret");
  if (process.platform !== "win32") symlinkSync(join(folder, "secret.txt"), join(site, "link.txt"));
  server = createServer(answerFiles(site, OWN_PAGE));
  // An idle connection that the server ends just as the next request goes out would be the test's own fault.
  server.keepAliveTimeout = 60_000;
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
});
afterAll(() => {
  agent.destroy();
  server.close();
  rmSync(folder, { recursive: true });
});

interface Reply {
  readonly status: number | undefined;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

const port = (): number => (server.address() as AddressInfo).port;

/** The raw path goes out as it is, which fetch would tidy. */
function ask(path: string, headers: Readonly<Record<string, string>> = {}, method = "GET"): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const options = {
      host: "127.0.0.1",
      port: port(),
      path,
      method,
      agent,
      headers: { host: "localhost", ...headers },
    };
    const call = request(options, (response) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("error", reject);
      response.on("end", () => {
        resolve({ status: response.statusCode, headers: response.headers, body: Buffer.concat(chunks) });
      });
    });
    call.on("error", reject);
    call.end();
  });
}

/** Whatever bytes go out, until the server ends the connection or has answered. */
function askRaw(text: string): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(port(), "127.0.0.1", () => socket.end(text));
    let reply = "";
    socket.setEncoding("latin1");
    socket.on("data", (chunk: string) => (reply += chunk));
    socket.on("error", () => {
      resolve(reply);
    });
    socket.on("close", () => {
      resolve(reply);
    });
  });
}

describe("a file of the folder", () => {
  it("comes with the policy of its page as a header, and cannot be framed", async () => {
    const { status, headers, body } = await ask("/");
    expect([status, body.toString()]).toEqual([200, PAGE]);
    expect(headers["content-security-policy"]).toBe(`${POLICY}; frame-ancestors 'none'`);
    expect(headers["content-length"]).toBe(String(PAGE.length));
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect((await ask("/desk.js")).headers["content-security-policy"]).toBe("frame-ancestors 'none'");
  });

  it("is compressed where that is understood and worth it", async () => {
    for (const coding of ["gzip", "br, gzip;q=0.5", "*"]) {
      const { headers, body } = await ask("/", { "accept-encoding": coding });
      expect([headers["content-encoding"], headers.vary]).toEqual(["gzip", "Accept-Encoding"]);
      expect(body.length).toBeLessThan(PAGE.length / 2);
      expect(gunzipSync(body).toString()).toBe(PAGE);
    }
    for (const coding of ["", "br", "gzip;q=0", "gzip; q=0.0", "xgzip"]) {
      expect((await ask("/", { "accept-encoding": coding })).headers["content-encoding"]).toBeUndefined();
    }
    const picture = await ask("/deep/picture.png", { "accept-encoding": "gzip" });
    expect([picture.headers["content-encoding"], picture.body.toString()]).toEqual([undefined, "png"]);
  });

  it.runIf(process.platform !== "win32")("may go away once it is open", async () => {
    const file = join(folder, "site", "passing.png");
    writeFileSync(file, "let y;");
    const answer = answerFiles(join(folder, "site"), OWN_PAGE);
    const passing = createServer((asked, response) => {
      answer(asked, response);
      // It is being opened by then; nothing else runs here until it is open and gone.
      process.nextTick(() => {
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
        rmSync(file, { force: true });
      });
    });
    await new Promise<void>((done) => passing.listen(0, "127.0.0.1", done));
    const { port: at } = passing.address() as AddressInfo;
    const reply = await fetch(`http://127.0.0.1:${at}/passing.png`);
    expect([reply.status, await reply.text()]).toEqual([200, "let y;"]);
    expect((await fetch(`http://127.0.0.1:${at}/passing.png`)).status).toBe(404);
    passing.close();
  });

  it("is told of without its content", async () => {
    const { status, headers, body } = await ask("/", {}, "HEAD");
    expect([status, headers["content-length"], body.length]).toEqual([200, String(PAGE.length), 0]);
  });

  it("is framed by Excel on the web where it belongs to the add-in", () => {
    expect(ADD_IN.framedBy).toContain("https://*.officeapps.live.com");
    expect(ADD_IN.headers["Access-Control-Allow-Origin"]).toBe("*");
  });
});

describe("what is refused", () => {
  it.each([
    "/desk.js/",
    "/desk.js/x",
    `/${"n".repeat(256)}`,
    `/${"%F0%9F%8E%88".repeat(64)}`,
    "/deep",
    "/deep/",
    "/link.txt",
    "//",
    "/%5c..%5csecret.txt",
    "/index.html::$DATA",
  ])("is %s, and the next request is answered", async (path) => {
    expect((await ask(path)).status).toBe(404);
    expect((await ask("/")).status).toBe(200);
  });

  it.each([
    "attacker.example",
    "localhost.attacker.example",
    "127.0.0.1.attacker.example:3000",
    "192.168.0.2",
  ])("is a request to %s", async (host) => {
    const { status, body } = await ask("/", { host });
    expect([status, body.toString()]).toEqual([421, "this server answers to localhost only"]);
  });

  it.each(["localhost", "LOCALHOST:3000", "127.0.0.1:8", "[::1]:3000"])(
    "is no request to %s",
    async (host) => {
      expect((await ask("/", { host })).status).toBe(200);
    },
  );

  it("is every other method, with those that are answered", async () => {
    const { status, headers } = await ask("/", {}, "DELETE");
    expect([status, headers.allow]).toEqual([405, "GET, HEAD"]);
  });
});

describe("ten thousand requests of all kinds", { timeout: 120_000 }, () => {
  const part = fc.oneof(
    fc.constantFrom(
      "..",
      ".",
      "",
      "index.html",
      "desk.js",
      "deep",
      "link.txt",
      "secret.txt",
      "%",
      "%00",
      "%2e%2e",
      "%2f",
    ),
    fc.constantFrom(
      "%5c",
      "%c0%af",
      "%ff",
      "::$DATA",
      "con",
      "n".repeat(300),
      "%F0%9F%8E%88".repeat(80),
      "?",
      "#",
      "*",
    ),
    fc.string({
      unit: fc.integer({ min: 0x21, max: 0x7e }).map((code) => String.fromCharCode(code)),
      maxLength: 12,
    }),
  );
  const paths = fc.array(part, { maxLength: 5 }).map((parts) => `/${parts.join("/")}`);
  const method = fc.constantFrom("GET", "GET", "GET", "HEAD", "POST", "OPTIONS", "PUT", "TRACE");
  const host = fc.constantFrom("localhost", "localhost", "localhost:3000", "evil.example", "");
  const coding = fc.constantFrom("gzip", "identity", "", "br;q=1, gzip;q=0", "*;q=x");

  it("are answered each, and none with what is outside", async () => {
    const asked = fc.sample(fc.tuple(paths, method, host, coding), { numRuns: 10_000, seed: 18 });
    let answered = 0;
    for (let start = 0; start < asked.length; start += 100) {
      const replies = await Promise.all(
        asked
          .slice(start, start + 100)
          .map(([path, verb, name, accepted]) =>
            ask(path, { host: name, "accept-encoding": accepted }, verb),
          ),
      );
      for (const { status, body } of replies) {
        expect([200, 404, 405, 421]).toContain(status);
        expect(body.includes("secret")).toBe(false);
      }
      answered += replies.length;
    }
    expect(answered).toBe(10_000);
    expect((await ask("/")).body.toString()).toBe(PAGE);
  });

  it("end no server where they are no requests at all", async () => {
    const texts = fc.sample(
      fc.oneof(
        fc.string({ unit: "binary", maxLength: 60 }),
        fc.tuple(method, fc.string({ unit: "binary", maxLength: 30 })).map(([verb, path]) => {
          return `${verb} ${path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`;
        }),
        fc.constantFrom(
          "CONNECT / HTTP/1.1\r\nHost: localhost\r\n\r\n",
          "GET / HTTP/1.1\r\n\r\n",
          "GET / HTTP/1.0\r\n\r\n",
          "GET http://evil.example/ HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
          "GET / HTTP/1.1\r\nHost: localhost\r\nUpgrade: x\r\nConnection: Upgrade\r\n\r\n",
          `GET / HTTP/1.1\r\nHost: localhost\r\nX: ${"y".repeat(1e5)}\r\n\r\n`,
        ),
      ),
      { numRuns: 500, seed: 18 },
    );
    for (const text of texts) expect(await askRaw(text)).not.toContain("secret");
    expect((await ask("/")).status).toBe(200);
  });
});
