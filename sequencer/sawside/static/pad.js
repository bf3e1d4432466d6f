"use strict";
// The measuring pad: what is wanted, the field, the keys with Enter among them; and the answer.

let typed = "";        // what stands in the reading's field
let typedFor = "";     // and which reading it is for
let enterNow = () => {};

// What is wanted. Where what it refers to was measured while the program did not answer, its numbers move by
// as much: the one subtraction that the sheet prints too.
function pointOf(card, unit) {
  const point = card.points[unit.p], here = online ? null : windowOf(card, unit);
  if (!here || !here.moved) return point;
  const at = (name) => asRead(here[name], here.step, cards.unit);
  return { ...point, target: at("target"), low: at("low"), high: at("high"), moved: t("moved") };
}
function goal(card, unit) {
  const point = pointOf(card, unit);
  const parts = [make("h2", {}, t("measure", { what: unit.says }))];
  if (!unit.spread) {
    const sure = (figure) => make("b", {}, figure + cards.sign);
    const says = point.by_fit ? [point.tool]
      : point.at_most ? parted("at_most", { tool: point.tool, high: sure(point.high) })
      : parted("target", { tool: point.tool, target: sure(point.target), low: point.low, high: point.high });
    parts.push(make("p", { class: "goal step" }, ...says));
  }
  if (point.moved) parts.push(make("p", {}, point.moved));
  return make("div", { class: "ask" }, ...parts);
}

function keypad(field) {
  const keys = make("div", { class: "keys", role: "group", "aria-label": t("keypad") });
  const put = (text) => { field.setRangeText(text, field.selectionStart, field.selectionEnd, "end"); typed = field.value; };
  // A key may be struck as fast as one likes, and leaves the focus where it is.
  const key = (text, on, traits = {}) => {
    const made = make("button", { type: "button", on, ...traits }, text);
    made.addEventListener("pointerdown", (event) => event.preventDefault());
    keys.append(made);
  };
  const remove = () => {
    if (field.selectionStart === field.selectionEnd && field.selectionStart > 0) field.setSelectionRange(field.selectionStart - 1, field.selectionEnd);
    put("");
  };
  const other = cards.unit === "mm" ? "in" : "mm";
  for (const row of ["789", "456", "123"]) {
    for (const figure of row) key(figure, () => put(figure));
    if (row === "789") key("⌫", remove, { "aria-label": t("delete") });
    else if (row === "456") key("/", () => put("/"));
    else key(t("space"), () => put(" "), { class: "small" });
  }
  key(".", () => put("."));
  key("0", () => put("0"));
  key(other, () => put(" " + other), { class: "small" });
  keys.append(button(t("enter"), () => enterNow(), { class: "main small" }));
  return keys;
}

// The field with its keys; enter gets what was typed.
function entry(name, at, enter) {
  if (typedFor !== at) { typed = ""; typedFor = at; }
  const field = make("input", { type: "text", inputmode: "none", autocomplete: "off", id: "field", "aria-label": t("field", { what: name, unit: cards.unit }), maxlength: "40" });
  field.value = typed;
  enterNow = () => {
    if (!field.value.trim()) { say(t("enter_first")); field.focus(); return; }
    enter(field.value.trim());
  };
  field.addEventListener("input", () => { typed = field.value; });
  field.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    if (!event.repeat && !bounced(event)) enterNow();
  });
  return [make("div", { class: "line" }, field, make("span", { class: "unit" }, cards.unit)), keypad(field)];
}

const readings = (card, unit) => (stand.readings[card.k] || {})[unit.u];
const unsent = (card, unit) => queue.filter((event) => event.kind === "read" && event.card === card.k && event.unit === unit.u).pop();
const isSent = (card, unit) => Boolean(unsent(card, unit));
const reading = (card, unit, more) => tap({ kind: "read", card: card.k, unit: unit.u, ...more, ...(isGood(card, unit, more) ? { good: true } : {}) });

