import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serveFolder } from "../../src/recalc/serve";

let served: Awaited<ReturnType<typeof serveFolder>>;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "serve-"));
  mkdirSync(join(folder, "site"));
  writeFileSync(join(folder, "site", "index.html"), "<p>hello</p>");
  writeFileSync(join(folder, "secret.txt"), "secret");
  served = await serveFolder(join(folder, "site"), 0);
});
afterAll(() => {
  served.server.close();
  rmSync(folder, { recursive: true });
});

/** The raw path goes out as it is, which fetch would tidy. */
function get(path: string, method = "GET"): Promise<{ status: number | undefined; body: string }> {
  const { port } = served.server.address() as AddressInfo;
  return new Promise((resolve, reject) => {
    const call = request({ host: "127.0.0.1", port, path, method }, (response) => {
      let body = "";
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => (body += chunk));
      response.on("end", () => {
        resolve({ status: response.statusCode, body });
      });
    });
    call.on("error", reject);
    call.end();
  });
}

describe("serveFolder", () => {
  it("serves the page of the folder on this machine only", async () => {
    expect(await get("/")).toEqual({ status: 200, body: "<p>hello</p>" });
    expect((served.server.address() as AddressInfo).address).toBe("127.0.0.1");
  });

  it.each([
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/..%5csecret.txt",
    "/%00",
    "/%zz",
    "/missing",
  ])("has nothing at %s", async (path) => {
    const answer = await get(path);
    expect(answer.status).toBe(404);
    expect(answer.body).not.toContain("secret");
  });

  it("answers no other method", async () => {
    expect((await get("/", "POST")).status).toBe(405);
  });

  it("takes another port where the wanted one is in use", async () => {
    const { port } = served.server.address() as AddressInfo;
    const second = await serveFolder(join(folder, "site"), port);
    expect(second.address).not.toBe(served.address);
    second.server.close();
  });
});
