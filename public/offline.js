// Keeps the app for visits without a network: a service worker.
//
// `.ci/offline` puts the version of the build and the list of its files in the place of the two names below. Every
// version has a cache of its own, filled before it takes over, so that a page is never made of two versions. Of older
// versions the last is kept: pages that are still open may want parts of it.
const VERSION = "@version";
const FILES = ["@files"];
const PREFIX = "headwright-files-";
const CACHE = PREFIX + VERSION;

self.addEventListener("install", (event) => {
  const whole = FILES.map((file) => new Request(file, { cache: "no-cache" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(whole)));
});

self.addEventListener("activate", (event) => {
  const tidy = async () => {
    const ours = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
    await Promise.all(ours.slice(0, -1).map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

// A page asks a newer version that waits to take over.
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  const kept = async () => {
    const own = await caches.open(CACHE);
    const page = ["./", "./index.html"].some((name) => url.pathname === new URL(name, self.location).pathname);
    const found = page
      ? await own.match("./")
      : (await own.match(request, { ignoreSearch: true })) ?? (await caches.match(request, { ignoreSearch: true }));
    return found ?? fetch(request);
  };
  event.respondWith(kept());
});
