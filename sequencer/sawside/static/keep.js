"use strict";
// What this phone keeps where the page came over https: the page (worker.js), the plan with all drawings as
// it was last heard of, the taps (talk.js); and the screen awake. Elsewhere nothing of it is there.

const keeps = location.protocol === "https:" && "serviceWorker" in navigator && "caches" in window;
const SHELF = "plan " + base;
let isKept = false;      // whether the page would open here without the program
let keptRev = "";
let keeping = Promise.resolve();
let awake = null;

const clock = (time) => (time ? new Date(time).toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" }) : "");

// The cards, then what is done, which names the cards that it goes with; then what else was there goes.
function keepPlan() {
  if (!keeps || !stand || !cards) return;
  const done = { ...stand, kept: true, heard: heardAt }, all = cards;
  keeping = keeping.then(() => put(done, all)).catch(() => { isKept = false; });
}
async function put(done, all) {
  const shelf = await caches.open(SHELF), named = base + "kept/" + all.rev;
  const json = (body) => new Response(JSON.stringify(body), { headers: { "Content-Type": "application/json" } });
  if (!(await shelf.match(named))) await shelf.put(named, json(all));
  await shelf.put(base + "kept/stand", json(done));
  if (isKept && keptRev === all.rev) return;
  const drawings = [...new Set(all.cards.filter((card) => card.drawing).map((card) => base + "drawing/" + card.drawing + ".svg?" + all.rev))];
  const wanted = new Set([named, base + "kept/stand", ...drawings]);
  for (const request of await shelf.keys()) {
    const { pathname, search } = new URL(request.url);
    if (!wanted.delete(pathname + search)) await shelf.delete(request);
  }
  for (const name of drawings) {
    if (!wanted.has(name)) continue;
    const got = await fetch(name, { cache: "no-store" });
    if (got.ok) await shelf.put(name, got);
  }
  const worker = await navigator.serviceWorker.getRegistration();
  keptRev = all.rev;
  isKept = Boolean(worker && worker.active);
}
// The plan as it was kept, where the program has not answered since the page was opened.
async function restore() {
  if (!keeps) return;
  try {
    const shelf = await caches.open(SHELF), found = await shelf.match(base + "kept/stand");
    const done = found && await found.json(), named = done && await shelf.match(base + "kept/" + done.rev);
    if (!named || stand) return;
    const all = await named.json();
    if (stand || all.rev !== done.rev) return;
    cards = all;
    stand = done;
    isKept = true;
    heardAt = done.heard;
    lost();
    draw();
  } catch { /* nothing is kept here */ }
}

async function stayAwake() {
  if (!keeps || !navigator.wakeLock || document.hidden || (awake && !awake.released)) return;
  try { awake = await navigator.wakeLock.request("screen"); } catch { /* the phone does not let it */ }
}

// The browser's own offer to put the page on the home screen, taken from List.
let offer = null;
addEventListener("beforeinstallprompt", (event) => { event.preventDefault(); offer = event; });
function installing() {
  return offer ? button(t("install"), () => { offer.prompt(); offer = null; go("list"); }, { class: "wide" }) : "";
}

function keepPage() {
  if (!keeps) return;
  navigator.serviceWorker.register("worker.js").then(() => navigator.serviceWorker.ready).then(keepPlan, () => { /* the certificate is not trusted here yet */ });
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
  document.addEventListener("visibilitychange", stayAwake);
  stayAwake();
}
