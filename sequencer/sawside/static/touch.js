"use strict";
// Fingers in the shop: a tap that bounces counts once, what starts the saw or throws wood away is held
// or tapped twice, and a caliper or a foot switch that types is heard.

let BOUNCE = 350;   // ms: a second tap within them, on what has just changed, does nothing
let HOLD = 1000;    // ms: how long power on and spoiled are held
let APART = 500;    // ms: two taps farther apart than that are meant, up to AGAIN
const AGAIN = 4000;
let STREAM = 1000;   // ms: what types a number and Enter does so within them

let acted = -Infinity;   // when something was last done, or shown in another's place
let armed = { what: "", at: -Infinity };
let digits = -Infinity;  // when a figure was last typed and no reading was asked for

// By when it was tapped, not when it is heard: a phone that stands still hands taps on late.
const early = (event) => event.timeStamp - acted < BOUNCE;
function bounced(event) {
  if (early(event)) return true;
  acted = performance.now();
  return false;
}
const guarded = (on) => (event) => { if (!bounced(event)) on(); };
function button(text, on, traits = {}) { return make("button", { type: "button", on: guarded(on), ...traits }, text); }

// Held for a second, or tapped twice, or Enter twice.
function held(text, what, on, traits = {}) {
  const waits = armed.what === what && performance.now() - armed.at < AGAIN;
  const made = make("button", { type: "button", ...traits }, make("span", { class: "filling", "aria-hidden": "true" }),
    make("span", { class: "held" }, text), make("span", { class: "how" }, t(waits ? "tap_again" : "hold_or_twice")));
  made.classList.add("hold");
  let timer = null;
  const done = () => { timer = null; armed = { what: "", at: -Infinity }; acted = performance.now(); on(); };
  const stop = () => { clearTimeout(timer); timer = null; made.classList.remove("holding"); };
  made.addEventListener("pointerdown", (event) => {
    if (early(event)) return;
    made.classList.add("holding");
    timer = setTimeout(done, HOLD);
  });
  for (const end of ["pointerup", "pointerleave", "pointercancel"]) made.addEventListener(end, stop);
  made.addEventListener("contextmenu", (event) => event.preventDefault());
  made.addEventListener("click", (event) => {
    const now = event.timeStamp;
    if (armed.what === what && now - armed.at < AGAIN) {
      if (now - armed.at >= APART) done();
      return;
    }
    if (early(event)) return;
    armed = { what, at: now };
    acted = performance.now();
    made.querySelector(".how").textContent = t("tap_again");
    say(t("tap_again_all"));
  });
  return made;
}

// A caliper's cable or a foot switch is a keyboard: figures and Enter go to the reading that is asked for,
// wherever the focus is; Enter alone goes on, but never what comes behind figures that nobody asked for.
function keyed(event) {
  if (event.ctrlKey || event.altKey || event.metaKey || event.defaultPrevented) return;
  const field = $("field"), at = document.activeElement;
  const figure = /^[0-9./, ]$/.test(event.key) && !(event.key === " " && at && at.tagName === "BUTTON");
  if (field && at !== field && (figure || /^[mint]$/.test(event.key))) {
    field.focus();
    field.setSelectionRange(field.value.length, field.value.length);
    field.setRangeText(event.key, field.value.length, field.value.length, "end");
    typed = field.value;
    event.preventDefault();
    return;
  }
  if (!field && figure) { digits = event.timeStamp; return; }
  if (event.key !== "Enter") return;
  if (event.repeat || event.timeStamp - digits < STREAM) {
    event.preventDefault();
    if (!event.repeat) say(t("not_asked"));
    return;
  }
  if (at === field) return;
  if (at && at.tagName === "BUTTON" && !at.matches("#list, #more, .keys button")) return;
  if (field && field.value.trim()) { event.preventDefault(); enterNow(); return; }
  const main = document.querySelector("#foot .main");
  if (main && (!at || at.tagName !== "BUTTON")) { event.preventDefault(); main.click(); }
}
addEventListener("keydown", keyed);