// Read while the program does not answer, and not good without a doubt: what can be done without it.
function unanswered(card, unit, event) {
  const point = pointOf(card, unit), at = card.k + "/" + unit.u, says = [];
  if (point.alone && !event.keep && (event.feel || lengthOf(event.text, cards.unit))) {
    if (event.text) says.push(t("not_good_here", { text: event.text, low: point.low, high: point.high }));
    if (point.alone.printed) says.push(t("by_hand", { how: point.alone.printed }));
  }
  says.push(t("answer_later"));
  return {
    blocks: [make("h2", {}, t("measure", { what: unit.says })), ...says.map((each) => make("p", { class: "answer" }, each))],
    foot: button(t("again"), () => { typedAgain = at; answer = { at, words: "" }; draw(); if ($("field")) $("field").focus(); }, { class: "main" }),
  };
}

// Told without a number: these stand where the big button else does.
function feels(card, unit) {
  const point = card.points[unit.p], felt = [];
  const read = (feel) => { typedAgain = ""; reading(card, unit, { feel }); };
  if (isSent(card, unit) && online) return felt;
  if (point.felt) felt.push(button(t("tight"), () => read("tight")), button(t("loose"), () => read("loose")));
  if (point.felt || point.by_fit) felt.push(button(t("fits"), () => read("fits")));
  return felt;
}

// The blocks of a reading.
function measure(card, unit) {
  const point = card.points[unit.p], at = card.k + "/" + unit.u;
  const box = make("section", { class: "measure", "aria-label": t("measure", { what: unit.says }) });
  box.append(goal(card, unit));
  if (isSent(card, unit) && online) {
    box.append(make("p", { class: "wait" }, t("moment")));
    return [box];
  }
  if (point.feel) box.append(make("p", { class: "feel" }, point.feel));
  if (!point.by_fit) box.append(...entry(unit.says, at, (text) => { answer = { at, words: "" }; typedAgain = ""; reading(card, unit, { text }); }));
  return [box];
}

// What was told of a reading that is not good: a screen of its own, with what can be done about it.
function answerTo(card, unit) {
  const point = card.points[unit.p], at = card.k + "/" + unit.u, last = readings(card, unit), event = unsent(card, unit);
  if (typedAgain !== at && event && !online) return unanswered(card, unit, event);
  const words = typedAgain === at ? "" : answer && answer.at === at ? answer.words : last && last.verdict === "adjust" ? last.said : "";
  if (!words || event) return null;
  const read = (more) => tap({ kind: "read", card: card.k, unit: unit.u, ...more });
  const choice = make("div", { class: "choice" });
  if (point.may_stay && last && last.verdict === "adjust" && /^[\d.]+$/.test(last.value)) {
    choice.append(button(t("keep", { text: last.value }), () => weigh({ kind: "read", card: card.k, unit: unit.u, text: last.value, keep: true })));
  }
  if (!point.turns && typed) choice.append(button(t("really", { text: typed }), () => read({ text: typed, sure: true })));
  return {
    blocks: [make("h2", {}, t("measure", { what: unit.says })), make("p", { class: "answer" }, words), choice],
    foot: button(t("again"), () => { typedAgain = at; answer = { at, words: "" }; draw(); if ($("field")) $("field").focus(); }, { class: "main" }),
  };
}
let typedAgain = "";  // the reading whose answer was read, and which is taken once more

// On a card that is passed: what was measured there, or was not.
function again(card) {
  const parts = [];
  for (const unit of card.units) {
    const reading = readings(card, unit);
    const missed = past(card) && ["skipped", "open"].includes(status(card, unit));
    if (unit.p == null || !(reading || missed)) continue;
    const at = card.k + "/" + unit.u, name = unit.says;
    const value = reading ? reading.value : t("not_measured");
    const values = reading ? reading.before.join(", ") : "";
    parts.push(make("div", { class: "had" }, make("p", {}, t(values ? "had_before" : "had", { what: name, value, values })),
      button(t(reading ? "measure_again" : "measure", { what: name }), () => { typedFor = at; typed = ""; answer = null; again.at = at; draw(); $("field").focus(); })));
  }
  return parts;
}
again.at = "";

// The pad of a reading that is taken once more on a card that is passed.
function retaken(card) {
  const unit = card.units.find((each) => each.p != null && card.k + "/" + each.u === again.at);
  if (!unit) return null;
  const told = answer && answer.at === again.at && answer.words ? make("p", { class: "answer" }, answer.words) : null;
  const box = make("section", { class: "measure", "aria-label": t("measure", { what: unit.says }) }, goal(card, unit), told,
    ...entry(unit.says, again.at, (text) => {
      answer = { at: again.at, words: "" };
      reading(card, unit, { text });
    }));
  return [box];
}
