"use strict";
// Everything that is not the card: the whole list, what else may be done, what was measured by itself,
// which piece is spoiled, the drawing alone, what a reading would change, the end.

let weighed = null;  // {event, changes, words}: a reading that is to be kept, and what it would change

function go(to) { panel = to; answer = null; draw(); }

function rowsOf() {
  const now = current();
  let passed = Boolean(now);
  const rows = [];
  for (const card of cards.cards) {
    if (now && card.k === now.k) passed = false;
    if (!card.n && !["standing", "remake"].includes(card.kind) && !(now && card.k === now.k)) continue;
    const here = now && card.k === now.k;
    const says = here ? t("here") : !passed && now ? "" : t(leftOut(card) ? "something_left_out" : "done");
    rows.push(button(says ? t("entry", { what: card.row, state: says }) : card.row,
      () => { looking = here ? null : card.k; again.at = ""; go("card"); },
      { class: here ? "here" : card.kind === "set" ? "setup" : null, "aria-current": here ? "step" : null }));
  }
  return rows;
}

function drawList() {
  const told = stand.left ? [make("p", {}, t("minutes_in_all", { n: stand.left }))] : [];
  if (!online && isKept) told.push(make("p", { class: "step" }, t("offline_kept", { at: clock(heardAt), taps: queue.length ? waits() : t("go_on") })));
  else if (keeps) told.push(make("p", {}, t(isKept ? "is_kept" : "not_kept")));
  if (keeps) told.push(installing());
  if (stand.edited) told.push(button(t("edited_look"), lookAtEdit, { class: "wide" }));
  if (stand.gone) told.push(make("p", { class: "step" }, stand.gone));
  if (stand.changed) told.push(toPrint());
  for (const each of stand.spoiled) told.push(make("p", {}, each.hint));
  return { title: t("whole_list"), blocks: [...told, make("div", { class: "rows" }, ...rowsOf()),
    button(t("measure_kerf"), () => go("measure"), { class: "wide" }), ...cards.proven.map((text) => make("p", {}, text))] };
}

// The changed lines on a page of their own, for the browser to print.
function toPrint() {
  return button(t("print_changed"), () => window.open(base + "changed", "_blank", "noopener"), { class: "wide", disabled: !online });
}

function drawMore(card, open) {
  return { title: t("more_here"), blocks: card ? besides(card, open) : [] };
}

function drawMeasure() {
  const blocks = [];
  if (answer && answer.at === "measure" && answer.words) blocks.push(make("p", { class: "answer" }, answer.words));
  const taking = stand.measurable.find((each) => typedFor === "m " + each.what + each.name);
  for (const each of taking ? [taking] : stand.measurable) {
    const at = "m " + each.what + each.name;
    const says = [make("h2", {}, each.says), make("p", {}, t("taken_as", { value: each.taken }))];
    if (each === taking) {
      const send = (text) => { answer = { at: "measure", words: "" }; tap({ kind: "measure", what: each.what, name: each.name, text }); };
      blocks.push(make("section", { class: "measure", "aria-label": t("measure", { what: each.says }) }, ...says, ...entry(each.says, at, send)));
    } else {
      blocks.push(make("div", { class: "had" }, ...says,
        button(t("enter_measured"), () => { typedFor = at; typed = ""; draw(); $("field").focus(); }, { class: "wide" })));
    }
  }
  return { title: t("measure_kerf"), blocks, fits: Boolean(taking) };
}

function drawSpoil() {
  const blocks = [];
  const here = current(), near = new Set(here ? here.units.map((unit) => unit.of) : []);
  const marks = new Set();
  for (const card of cards.cards) if (card.kind === "work") for (const unit of card.units) if (!unit.of.includes("#")) marks.add(unit.of);
  const blanks = new Map(cards.blanks.map((each) => [each.mark, each.says]));
  const all = [...Array.from(marks).filter(Boolean).sort(), ...blanks.keys()];
  const choice = (mark, says) => {
    const gone = stand.spoiled.some((each) => each.mark === mark);
    const stands = gone ? t("again_later") : says;
    const text = stands ? t("entry", { what: mark, state: stands }) : mark;
    return held(text, "spoil " + mark, () => { go("card"); tap({ kind: "spoil", mark }); }, { disabled: gone });
  };
  for (const [title, wanted] of [[t("at_this_step"), true], [t("elsewhere"), false]]) {
    const found = all.filter((mark) => near.has(mark) === wanted);
    if (!found.length) continue;
    blocks.push(make("h2", {}, title), make("div", { class: "rows" }, ...found.map((mark) => choice(mark, blanks.get(mark)))));
  }
  return { title: t("which_spoiled"), blocks };
}

function drawDrawing(card) {
  return { title: card.heading, blocks: [], picture: pictureOf(card), fits: true };
}

// ------------------------------------------------------------------ before and after, accepted or declined
async function weigh(event) {
  try {
    const got = await ask("weigh", posted({ events: [{ id: newId(), ...event }] }));
    if (got.status === 200) { weighed = { event, ...got.body }; go("weighed"); return; }
  } catch { lost(); }
  say(t("weigh_later"));
}
function tableOf(changes, names) {
  if (!changes.length) return null;
  const rows = changes.map((each) => make("tr", {}, make("th", { scope: "row" }, each.what), make("td", {}, each.before), make("td", {}, make("b", {}, each.after))));
  const head = make("tr", {}, ...names.map((key) => make("th", { scope: "col" }, t(key))));
  return make("table", {}, make("thead", {}, head), make("tbody", {}, ...rows));
}
function drawWeighed() {
  const table = tableOf(weighed.changes, ["change_what", "change_before", "change_after"]);
  const keep = () => { const event = weighed.event; weighed = null; panel = "card"; tap(event); };
  return {
    title: t("weigh"),
    blocks: [make("p", { class: "step" }, weighed.words), table].filter(Boolean),
    foot: weighed.may ? [button(t("decline"), () => { weighed = null; go("card"); }, { class: "wide" }), button(t("accept"), keep, { class: "main" })] : null,
  };
}

// ------------------------------------------------------------------ files that were edited, taken or left
let edited = null;   // what they would change
let askedFor = "";   // which of them were shown by themselves already

async function lookAtEdit() {
  try {
    const got = await ask("edited");
    if (got.status === 200) { edited = got.body; askedFor = edited.digest; go("edited"); return; }
  } catch { lost(); }
  say(t("weigh_later"));
}
function drawEdited() {
  const answered = (kind) => () => { const { digest } = edited; edited = null; panel = "card"; tap({ kind, digest }); };
  const lost = edited.lost.length ? [make("h2", {}, t("edited_lost")), make("ul", {}, ...edited.lost.map((each) => make("li", {}, each)))] : [];
  const table = tableOf(edited.changes, ["change_what", "edited_before", "edited_after"]);
  return {
    title: t("edited"),
    blocks: [make("p", { class: "step" }, edited.words), ...lost, table].filter(Boolean),
    foot: [button(t("edited_decline"), answered("decline"), { class: "wide" }), button(t("edited_accept"), answered("adopt"), { class: "main" })],
  };
}

function drawNews() {
  const print = stand.changed ? [toPrint()] : [];
  return { title: t("told"), blocks: [make("p", { class: "step" }, news), ...print], fits: true,
    foot: [button(t("go_on_card"), () => { news = ""; go(afterNews); }, { class: "main" })] };
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
  return { title: t(left.length ? "end_left_out" : "end"), blocks: left.length ? [make("ul", {}, ...left)] : [] };
}
