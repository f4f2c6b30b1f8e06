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

/** Written into this file by the build: a mark of the files' contents, and their names. */
declare const PRECACHE: { readonly version: string; readonly files: readonly string[] };

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

scope.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== scope.location.origin) return;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(request, { ignoreSearch: true }))
      .then((kept) => kept ?? fetch(request)),
  );
});
