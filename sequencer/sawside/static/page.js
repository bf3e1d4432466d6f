"use strict";
// One card at a time. Taps go into a queue kept in this page's storage, each with an id of its own,
// and leave it only when the program has answered that they are on disk.

const $ = (id) => document.getElementById(id);
const base = location.pathname;
const KEY = "taps " + base;
const WORDS = JSON.parse($("words").textContent);

let cards = null;      // {rev, unit, cards: [...]}
let stand = null;      // {version, now, units, readings, ...}
let queue = load();    // taps not yet answered
let sending = false;
let online = true;
let looking = null;    // key of a card that is looked at instead of the current one
let panel = "card";    // card, list, measure, spoil
let typed = "";        // what stands in the reading's field
let typedFor = "";     // and which reading it is for
let picture = innerWidth >= 900;
let shown = "";        // what the focus was last put on
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

// ------------------------------------------------------------------ words: all come with the page, by key
function parted(key, given) {
  return WORDS[key].split(/\{(\w+)\}/).map((text, n) => (n % 2 ? given[text] : text));
}
const t = (key, given = {}) => parted(key, given).join("");
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

// ------------------------------------------------------------------ talking to the program
async function ask(path, options = {}) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), options.method ? 60000 : 10000);
  try {
    const got = await fetch(base + path, { ...options, signal: stop.signal, cache: "no-store" });
    return { status: got.status, body: got.status === 204 ? null : await got.json() };
  } finally { clearTimeout(timer); }
}

async function look() {
  if (sending) return;
  try {
    const got = await ask("stand" + (stand ? "?known=" + stand.version : ""));
    if (sending) return;  // its answer is newer
    heard();
    if (got.status === 503) return waiting(got.body);
    if (got.body && got.status === 200) await take(got.body);
    if (queue.length) await send();
  } catch { lost(); }
}

async function take(body) {
  stand = body;
  if (!cards || cards.rev !== body.rev) {
    const got = await ask("cards");
    if (got.status === 200) cards = got.body;
  }
  draw();
}

async function send() {
  if (sending || !queue.length) return;
  sending = true;
  const batch = queue.slice();
  const now = Date.now();
  try {
    const events = batch.map(({ at, ...event }) => ({ ...event, age: Math.max(0, now - at) }));
    const got = await ask("events", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ events }),
    });
    if (got.status === 200) {
      heard();
      const known = new Map(got.body.outcomes.map((o) => [o.id, o]));
      queue = queue.filter((event) => !known.has(event.id));
      save();
      tell(batch, known);
      await take(got.body);
    } else if (got.status === 507) {
      lost(t("disk_full", { taps: waits() }));
    } else if (got.status === 400 || got.status === 413) {
      queue = queue.filter((event) => !batch.includes(event));  // it will never be understood
      save();
      say(t("left_out_tap"));
    } else {
      lost();
    }
  } catch { lost(); } finally { sending = false; }
  if (online && queue.length) send();
}

function tell(batch, known) {
  const words = [];
  for (const event of batch) {
    const outcome = known.get(event.id);
    if (!outcome) continue;
    if (event.kind === "read" || event.kind === "measure") {
      answer = { at: event.card ? event.card + "/" + event.unit : "measure", words: outcome.words.join(" ") };
      if (outcome.kept && outcome.words.length) typed = "";
    }
    words.push(...outcome.words);
  }
  say(words.join(" "));
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
  $("link").textContent = words || t("offline", { taps: queue.length ? waits() : t("go_on") });
  if ($("link").textContent + $("link").hidden !== before) draw();
}
function waiting(body) {
  const heading = document.querySelector("h1");
  heading.textContent = t(body.failed ? "no_plan" : "planning");
  let text = $("why");
  if (!text) { text = make("p", { id: "why" }); $("main").append(text); }
  text.textContent = body.failed || t("planning_why");
}

function tap(event) {
  queue.push({ id: newId(), at: Date.now(), ...event });
  save();
  draw();
  send();
}
function undo() {
  if (sending) return;
  if (queue.length) { queue.pop(); save(); say(t("undone_unsent")); draw(); return; }
  if (stand && stand.undo) { answer = null; looking = null; panel = "card"; tap({ kind: "undo", of: stand.undo[0] }); }
}

