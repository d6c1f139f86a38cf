// Keeps the saw view open without a signal: its page and files, as one version, come from here.
// The service writes VERSION and FILES in front of this text.

const NAME = `scantling-saw-${VERSION}`;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(NAME).then((cache) => cache.addAll(FILES)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(names.filter((name) => name.startsWith("scantling-saw-") && name !== NAME).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
  // Every plan has the same page; its figures are in the phone's own store.
  if (event.request.mode === "navigate" && url.pathname.startsWith("/saw/")) {
    event.respondWith(caches.match("/saw/any", { cacheName: NAME }).then((found) => found ?? fetch(event.request)));
  } else if (url.pathname.startsWith("/web/")) {
    event.respondWith(caches.match(url.pathname, { cacheName: NAME }).then((found) => found ?? fetch(event.request)));
  }
});
