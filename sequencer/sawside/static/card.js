"use strict";
// What stands on each kind of card: its blocks in their order, and what goes on from it.

const state = (name) => (name === "open" ? "" : t(name));
const lines = (texts, kind = "p") => (texts || []).map((text) => make(kind, { class: "step" }, text));

// A cut is not shown before what its setup asks for is ticked.
const unticked = (card) => card.after.some((key) => !find(key) || !complete(find(key)));
const leftOut = (card) => card.units.some((unit) => status(card, unit) !== "done");
function looked(card) {
  if (!past(card)) return t("later");
  return t(leftOut(card) ? "left_out_here" : "all_done");
}

const drawingOf = (card) => base + "drawing/" + card.drawing + ".svg?" + cards.rev;
// The one place where the picture of a card is chosen.
function pictureOf(card) {
  if (!card.drawing) return null;
  const told = (card.big || []).map((b) => b.name + " " + plain(b) + b.unit).join(", ");
  return make("img", { class: "drawing", alt: t("drawing", { numbers: told }), src: drawingOf(card) });
}

// {before, body, last, picture, foot}: before is read before body, on screens of its own where there is
// not room for all; last never stands apart from the big button.
function faceOf(card, live) {
  const open = live ? card.units.find((unit) => status(card, unit) === "open") : null;
  const face = { before: inFull(card.cautions), body: [], last: inBrief(card.cautions), picture: null, foot: null };
  if (!live) face.before.unshift(make("p", { class: "wait" }, looked(card)));
  if (stand.trouble && live) face.before.unshift(make("p", { class: "answer" }, stand.trouble));
  if (unticked(card)) {
    face.last.push(make("p", { class: "wait" }, t("tick_first")));
    return face;
  }
  if (!live && again.at.startsWith(card.k + "/")) {
    const taken = retaken(card);
    if (taken) return { ...face, before: [], last: taken };
  }
  if (open && open.p != null) {
    const told = answerTo(card, open);
    return told ? { ...face, before: [], body: told.blocks, last: [], foot: told.foot } : { ...face, before: [], last: measure(card, open), foot: feels(card, open) };
  }
  face.picture = pictureOf(card);
  if (card.kind === "set") {
    const moves = stand.moves && stand.moves.card === card.k ? stand.moves.moves : card.moves;
    face.last.push(make("ol", {}, ...lines(moves, "li")), numbers(card.big), make("p", {}, card.how.join(" ")));
  } else if (card.kind === "power" || card.kind === "leave") {
    if (card.units.some((unit) => unit.rule)) face.before.push(...ticked(card, live));
    face.last.push(make("ul", { class: "checks" }, ...lines(card.checks, "li")));
  } else {
    const cut = ["work", "bench"].includes(card.kind);
    if (card.big) face.last.unshift(numbers(card.big, true));
    (card.kind === "bench" ? face.body : face.last).push(...lines(card.how));
    if (cut) face.last.push(...grid(card, card.units.filter((unit) => unit.p == null), live, open));
  }
  if (!live) face.last.push(...again(card));
  else face.foot = mainButton(card, open);
  return face;
}

// What the rules of safety ask for before power is on: a tick each.
function ticked(card, live) {
  return card.units.filter((each) => each.rule).map((unit) => {
    const done = status(card, unit) === "done";
    const made = button(unit.tick, () => tap({ kind: "tick", card: card.k, unit: unit.u }), {
      "aria-pressed": String(done), disabled: done || !live, "data-rule": unit.rule,
    });
    if (done) made.append(make("span", { class: "state" }, " " + t("done")));
    return make("div", { class: "pieces one" }, made);
  });
}

// The pieces to tick. How each lies stands on it; where that is the same for several, once for them all;
// where it is told for many, or room is short, that of the piece that is next, and all of it behind the
// button beside Undo.
function grid(card, pieces, live, open) {
  const notes = card.notes || {}, lies = laid(card, pieces);
  const own = pieces.length <= 6 && lies.length > 0 && (lies.length === pieces.length || pieces.every((unit) => (notes[unit.u] || "").length <= 24));
  const long = pieces.some((unit) => (notes[unit.u] || "").length > 24);
  const made = make("div", { class: "pieces" + (own ? long ? " one" : " two" : pieces.length > 6 ? " many" : "") });
  for (const unit of pieces) {
    const stands = status(card, unit), now = open && open.u === unit.u;
    const face = button("", () => tap({ kind: "tick", card: card.k, unit: unit.u }), {
      "aria-pressed": String(stands === "done"), class: now ? "now" : null,
      disabled: ["spoiled", "waits", "done"].includes(stands) || (!live && !past(card)),
    });
    face.append(make("span", { class: "mark" }, capital(unit.name)));
    if (own && notes[unit.u]) face.append(" ", make("span", { class: "lies" }, notes[unit.u] + " "));
    if (stands !== "open") face.append(" ", make("span", { class: "state" }, state(stands)));
    made.append(face);
  }
  if (own) return [made];
  const here = lies.filter((lie) => !open || lie.marks.includes(open));
  return [...(lies.length > 4 ? here.slice(0, 1) : lies).map((lie) => told(lie, open)), made];
}
// How the pieces lie, each way once with the pieces that lie so.
function laid(card, pieces) {
  const notes = card.notes || {};
  return Array.from(new Set(pieces.map((unit) => notes[unit.u]).filter(Boolean)),
    (note) => ({ note, marks: pieces.filter((unit) => notes[unit.u] === note) }));
}
function told(lie, open) {
  return make("p", { class: open && lie.marks.includes(open) ? "lie now" : "lie" },
    make("b", {}, lie.marks.map((unit) => capital(unit.name)).join(", ")), ": " + lie.note);
}

// The one big button: whatever is next here.
function mainButton(card, open) {
  if (!open || open.p != null || open.rule) return null;
  const key = "main_" + card.kind, text = key in WORDS ? t(key) : t("tick", { what: open.name });
  const on = () => tap({ kind: "tick", card: card.k, unit: open.u });
  return card.kind === "power" ? held(text, card.k, on, { class: "main" }) : button(text, on, { class: "main" });
}

// What else may be done here, behind the button beside Undo.
function besides(card, open) {
  const parts = [];
  if (open && ["work", "test", "bench"].includes(card.kind)) {
    const text = open.p != null ? t("skip_measuring", { what: open.says }) : open.of ? t("skip", { what: open.name }) : t("skip_this");
    parts.push(button(text, () => { go("card"); tap({ kind: "skip", card: card.k, unit: open.u }); }, { class: "wide" }));
  }
  if (["work", "test", "bench"].includes(card.kind) && !card.stock) parts.push(button(t("a_piece_is_spoiled"), () => go("spoil"), { class: "wide" }));
  if (card.drawing) parts.push(button(t("show_drawing"), () => go("drawing"), { class: "wide" }));
  const lies = laid(card, card.units.filter((unit) => unit.p == null));
  if (lies.length > 1) parts.push(make("div", { class: "told" }, ...lies.map((lie) => told(lie, open))));
  if (open && open.p != null) {
    parts.push(make("div", { class: "told" }, ...lines([...card.how, card.points[open.p].feel].filter(Boolean))));
  }
  parts.push(button(t("measure_kerf"), () => go("measure"), { class: "wide" }));
  return parts;
}
