"use strict";
// Words, elements, numbers and signs: all that the other scripts make things of. Text only, no HTML.

const $ = (id) => document.getElementById(id);
const WORDS = JSON.parse($("words").textContent);

// ------------------------------------------------------------------ words: all come with the page, by key
function parted(key, given) {
  return WORDS[key].split(/\{(\w+)\}/).map((text, n) => (n % 2 ? given[text] : text));
}
const t = (key, given = {}) => parted(key, given).join("");
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

// ------------------------------------------------------------------ elements
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
function svg(traits, path) {
  const space = "http://www.w3.org/2000/svg";
  const made = document.createElementNS(space, "svg"), line = document.createElementNS(space, "path");
  for (const [name, value] of Object.entries(traits)) made.setAttribute(name, value);
  line.setAttribute("d", path);
  line.setAttribute("fill-rule", "evenodd");
  made.append(line);
  return made;
}

// ------------------------------------------------------------------ numbers
const plain = (f) => [f.whole, f.top && f.top + "/" + f.bottom].filter(Boolean).join(" ");
function figure(f) {
  const parts = [make("span", { class: "vh" }, plain(f))];
  const seen = make("span", { "aria-hidden": "true", class: "num" }, f.whole && make("span", { class: "whole" }, f.whole));
  if (f.top) seen.append(make("span", { class: "stack" }, make("span", { class: "over" }, f.top), make("span", { class: "under" }, f.bottom)));
  parts.push(seen, make("span", { class: "unit" }, f.unit));
  if (f.decimal) parts.push(make("span", { class: "decimal" }, " (" + f.decimal + ")"));
  return parts;
}
// Read from across the saw while it is set; small on the cutting cards.
function numbers(big, small) {
  const made = make("dl", { class: small ? "near" : "far" });
  for (const each of big || []) {
    const value = small
      ? make("dd", {}, plain(each) + each.unit + (each.decimal ? " (" + each.decimal + ")" : ""))
      : make("dd", {}, ...figure(each));
    if (each.note) value.append(make("span", { class: "note" }, small ? " " + each.note : each.note));
    made.append(make("div", {}, make("dt", {}, each.name), value));
  }
  return made;
}

// ------------------------------------------------------------------ signs and cautions
const ALERT = "M10 1 19.5 18.5H.5ZM9 7v6h2V7Zm0 7.5v2h2v-2Z";
const alertSign = () => svg({ viewBox: "0 0 20 20", class: "alert", "aria-hidden": "true" }, ALERT);
// A line drawing of 24 by 24; words where nothing beside it says them.
function pictogram(path, words) {
  if (!path) return "";
  const told = words ? { role: "img", "aria-label": words } : { "aria-hidden": "true" };
  return svg({ class: "sign", viewBox: "0 0 24 24", ...told }, path);
}
const word = (one) => make("b", { class: "word" }, one.word === "NOTICE" ? null : alertSign(), one.called);
// Told in full: a box to each, so that none is cut where one screen ends and the next begins.
function inFull(all) {
  return all.filter((c) => c.avoidance).map((c) => make("div", { class: "caution" }, make("p", { "data-rule": c.rule },
    word(c), " ", pictogram(c.sign), make("b", {}, c.hazard), " " + c.consequence + " ", make("b", {}, c.avoidance))));
}
// In one line: a box to each signal word, what it warns of run together.
function inBrief(all) {
  const brief = all.filter((c) => !c.avoidance);
  return Array.from(new Set(brief.map((c) => c.word)), (name) => {
    const here = brief.filter((each) => each.word === name);
    const line = make("p", {}, word(here[0]));
    for (const c of here) line.append(" ", make("span", { "data-rule": c.rule }, pictogram(c.sign), c.hazard));
    return make("div", { class: "caution brief" }, line);
  });
}
