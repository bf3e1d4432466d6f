"use strict";
// Taps go into a queue kept in this page's storage, each with an id of its own, and leave it only when
// the program has answered that they are on disk. What others tick is pushed by the program.

const base = location.pathname;
const KEY = "taps " + base;  // and behind it each tap's number: two pages of one phone lose none of each other's
const SLOW = 2000;     // ms after which an answer is missed, and told so
const GIVEN_UP = 8000; // ms after which a request that hangs is sent again, with the same ids
const MANY = 100;      // taps in one request

let cards = null;      // {rev, unit, cards: [...]}
let stand = null;      // {version, now, units, readings, ...}
let queue = load();    // taps not yet answered
let sending = false;
let many = MANY;       // one at a time once a request was not understood: what is wrong goes alone
let sent = [];         // what of the queue is on its way
let online = true;
let heardAt = 0;       // when the program last answered
let answer = null;     // {at, words}: the last answer to a reading

function load() {
  const found = [];
  try {
    for (let n = 0; n < localStorage.length; n += 1) {
      const key = localStorage.key(n);
      const event = key.startsWith(KEY) && JSON.parse(localStorage.getItem(key));
      if (event && event.id) found.push({ key, event });
    }
  } catch { /* nothing is kept here */ }
  return found.sort((a, b) => (a.key < b.key ? -1 : 1)).map((each) => each.event);
}
// In the order they were tapped, whatever the clock says.
function keepTap(event) {
  const last = load().reduce((most, each) => Math.max(most, each.nth || 0), 0);
  event.nth = last + 1;
  try { localStorage.setItem(KEY + String(event.nth).padStart(9, "0") + event.id, JSON.stringify(event)); } catch { /* kept in memory alone */ }
}
function drop(events) {
  queue = queue.filter((event) => !events.includes(event));
  try { for (const event of events) localStorage.removeItem(KEY + String(event.nth).padStart(9, "0") + event.id); } catch { /* as above */ }
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
    const got = await ask("stand" + (stand && !stand.kept ? "?known=" + stand.known : ""));
    if (sending) return;  // its answer is newer
    if (got.status === 503) return stand ? null : waiting(got.body);
    heard();
    if (got.body && got.status === 200) await take(got.body);
    if (queue.length) await send();
  } catch { lost(); }
}

async function take(body) {
  const overtaken = () => stand && !stand.kept && body.version < stand.version;
  if (overtaken()) return;
  // Cards and what is done of them are shown together, and of one edition.
  if (!cards || !stand || stand.kept || cards.rev !== body.rev) {
    const got = await ask("cards");
    if (got.status !== 200 || overtaken()) return;
    if (got.body.rev !== body.rev) return look();  // changed meanwhile
    cards = got.body;
  }
  const first = !stand || stand.kept;
  stand = body;
  keepPlan();
  draw();
  if (first) opened();
  if (first && body.news) say(body.news);
  if (body.offered && body.offered !== askedFor) lookAtEdit();
}

async function send() {
  if (sending || !queue.length) return;
  sending = true;
  sent = queue.slice(0, many);
  const now = Date.now();
  try {
    const events = sent.map(({ at, nth, good, ...event }) => ({ ...event, age: Math.max(0, now - at) }));
    const got = await ask("events", posted({ events }));
    if (got.status === 200) {
      heard();
      const known = new Map(got.body.outcomes.map((o) => [o.id, o]));
      const batch = sent;
      drop(batch.filter((event) => known.has(event.id)));
      many = MANY;
      sent = [];
      const words = answered(batch, known);
      await take(got.body);
      say(words);
    } else if (got.status === 507) {
      lost(t("disk_full", { taps: waits() }));
    } else if (got.status === 400 || got.status === 413) {
      if (sent.length > 1) many = 1;
      else {
        drop(sent);  // it will never be understood
        say(t("left_out_tap"));
      }
    } else {
      lost();
    }
  } catch { lost(); } finally { sending = false; sent = []; }
  if (online && queue.length) send();
}

function answered(batch, known) {
  const words = [];
  let refused = 0;
  for (const [n, event] of batch.entries()) {
    const outcome = known.get(event.id);
    if (!outcome) continue;
    // What waited and went well was told then; a correction that another reading came after is made already.
    const after = batch.slice(n + 1);
    const old = event.good ? after.length : after.some((each) => each.kind === "read" && each.card === event.card && each.unit === event.unit);
    if (old && outcome.kept) continue;
    if (event.kind === "read" || event.kind === "measure") {
      answer = { at: event.card ? event.card + "/" + event.unit : "measure", words: outcome.words.join(" ") };
      if (outcome.kept && outcome.words.length) typed = "";
      if (outcome.kept && again.at === answer.at) again.at = typedFor = "";
    }
    words.push(...outcome.words);
    if (!outcome.kept) refused += 1;
  }
  // Many at once may have waited for something that was changed elsewhere.
  if (refused > 1) words.unshift(t("not_counted", { n: refused }));
  return Array.from(new Set(words)).join(" ");
}

function waits() {
  return queue.length === 1 ? t("tap_waits") : t("taps_wait", { n: queue.length });
}
function heard() {
  heardAt = Date.now();
  if (online && $("link").hidden) return;
  online = true;
  $("link").hidden = true;
  draw();
}
function lost(words) {
  if (!stand) restore();
  const before = $("link").textContent + $("link").hidden + online;
  online = false;
  // Where the plan is kept, being without the program is nothing to stop for: the heading says so.
  $("link").hidden = Boolean(stand && isKept && !words);
  // Numbers that were changed at the saw are on no printed sheet.
  const sheet = t(stand && stand.gone ? "sheet_differs" : "sheet_same");
  $("link").textContent = words || t("offline", { taps: queue.length ? waits() : t("go_on"), sheet });
  if ($("link").textContent + $("link").hidden + online !== before) draw();
}
function waiting(body) {
  document.querySelector("h1").textContent = t(body.failed ? "no_plan" : "planning");
  $("main").replaceChildren(make("p", { id: "why" }, body.failed || t("planning_why")));
}

function tap(event) {
  const made = { id: newId(), at: Date.now(), ...event };
  queue.push(made);
  keepTap(made);
  stayAwake();
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
    drop([last.queued]);
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
      // Without the program a reading that is good without a doubt counts until it can say so itself.
      if (event.kind === "read" && !online) found = event.good ? "done" : "open";
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
  // Broken off and there again: the program may have been started anew, with other files.
  let broken = false;
  live.addEventListener("error", () => { broken = true; });
  live.addEventListener("open", () => { if (broken || !online) look(); broken = false; });
}
