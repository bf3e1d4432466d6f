"use strict";
// Taps go into a queue kept in this page's storage, each with an id of its own, and leave it only when
// the program has answered that they are on disk. What others tick is pushed by the program.

const base = location.pathname;
const KEY = "taps " + base;
const SLOW = 2000;     // ms after which an answer is missed, and told so
const GIVEN_UP = 8000; // ms after which a request that hangs is sent again, with the same ids

let cards = null;      // {rev, unit, cards: [...]}
let stand = null;      // {version, now, units, readings, ...}
let queue = load();    // taps not yet answered
let sending = false;
let sent = [];         // what of the queue is on its way
let online = true;
let answer = null;     // {at, words}: the last answer to a reading

function load() {
  try { return JSON.parse(localStorage.getItem(KEY)) || []; } catch { return []; }
}
function save() {
  try { localStorage.setItem(KEY, JSON.stringify(queue)); } catch { /* kept in memory alone */ }
}
function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

async function ask(path, options = {}) {
  const stop = new AbortController();
  const slow = setTimeout(() => lost(), SLOW);
  const timer = setTimeout(() => stop.abort(), GIVEN_UP);
  try {
    const got = await fetch(base + path, { ...options, signal: stop.signal, cache: "no-store" });
    return { status: got.status, body: got.status === 204 ? null : await got.json() };
  } finally { clearTimeout(slow); clearTimeout(timer); }
}
const posted = (body) => ({ method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });

async function look() {
  if (sending) return;
  try {
    const got = await ask("stand" + (stand ? "?known=" + stand.version : ""));
    if (sending) return;  // its answer is newer
    if (got.status === 503) return waiting(got.body);
    heard();
    if (got.body && got.status === 200) await take(got.body);
    if (queue.length) await send();
  } catch { lost(); }
}

async function take(body) {
  if (stand && body.version < stand.version) return;  // overtaken on the way
  const first = !stand;
  stand = body;
  if (!cards || cards.rev !== body.rev) {
    const got = await ask("cards");
    if (got.status === 200) cards = got.body;
  }
  draw();
  if (first && body.news) say(body.news);
}

async function send() {
  if (sending || !queue.length) return;
  sending = true;
  sent = queue.slice();
  const now = Date.now();
  try {
    const events = sent.map(({ at, ...event }) => ({ ...event, age: Math.max(0, now - at) }));
    const got = await ask("events", posted({ events }));
    if (got.status === 200) {
      heard();
      const known = new Map(got.body.outcomes.map((o) => [o.id, o]));
      queue = queue.filter((event) => !known.has(event.id));
      save();
      const batch = sent;
      sent = [];
      const words = answered(batch, known);
      await take(got.body);
      say(words);
    } else if (got.status === 507) {
      lost(t("disk_full", { taps: waits() }));
    } else if (got.status === 400 || got.status === 413) {
      queue = queue.filter((event) => !sent.includes(event));  // it will never be understood
      save();
      say(t("left_out_tap"));
    } else {
      lost();
    }
  } catch { lost(); } finally { sending = false; sent = []; }
  if (online && queue.length) send();
}

function answered(batch, known) {
  const words = [];
  for (const event of batch) {
    const outcome = known.get(event.id);
    if (!outcome) continue;
    if (event.kind === "read" || event.kind === "measure") {
      answer = { at: event.card ? event.card + "/" + event.unit : "measure", words: outcome.words.join(" ") };
      if (outcome.kept && outcome.words.length) typed = "";
      if (outcome.kept && again.at === answer.at) again.at = typedFor = "";
    }
    words.push(...outcome.words);
  }
  return words.join(" ");
}

function waits() {
  return queue.length === 1 ? t("tap_waits") : t("taps_wait", { n: queue.length });
}
function heard() {
  if (online && $("link").hidden) return;
  online = true;
  $("link").hidden = true;
  draw();
}
function lost(words) {
  const before = $("link").textContent + $("link").hidden;
  online = false;
  $("link").hidden = false;
  // Numbers that were changed at the saw are on no printed sheet.
  const sheet = t(stand && stand.gone ? "sheet_differs" : "sheet_same");
  $("link").textContent = words || t("offline", { taps: queue.length ? waits() : t("go_on"), sheet });
  if ($("link").textContent + $("link").hidden !== before) draw();
}
function waiting(body) {
  document.querySelector("h1").textContent = t(body.failed ? "no_plan" : "planning");
  $("main").replaceChildren(make("p", { id: "why" }, body.failed || t("planning_why")));
}

function tap(event) {
  queue.push({ id: newId(), at: Date.now(), ...event });
  save();
  draw();
  send();
}
// What is not sent yet is taken out of the queue; what is on its way, or on disk, is undone there. Each
// undo asked for before its answer goes one tap farther back.
function undone() {
  const asked = new Set(queue.filter((event) => event.kind === "undo").map((event) => event.of));
  const waiting = queue.filter((event) => event.kind !== "undo" && !asked.has(event.id));
  if (waiting.length) return { id: waiting[waiting.length - 1].id, queued: waiting[waiting.length - 1] };
  const [id, words] = (stand && stand.undos || []).find(([id]) => !asked.has(id)) || [];
  return id ? { id, words } : null;
}
function undo() {
  const last = undone();
  if (!last) return;
  answer = null; looking = null; panel = "card";
  if (last.queued && !sent.includes(last.queued)) {
    queue = queue.filter((event) => event !== last.queued);
    save();
    say(t("undone_unsent"));
    draw();
    return;
  }
  tap({ kind: "undo", of: last.id });
}

// What is done, taps that wait included.
function status(card, unit) {
  let found = (stand.units[card.k] || {})[unit.u] || "open";
  const taken = new Set(queue.filter((event) => event.kind === "undo").map((event) => event.of));
  for (const event of queue) {
    if (event.card === card.k && event.unit === unit.u && !taken.has(event.id)) {
      if (event.kind === "tick") found = "done";
      if (event.kind === "skip") found = "skipped";
    }
  }
  return found;
}
const complete = (card) => card.units.every((unit) => status(card, unit) !== "open");
function current() {
  const from = cards.cards.findIndex((card) => card.k === stand.now);
  if (from < 0) return null;
  return cards.cards.slice(from).find((card) => !complete(card)) || null;
}
const place = (k) => cards.cards.findIndex((c) => c.k === k);
function past(card) {
  const now = current();
  return !now || place(card.k) < place(now.k);
}
const find = (key) => cards.cards.find((card) => card.k === key) || null;

// Pushed: one line a change, with its number. Where it breaks off, the page asks by itself.
function listen() {
  const live = new EventSource(base + "live");
  live.addEventListener("message", (event) => { if (!stand || Number(event.data) > stand.version) look(); });
  live.addEventListener("open", () => { if (!online) look(); });
}
