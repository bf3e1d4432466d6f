"use strict";
// Runs in the phone's browser beside the page, and opens it where the program does not answer. Each set of
// parts is an edition with a shelf of its own, so that no page is put together of two.

const EDITION = "EDITION";
const SHELF = "page " + EDITION;
const PARTS = ["PARTS"];
const SOON = 2500; // ms: later than that the page that is kept is shown
const scope = new URL("./", self.location).pathname;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(SHELF).then((shelf) => shelf.addAll(PARTS)).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(names.filter((name) => name.startsWith("page ") && name !== SHELF).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});

async function soon(request) {
  const stop = new AbortController(), timer = setTimeout(() => stop.abort(), SOON);
  try { return await fetch(request, { signal: stop.signal, cache: "no-store" }); } finally { clearTimeout(timer); }
}
// The program's own, where it answers; else what is kept.
async function answered(request) {
  try {
    const got = await soon(request);
    if (got.ok) return got;
  } catch { /* out of reach */ }
  return (await (await caches.open(SHELF)).match(".")) || Response.error();
}
async function part(request, name) {
  return (await (await caches.open(SHELF)).match(name)) || fetch(request);
}
// A drawing is the same for as long as its address is.
async function drawn(request) {
  return (await caches.match(request)) || fetch(request);
}
self.addEventListener("fetch", (event) => {
  const { request } = event, { pathname, search } = new URL(request.url);
  if (request.method !== "GET" || !pathname.startsWith(scope)) return;
  const name = pathname.slice(scope.length);
  if (!name) event.respondWith(answered(request));
  else if (PARTS.includes(name) && (search === "?v=" + EDITION || name === "icon.svg")) event.respondWith(part(request, name));
  else if (name.startsWith("drawing/")) event.respondWith(drawn(request));
});
