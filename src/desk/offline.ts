// The service worker: keeps the page's files on the first visit, so that it opens without a connection.

interface ServiceWorkerScope {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", listener: (event: Extendable) => void): void;
  addEventListener(kind: "fetch", listener: (event: Extendable & FetchLike) => void): void;
}

interface Extendable {
  waitUntil(work: Promise<unknown>): void;
}

interface FetchLike {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}

/** Written into this file by the build: a mark of the files' contents, the file that holds that mark, and their names. */
declare const PRECACHE: {
  readonly version: string;
  readonly mark: string;
  readonly files: readonly string[];
};

const scope = self as unknown as ServiceWorkerScope;
const CACHE = `desk-${PRECACHE.version}`;

scope.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      // Past the browser's own cache, so that the files of one version belong together.
      .then((cache) => cache.addAll(PRECACHE.files.map((file) => new Request(file, { cache: "reload" }))))
      .then(() => scope.skipWaiting()),
  );
});

scope.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((keys) =>
        Promise.all(
          keys.filter((key) => key.startsWith("desk-") && key !== CACHE).map((key) => caches.delete(key)),
        ),
      )
      .then(() => scope.clients.claim()),
  );
});

/** Whether the server has other files than those that are kept: then they are fetched, and kept by the next worker. */
let isOutdated = false;

async function checkVersion(): Promise<void> {
  const response = await fetch(PRECACHE.mark, { cache: "no-store" }).catch(() => undefined);
  if (response?.ok) isOutdated = (await response.text()).trim() !== PRECACHE.version;
}

async function answer(request: Request): Promise<Response> {
  if (request.mode === "navigate") await checkVersion();
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request, { ignoreSearch: true });
  if (!isOutdated) return kept ?? fetch(request);
  return fetch(request.url, { cache: "reload" }).catch((error: unknown) => {
    if (kept) return kept;
    throw error;
  });
}

scope.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== scope.location.origin) return;
  event.respondWith(answer(request));
});
