"use strict";
// Lengths as exact fractions of whole numbers, for readings that the program does not answer. What is read
// is less than the program reads, and never otherwise: decimals, and inches with a fraction as on a rule.

function ratio(top, bottom = 1n) {
  let [a, b] = [top < 0n ? -top : top, bottom];
  while (b) [a, b] = [b, a % b];
  return { top: top / (a || 1n), bottom: bottom / (a || 1n) };
}
// "5/2", "3", as the program writes them.
function written(text) {
  const [top, bottom = "1"] = text.split("/");
  return ratio(BigInt(top), BigInt(bottom));
}
const plus = (a, b) => ratio(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom);
const times = (a, b) => ratio(a.top * b.top, a.bottom * b.bottom);
const less = (a, b) => plus(a, { top: -b.top, bottom: b.bottom });
const atMost = (a, b) => a.top * b.bottom <= b.top * a.bottom;

// What was typed, in the plan's unit; null where the program has to read it.
function lengthOf(text, unit) {
  const typed = text.trim().replace(unit === "mm" ? / *mm$/ : / *in$/, ""), decimal = /^(0|[1-9]\d*)?(?:\.(\d{1,9}))?$/.exec(typed);
  if (typed && decimal && (decimal[1] || decimal[2])) {
    const places = decimal[2] || "";
    return ratio(BigInt((decimal[1] || "0") + places), 10n ** BigInt(places.length));
  }
  const mixed = unit === "in" && /^(?:(0|[1-9]\d*)[ -])?([1-9]\d*)\/([1-9]\d*)$/.exec(typed);
  if (!mixed) return null;
  const top = BigInt(mixed[2]), bottom = BigInt(mixed[3]);
  if (top >= bottom || bottom > 1024n || (bottom & (bottom - 1n))) return null;
  return plus(ratio(BigInt(mixed[1] || "0")), ratio(top, bottom));
}

// As the tool shows it that is read in such steps, between two of them too: as the program rounds.
function asRead(value, step, unit) {
  if (step && (value.top * step.bottom * 2n) % (value.bottom * step.top) === 0n && (value.top * step.bottom) % (value.bottom * step.top))
    step = ratio(step.top, step.bottom * 2n);
  if (step && unit === "in" && !(step.bottom & (step.bottom - 1n))) {
    const whole = value.top / value.bottom, rest = value.top % value.bottom;
    return [whole || !rest ? String(whole) : "", rest ? rest + "/" + value.bottom : ""].filter(Boolean).join(" ");
  }
  let places = step ? 0 : unit === "in" ? 3 : 2;
  while (step && (step.top * 10n ** BigInt(places)) % step.bottom) places += 1;
  const all = value.top * 10n ** BigInt(places), twice = 2n * (all % value.bottom);
  let whole = all / value.bottom;
  if (twice > value.bottom || (twice === value.bottom && whole & 1n)) whole += 1n;
  const figures = String(whole).padStart(places + 1, "0");
  return places ? figures.slice(0, -places) + "." + figures.slice(-places) : figures + ".0";
}

// The window of a reading, moved by what the checks that it refers to were read as since.
function windowOf(card, unit) {
  const alone = card.points[unit.p].alone;
  if (!alone) return null;
  let off = ratio(0n), moved = false;
  for (const mate of alone.mates) {
    const taken = queue.filter((event) => event.kind === "read" && event.card === mate.card && event.unit === mate.unit && event.good);
    const last = taken[taken.length - 1];
    moved = moved || Boolean(last);
    const read = last ? last.text && lengthOf(last.text, cards.unit) : mate.had && written(mate.had);
    if (read) off = plus(off, times(written(mate.share), less(read, written(mate.target))));
  }
  const at = (name) => plus(written(alone[name]), off);
  return { target: at("target"), low: at("low"), high: at("high"), step: alone.step && written(alone.step), moved };
}
// Whether a reading is good without a doubt.
function isGood(card, unit, { text, feel }) {
  const found = windowOf(card, unit);
  if (!found) return false;
  if (feel) return feel === "fits";
  const value = lengthOf(text, cards.unit);
  return Boolean(value) && atMost(found.low, value) && atMost(value, found.high);
}