// ------------------------------------------------------------------ what is done, taps that wait included
function status(card, unit) {
  let found = (stand.units[card.k] || {})[unit.u] || "open";
  for (const event of queue) {
    if (event.card === card.k && event.unit === unit.u) {
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
function past(card) {
  const now = current();
  const place = (k) => cards.cards.findIndex((c) => c.k === k);
  return !now || place(card.k) < place(now.k);
}
const find = (key) => cards.cards.find((card) => card.k === key) || null;

// ------------------------------------------------------------------ making elements, text only
function make(tag, traits = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(traits)) {
    if (name === "on") made.addEventListener("click", value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value != null) made.setAttribute(name, value);
  }
  made.append(...children.filter((child) => child != null && child !== ""));
  return made;
}
function button(text, on, traits = {}) { return make("button", { type: "button", on, ...traits }, text); }
function say(words) {
  $("said").classList.remove("vh");
  $("said").replaceChildren(...(words ? [make("p", {}, words)] : []));
}

function figure(f) {
  const plain = [f.whole, f.top && f.top + "/" + f.bottom].filter(Boolean).join(" ");
  const parts = [make("span", { class: "vh" }, plain)];
  const seen = make("span", { "aria-hidden": "true" }, f.whole);
  if (f.top) seen.append(make("span", { class: "stack" }, make("span", { class: "over" }, f.top), make("span", { class: "under" }, f.bottom)));
  parts.push(seen, make("span", { class: "unit" }, f.unit));
  if (f.decimal) parts.push(make("span", { class: "decimal" }, " (" + f.decimal + ")"));
  return parts;
}
function numbers(big) {
  const made = make("dl", { class: "far" });
  for (const each of big || []) {
    const value = make("dd", {}, ...figure(each));
    if (each.note) value.append(make("span", { class: "note" }, each.note));
    made.append(make("div", {}, make("dt", {}, each.name), value));
  }
  return made;
}
function sign() {
  const space = "http://www.w3.org/2000/svg";
  const svg = document.createElementNS(space, "svg");
  svg.setAttribute("viewBox", "0 0 20 20");
  svg.setAttribute("aria-hidden", "true");
  const path = document.createElementNS(space, "path");
  path.setAttribute("d", "M10 1 19.5 18.5H.5ZM9 7v6h2V7Zm0 7.5v2h2v-2Z");
  path.setAttribute("fill", "#fff");
  path.setAttribute("fill-rule", "evenodd");
  svg.append(path);
  return svg;
}
// A line drawing of 24 by 24; words where nothing beside it says them.
function pictogram(path, words) {
  if (!path) return "";
  const space = "http://www.w3.org/2000/svg";
  const made = document.createElementNS(space, "svg"), line = document.createElementNS(space, "path");
  for (const [name, value] of [["class", "sign"], ["viewBox", "0 0 24 24"]]) made.setAttribute(name, value);
  if (words) { made.setAttribute("role", "img"); made.setAttribute("aria-label", words); } else made.setAttribute("aria-hidden", "true");
  line.setAttribute("d", path);
  made.append(line);
  return made;
}
const word = (one, tag) => make(tag, { class: "word" }, one.word === "NOTICE" ? null : sign(), one.called);
// One box to a signal word: told in full, a paragraph to each; in one line, run together below.
function cautions(all) {
  const made = [];
  for (const name of new Set(all.map((c) => c.word))) {
    const here = all.filter((each) => each.word === name);
    const box = make("section", { class: "caution", "aria-label": here[0].called });
    const full = here.filter((each) => each.avoidance), brief = here.filter((each) => !each.avoidance);
    if (full.length) box.append(word(here[0], "p"));
    for (const c of full) box.append(make("p", { "data-rule": c.rule }, pictogram(c.sign), make("b", {}, c.hazard), " " + c.consequence + " " + c.avoidance));
    if (brief.length) {
      const line = full.length ? make("p") : make("p", {}, word(here[0], "b"));
      for (const c of brief) line.append(" ", make("span", { "data-rule": c.rule }, pictogram(c.sign), c.hazard));
      box.append(line);
    }
    made.push(box);
  }
  return made;
}
const lines = (texts, kind = "p") => (texts || []).map((text) => make(kind, { class: "step" }, text));

const state = (name) => (name === "open" ? "" : t(name));

// ------------------------------------------------------------------ the card
function drawCard(card, live) {
  const parts = [make("h1", { tabindex: "-1" }, card.heading)];
  for (const each of card.signs) parts[0].append(" ", pictogram(each.path, each.words));
  if (!live) parts.push(make("p", { class: "wait" }, looked(card)));
  if (stand.trouble && live) parts.push(make("p", { class: "answer" }, stand.trouble));

  const left = make("div"), right = make("div");
  left.append(...cautions(card.cautions));
  if (unticked(card)) {
    left.append(make("p", { class: "wait" }, t("tick_first")));
    parts.push(left);
    return parts;
  }
  if (card.kind === "set") {
    const moves = stand.moves && stand.moves.card === card.k ? stand.moves.moves : card.moves;
    left.append(make("ol", {}, ...lines(moves, "li")));
    right.append(numbers(card.big), ...card.how.map((t) => make("p", {}, t)));
  } else if (card.kind === "power" || card.kind === "leave") {
    if (card.units.some((unit) => unit.rule)) left.append(ticks(card, live));
    left.append(make("ul", {}, ...card.checks.map((text) => make("li", {}, text))));
  } else {
    if (card.big) left.append(numbers(card.big));
    left.append(...lines(card.how));
  }
  if (card.drawing) right.append(...drawing(card));
  const pieces = card.units.filter((unit) => unit.p == null);
  if (["work", "bench"].includes(card.kind)) right.append(grid(card, pieces, live));
  const open = live ? card.units.find((unit) => status(card, unit) === "open") : null;
  const measuring = open && open.p != null;
  if (measuring) parts.push(measure(card, open));
  if (!live) right.append(...again(card));
  parts.push(make("div", { class: "two" }, left, right));
  if (live) parts.push(...besides(card, open));
  return parts;
}

// A cut is not shown before what its setup asks for is ticked.
const unticked = (card) => card.after.some((key) => !find(key) || !complete(find(key)));
const leftOut = (card) => card.units.some((unit) => status(card, unit) !== "done");
function looked(card) {
  if (!past(card)) return t("later");
  return t(leftOut(card) ? "left_out_here" : "all_done");
}

function drawing(card) {
  const text = t(picture ? "hide_drawing" : "show_drawing");
  const parts = [button(text, () => { picture = !picture; draw(); }, { class: "wide", "aria-expanded": String(picture) })];
  if (picture) {
    const big = (card.big || []).map((b) => b.name + " " + [b.whole, b.top && b.top + "/" + b.bottom].filter(Boolean).join(" ") + b.unit);
    parts.push(make("img", { class: "drawing", alt: t("drawing", { numbers: big.join(", ") }), src: base + "drawing/" + card.k + ".svg" }));
  }
  return parts;
}

function ticks(card, live) {
  const made = make("div", { class: "pieces" });
  for (const unit of card.units.filter((each) => each.rule)) {
    const done = status(card, unit) === "done";
    made.append(button(unit.tick, () => tap({ kind: "tick", card: card.k, unit: unit.u }), {
      "aria-pressed": String(done), disabled: done || !live, "data-rule": unit.rule,
    }));
    if (done) made.lastChild.append(make("span", { class: "state" }, " " + t("done")));
  }
  return made;
}

function grid(card, pieces, live) {
  const made = make("div", { class: "pieces" });
  for (const unit of pieces) {
    const stands = status(card, unit);
    const note = (card.notes || {})[unit.u];
    const face = button("", () => tap({ kind: "tick", card: card.k, unit: unit.u }), {
      "aria-pressed": String(stands === "done"),
      disabled: ["spoiled", "waits", "done"].includes(stands) || (!live && !past(card)),
    });
    face.append(make("span", { class: "mark" }, capital(unit.name)));
    if (note) face.append(make("span", {}, note + " "));
    if (stands !== "open") face.append(make("span", { class: "state" }, state(stands)));
    made.append(face);
  }
  return made;
}

function goal(card, unit) {
  const point = card.points[unit.p];
  const parts = [make("h2", {}, t("measure", { what: unit.says }))];
  if (!unit.spread) {
    const sure = (figure) => make("b", {}, figure + cards.sign);
    const says = point.by_fit ? [point.tool]
      : point.at_most ? parted("at_most", { tool: point.tool, high: sure(point.high) })
      : parted("target", { tool: point.tool, target: sure(point.target), low: point.low, high: point.high });
    parts.push(make("p", { class: "goal step" }, ...says));
  }
  if (point.moved) parts.push(make("p", {}, point.moved));
  if (point.feel) parts.push(make("p", {}, point.feel));
  return parts;
}

function keypad(field) {
  const keys = make("div", { class: "keys", role: "group", "aria-label": t("keypad") });
  const put = (text) => { field.setRangeText(text, field.selectionStart, field.selectionEnd, "end"); typed = field.value; };
  for (const key of ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "/"]) keys.append(button(key, () => put(key)));
  const other = cards.unit === "mm" ? " in" : " mm";
  keys.append(button("␣", () => put(" "), { "aria-label": t("space") }), button(other.trim(), () => put(other)));
  keys.append(button("⌫", () => {
    if (field.selectionStart === field.selectionEnd && field.selectionStart > 0) field.setSelectionRange(field.selectionStart - 1, field.selectionEnd);
    put("");
  }, { "aria-label": t("delete") }));
  return keys;
}

function entry(name, at, enter) {
  if (typedFor !== at) { typed = ""; typedFor = at; }
  const field = make("input", { type: "text", inputmode: "none", autocomplete: "off", id: "field", "aria-label": t("field", { what: name, unit: cards.unit }), maxlength: "40" });
  field.value = typed;
  field.addEventListener("input", () => { typed = field.value; });
  field.addEventListener("keydown", (event) => { if (event.key === "Enter") { event.preventDefault(); enter(field); } });
  return [field, keypad(field), button(t("enter"), () => enter(field), { class: "main" })];
}

function measure(card, unit) {
  const point = card.points[unit.p];
  const at = card.k + "/" + unit.u;
  const reading = (stand.readings[card.k] || {})[unit.u];
  const box = make("section", { class: "measure", "aria-label": t("measure", { what: unit.says }) });
  box.append(...goal(card, unit));
  const words = answer && answer.at === at ? answer.words : reading && reading.verdict === "adjust" ? reading.said : "";
  if (words) box.append(make("p", { class: "answer" }, words));
  const read = (more) => tap({ kind: "read", card: card.k, unit: unit.u, ...more });
  const enter = (field) => {
    if (!field.value.trim()) { say(t("enter_first")); field.focus(); return; }
    answer = { at, words: "" };
    read({ text: field.value.trim() });
  };
  if (queue.some((event) => event.kind === "read" && event.card === card.k && event.unit === unit.u)) {
    box.append(make("p", { class: "wait" }, t(online ? "moment" : "answer_later")));
    return box;
  }
  if (!point.by_fit) box.append(...entry(unit.says, at, enter));
  if (point.felt && !point.by_fit) box.append(make("p", {}, t("or_feel")));
  if (point.felt) {
    box.append(button(t("tight"), () => read({ feel: "tight" }), { class: "wide" }),
      button(t("loose"), () => read({ feel: "loose" }), { class: "wide" }));
  }
  if (point.felt || point.by_fit) box.append(button(t("fits"), () => read({ feel: "fits" }), { class: "wide" }));
  if (point.may_stay && reading && reading.verdict === "adjust" && /^[\d.]+$/.test(reading.value)) {
    box.append(button(t("keep", { text: reading.value }), () => read({ text: reading.value, keep: true }), { class: "wide" }));
  }
  if (!point.turns && words && typed) {
    box.append(button(t("really", { text: typed }), () => read({ text: typed, sure: true }), { class: "wide" }));
  }
  return box;
}

function again(card) {
  const parts = [];
  for (const unit of card.units) {
    const reading = (stand.readings[card.k] || {})[unit.u];
    const missed = past(card) && ["skipped", "open"].includes(status(card, unit));
    if (unit.p == null || !(reading || missed)) continue;
    const name = unit.says;
    const value = reading ? reading.value : t("not_measured");
    const values = reading ? reading.before.join(", ") : "";
    parts.push(make("p", {}, t(values ? "had_before" : "had", { what: name, value, values })));
    const at = card.k + "/" + unit.u;
    if (typedFor === at) {
      if (answer && answer.at === at && answer.words) parts.push(make("p", { class: "answer" }, answer.words));
      parts.push(...entry(name, at, (field) => {
        if (!field.value.trim()) return;
        answer = { at, words: "" };
        tap({ kind: "read", card: card.k, unit: unit.u, text: field.value.trim() });
      }));
    } else {
      parts.push(button(t(reading ? "measure_again" : "measure", { what: name }), () => { typedFor = at; typed = ""; answer = null; draw(); $("field").focus(); }, { class: "wide" }));
    }
  }
  return parts;
}

function besides(card, open) {
  const parts = [];
  if (open && ["work", "test", "bench"].includes(card.kind)) {
    const text = open.p != null ? t("skip_measuring", { what: open.says }) : open.of ? t("skip", { what: open.name }) : t("skip_this");
    parts.push(button(text, () => tap({ kind: "skip", card: card.k, unit: open.u }), { class: "wide" }));
  }
  if (["work", "test", "bench"].includes(card.kind) && !card.stock) parts.push(button(t("a_piece_is_spoiled"), () => go("spoil"), { class: "wide" }));
  return parts;
}

// The one big button: whatever is next here.
function mainButton(card) {
  const open = card.units.find((unit) => status(card, unit) === "open");
  if (!open || open.p != null || open.rule) return null;
  const key = "main_" + card.kind;
  return button(key in WORDS ? t(key) : t("tick", { what: open.name }),
    () => tap({ kind: "tick", card: card.k, unit: open.u }), { class: "main" });
}

// ------------------------------------------------------------------ the other panels
function go(to) { panel = to; answer = null; shown = ""; draw(); }

function drawList() {
  const now = current();
  const rows = make("div", { class: "rows" });
  let passed = Boolean(now);
  for (const card of cards.cards) {
    if (now && card.k === now.k) passed = false;
    if (!card.n && !["standing", "remake"].includes(card.kind)) continue;
    const here = now && card.k === now.k;
    const says = here ? t("next") : !passed && now ? "" : t(leftOut(card) ? "something_left_out" : "done");
    rows.append(button(says ? t("entry", { what: card.row, state: says }) : card.row,
      () => { looking = here ? null : card.k; go("card"); }, { class: here ? "here" : "", "aria-current": here ? "step" : null }));
  }
  const parts = [make("h1", { tabindex: "-1" }, t("whole_list"))];
  if (stand.gone) parts.push(make("p", { class: "step" }, stand.gone));
  for (const each of stand.spoiled) parts.push(make("p", {}, each.hint));
  parts.push(button(t("measure_kerf"), () => go("measure"), { class: "wide" }), rows);
  for (const text of cards.proven) parts.push(make("p", {}, text));
  return parts;
}

function drawMeasure() {
  const parts = [make("h1", { tabindex: "-1" }, t("measure_kerf"))];
  if (answer && answer.at === "measure" && answer.words) parts.push(make("p", { class: "answer" }, answer.words));
  for (const each of stand.measurable) {
    const at = "m " + each.what + each.name;
    parts.push(make("h2", {}, each.says), make("p", {}, t("taken_as", { value: each.taken })));
    if (typedFor === at) {
      parts.push(...entry(each.says, at, (field) => {
        if (!field.value.trim()) return;
        answer = { at: "measure", words: "" };
        tap({ kind: "measure", what: each.what, name: each.name, text: field.value.trim() });
      }));
    } else {
      parts.push(button(t("enter_measured"), () => { typedFor = at; typed = ""; draw(); $("field").focus(); }, { class: "wide" }));
    }
  }
  return parts;
}

function drawSpoil() {
  const parts = [make("h1", { tabindex: "-1" }, t("which_spoiled"))];
  const here = current(), near = new Set(here ? here.units.map((unit) => unit.of) : []);
  const marks = new Set();
  for (const card of cards.cards) if (card.kind === "work") for (const unit of card.units) if (!unit.of.includes("#")) marks.add(unit.of);
  const blanks = new Map(cards.blanks.map((each) => [each.mark, each.says]));
  const all = [...Array.from(marks).filter(Boolean).sort(), ...blanks.keys()];
  const choice = (mark, says) => {
    const gone = stand.spoiled.some((each) => each.mark === mark);
    const stands = gone ? t("again_later") : says;
    return button(stands ? t("entry", { what: mark, state: stands }) : mark, () => { tap({ kind: "spoil", mark }); go("card"); }, { disabled: gone });
  };
  for (const [title, wanted] of [[t("at_this_step"), true], [t("elsewhere"), false]]) {
    const found = all.filter((mark) => near.has(mark) === wanted);
    if (!found.length) continue;
    parts.push(make("h2", {}, title), make("div", { class: "rows" }, ...found.map((mark) => choice(mark, blanks.get(mark)))));
  }
  return parts;
}

function drawEnd() {
  const left = [];
  for (const card of cards.cards) {
    for (const unit of card.units) {
      const stands = status(card, unit);
      if (stands === "done") continue;
      const what = unit.tick || unit.says || unit.name;
      const where = card.n ? t("had", { what: card.n, value: what }) : what;
      left.push(make("li", {}, t("entry", { what: where, state: state(stands) || t("not_done") })));
    }
  }
  const parts = [make("h1", { tabindex: "-1" }, t(left.length ? "end_left_out" : "end"))];
  if (left.length) parts.push(make("ul", {}, ...left));
  return parts;
}

// ------------------------------------------------------------------ drawing it all
function draw() {
  if (!cards || !stand) return;
  const now = current();
  if (looking && (!find(looking) || (now && looking === now.k))) looking = null;
  const card = looking ? find(looking) : now;
  const held = document.activeElement;
  const caret = held && held.id === "field" ? [held.selectionStart, held.selectionEnd] : null;
  const inside = held && held !== document.body && $("main").contains(held);
  const trace = inside && held.tagName !== "H1" ? held.textContent : null;
  let parts, foot = null, mark = panel, flows = false;
  if (panel === "list") parts = drawList();
  else if (panel === "measure") parts = drawMeasure();
  else if (panel === "spoil") parts = drawSpoil();
  else if (!card) { parts = drawEnd(); mark = "end"; }
  else {
    parts = drawCard(card, !looking);
    const open = card.units.find((unit) => status(card, unit) === "open");
    mark = card.k + (open && open.p != null ? " " + open.u : "") + (looking ? " looked at" : "");
    foot = looking ? null : mainButton(card);
    // Where the numbers and the cautions have to be read first, the button stands after them.
    flows = ["standing", "guard", "set", "power", "leave", "remake"].includes(card.kind);
  }
  if (panel !== "card" || looking) {
    foot = button(now && now.n ? t("back_to", { where: now.n }) : t("back"), () => { looking = null; typedFor = ""; go("card"); }, { class: "main" });
  }
  $("main").replaceChildren(...parts.filter(Boolean));
  $("foot").replaceChildren(...(foot ? [foot] : []));
  $("foot").className = flows && !looking && panel === "card" ? "after" : "";
  // What stands in the card need not stand above it as well; it is still read out.
  const told = document.querySelector(".measure .answer");
  $("said").classList.toggle("vh", Boolean(told) && told.textContent === $("said").textContent);
  $("list").setAttribute("aria-expanded", String(panel === "list"));
  const last = queue.length ? t("undo_unsent") : stand.undo ? stand.undo[1] : "";
  $("undo").disabled = !last;
  $("undo").setAttribute("aria-label", last ? t("undo_what", { what: last }) : t("undo"));
  document.title = t("window", { what: card && panel === "card" ? card.heading : t("list") });
  if (caret && $("field")) {
    $("field").focus();
    $("field").setSelectionRange(...caret);
  } else if (mark !== shown || (inside && held.tagName === "H1")) {
    const heading = document.querySelector("h1");
    heading.focus({ preventScroll: true });
    if (mark !== shown) scrollTo(0, 0);
  } else if (trace !== null) {
    const same = Array.from($("main").querySelectorAll("button")).find((b) => b.textContent === trace && !b.disabled);
    const next = same || document.querySelector(".pieces button:not(:disabled)") || document.querySelector("#foot button") || document.querySelector("h1");
    next.focus({ preventScroll: true });
  }
  shown = mark;
}

$("list").addEventListener("click", () => { looking = null; go(panel === "card" ? "list" : "card"); });
$("undo").addEventListener("click", undo);
addEventListener("online", look);
addEventListener("offline", () => lost());
document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
setInterval(() => { if (!document.hidden) look(); }, 1500);
look();
