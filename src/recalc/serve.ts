import { createServer, type Server } from "node:http";
import { normalize } from "node:path";
import { answerFiles, OWN_PAGE } from "./answer-files";

/**
 * Serves a folder on the loopback address, on `port` or where that is taken on any free one.
 *
 * @returns the server and its address
 */
export async function serveFolder(
  folder: string,
  port: number,
): Promise<{ readonly server: Server; readonly address: string }> {
  const server = createServer(answerFiles(normalize(folder), OWN_PAGE));
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
