"use strict";
// One card at a time, on one screen: what does not fit beside it goes onto screens before it, whole. Which
// view it is stands in the browser's history, so that Back and Forward walk through the cards.

let looking = null;       // key of a card that is looked at instead of the current one
let panel = "card";       // or a name of PANELS
let news = "";            // words too long to be said beside the heading, and where to go from them
let afterNews = "card";
let shown = "";           // what the focus was last put on
let popping = false;
let hushed = null;
const screens = new Map();  // by card, the screen of it that was reached

const LONG = 140;         // characters that stand over the heading; what is longer gets a screen
const SHOWN = 6000;       // ms
const PANELS = {
  list: drawList, more: drawMore, measure: drawMeasure, spoil: drawSpoil, drawing: drawDrawing, weighed: drawWeighed, news: drawNews,
  edited: drawEdited,
};
const KEPT = ["card", "list", "more", "measure", "spoil", "drawing"];  // views that Back may return to

function say(words) {
  clearTimeout(hushed);
  $("said").classList.toggle("vh", !words);
  $("said").replaceChildren(...(words ? [make("p", {}, words)] : []));
  if (words) hushed = setTimeout(() => $("said").classList.add("vh"), SHOWN);
  if (!cards || !stand) return;
  draw();
  if (!words || toldOnCard(words) || words.length <= LONG) return;
  news = words;
  if (panel !== "news") afterNews = panel;
  panel = "news";
  $("said").classList.add("vh");
  draw();
}
// What stands on the card need not stand above it as well; it is still read out.
function toldOnCard(words) {
  const told = document.querySelector("#main .answer");
  return Boolean(told) && words.includes(told.textContent);
}

// ------------------------------------------------------------------ one screen
const TIGHT = "tight";
const large = () => parseFloat(getComputedStyle(document.documentElement).fontSize) > 24;  // then it scrolls
function room() {
  if (large()) return Infinity;
  const style = getComputedStyle($("main"));
  return $("main").clientHeight - parseFloat(style.paddingTop) - parseFloat(style.paddingBottom);
}
// Lays the face out, and says on which screen of how many it stands.
function lay(face, wanted) {
  const main = $("main"), box = make("div", { class: "card" });
  const all = [...face.before, ...face.body, ...face.last];
  const put = (blocks, picture, tight) => {
    main.className = (picture ? "pictured " : "") + (tight ? TIGHT : "");
    const fig = picture ? make("div", { class: "fig" }, face.picture) : null;
    box.className = "card measured";
    box.replaceChildren(...blocks);
    const beside = fig && getComputedStyle(main).getPropertyValue("--beside").trim() === "1";
    if (fig && !beside) box.insertBefore(fig, box.querySelector(".near ~ *, ol") || null);
    main.replaceChildren(...(beside ? [fig, box] : [box]));
    const fits = Math.max(box.getBoundingClientRect().height, box.scrollHeight) <= room() + 0.5;
    box.className = "card";
    return fits;
  };
  const ways = face.picture ? [[true, false], [false, false], [true, true], [false, true]] : [[false, false], [false, true]];
  if (ways.some(([picture, tight]) => put(all, picture, tight))) return { at: 0, of: 1 };
  // Too much for one: what is read before goes before, the rest stays together as long as it can.
  let flows = [...face.before, ...face.body], last = face.last, tight = false;
  if (!put(last, false, false)) {
    tight = true;
    if (!put(last, false, true)) {
      // What is ticked keeps the line that warns of it beside it.
      const stays = (block, n) => n === last.length - 1 || block.classList.contains("brief");
      flows = [...flows, ...last.filter((block, n) => !stays(block, n))];
      last = last.filter(stays);
    }
  }
  const found = [];
  for (const block of flows) {
    const here = found[found.length - 1];
    if (here && put([...here, block], false, tight)) here.push(block);
    else found.push([block]);
  }
  const end = found[found.length - 1];
  if (end && put([...end, ...last], false, tight)) end.push(...last);
  else if (last.length) found.push(last);
  const at = Math.min(wanted, found.length - 1), final = at === found.length - 1;
  if (!(final && face.picture && put(found[at], true, tight))) put(found[at], false, tight);
  return { at, of: found.length };
}

// ------------------------------------------------------------------ where one is
function ordinals(card) {
  const step = card.n && card.kind !== "set", here = place(card.k);
  const counted = cards.cards.filter((c) => (step ? c.n && c.kind !== "set" : c.kind === "set"));
  return t(step ? "at_step" : "at_setup", { n: counted.filter((c) => place(c.k) <= here).length, of: counted.length });
}
function next(card) {
  const after = cards.cards.slice(place(card.k) + 1).find((c) => c.n && !complete(c));
  return after ? t("next_is", { what: after.row }) : "";
}
function drawHead(title, card, signs, screen) {
  document.querySelector("h1").replaceChildren(title);
  $("signs").replaceChildren(...signs.map((each) => pictogram(each.path, each.words)));
  const parts = card ? [ordinals(card)] : [];
  if (!online && isKept) parts.push(t(queue.length ? "without_waits" : "without", { n: queue.length }));
  else if (stand.left) parts.push(t("minutes_left", { n: stand.left }));
  $("where").replaceChildren(parts.join(" · "));
  if (screen && screen.of > 1) $("where").append(" · ", make("b", {}, t("screen_of", { n: screen.at + 1, of: screen.of })));
}
function drawBar(foot, more) {
  $("foot").replaceChildren(...foot.filter(Boolean));
  $("more").hidden = !more;
  const last = undone();
  const words = !last ? "" : last.words || t("undo_unsent");
  $("undo").disabled = !last;
  $("undone").textContent = words;
  $("undo").setAttribute("aria-label", last ? t("undo_what", { what: words }) : t("undo"));
  $("list").setAttribute("aria-expanded", String(panel === "list"));
}
function centre(box) {
  const here = box.querySelector(".here");
  if (here) box.scrollTop = here.offsetTop - box.offsetTop - (box.clientHeight - here.offsetHeight) / 2;
  return here;
}

// ------------------------------------------------------------------ drawing it all
function viewOf(card) {
  const open = card && !looking ? card.units.find((unit) => status(card, unit) === "open") : null;
  if (panel in PANELS && (card || panel !== "drawing")) {
    const made = PANELS[panel](card, open);
    return { ...made, mark: panel, signs: [], face: { before: [], body: [], last: made.blocks, picture: made.picture } };
  }
  if (!card) return { ...drawEnd(), mark: "end", signs: [], foot: [] };
  const face = faceOf(card, !looking);
  const reading = open && open.p != null ? " " + open.u : "";
  return { title: card.heading, signs: card.signs, face, mark: card.k + reading + (looking ? " looked at" : ""), fits: true, card };
}

function draw() {
  if (!cards || !stand) return;
  const now = current();
  if (looking && (!find(looking) || (now && looking === now.k))) looking = null;
  const card = looking ? find(looking) : now;
  if ((panel === "weighed" && !weighed) || (panel === "edited" && !edited)) panel = "card";
  const held = document.activeElement;
  const caret = held && held.id === "field" ? [held.selectionStart, held.selectionEnd] : null;
  const inside = held && held !== document.body && (($("main").contains(held) || $("foot").contains(held)));
  const trace = inside ? held.textContent : null;
  const view = viewOf(card);
  const own = Boolean(view.card), key = own ? view.mark : "";
  const back = button(now && now.n ? t("back_to", { where: now.n }) : t("back"), () => { looking = null; typedFor = ""; again.at = ""; go("card"); }, { class: "main" });
  let foot = view.foot || (own && !looking ? [].concat(view.face.foot) : [back]);
  document.body.classList.toggle("large", large());
  document.body.dataset.view = own ? card.kind : panel;
  drawHead(view.title, card, view.signs, null);
  drawBar(foot, own && !looking);
  let screen = null;
  if (view.fits) {
    screen = lay(view.face, screens.get(key) || 0);
    if (own) {
      screens.set(key, screen.at === screen.of - 1 ? Infinity : screen.at);  // what was seen to its end stays so
      if (!looking && document.querySelector("main [data-rule]:is(button):not(:disabled)")) {
        drawBar([button(t("tick_these"), () => {}, { class: "main", disabled: true })], true);
      } else if (screen.at < screen.of - 1) {
        foot = [button(t("go_on_card"), () => { screens.set(key, screen.at + 1); draw(); }, { class: "main" })];
        drawBar(foot, !looking);
      }
      drawHead(view.title, card, view.signs, screen);
    }
  } else {
    $("main").className = "panel";
    $("main").replaceChildren(make("div", { class: "card" }, ...(view.face ? view.face.last : view.blocks)));
  }
  if ($("main").scrollHeight > $("main").clientHeight) $("main").tabIndex = 0; else $("main").removeAttribute("tabindex");
  if (own && !looking) {
    const coming = next(card);
    const box = document.querySelector(".card"), line = coming ? make("p", { class: "next" }, coming) : null;
    if (line && screen.at === screen.of - 1) {
      box.append(line);
      // A pad that is pressed together runs out of its own box before it runs out of the card.
      const full = [box, $("main"), ...box.querySelectorAll(".measure")].some((each) => each.scrollHeight > each.clientHeight + 0.5);
      if (full) line.remove();
    }
  }
  if (getComputedStyle($("day")).display !== "none") {
    $("day").replaceChildren(make("div", { class: "rows" }, ...rowsOf()));
    centre($("day"));
  }
  if ($("said").textContent && toldOnCard($("said").textContent)) $("said").classList.add("vh");
  document.title = t("window", { what: view.title });
  refocus(view.mark + (screen ? " " + screen.at : ""), caret, inside && held.tagName !== "H1" ? trace : null);
  remember(card, screen);
}

function refocus(mark, caret, trace) {
  if (mark !== shown) acted = performance.now();  // what is new under the finger was not meant
  if (caret && $("field")) {
    $("field").focus();
    $("field").setSelectionRange(...caret);
  } else if (mark !== shown) {
    const here = panel === "list" ? centre($("main")) : null;
    if (!here) $("main").scrollTop = 0;
    (here || document.querySelector("h1")).focus({ preventScroll: true });
  } else if (trace !== null) {
    const same = Array.from(document.querySelectorAll("#main button, #foot button")).find((b) => b.textContent === trace && !b.disabled);
    (same || document.querySelector("#foot .main") || document.querySelector("h1")).focus({ preventScroll: true });
  }
  shown = mark;
}

function remember(card, screen) {
  if (!KEPT.includes(panel)) return;
  const view = { panel, card: card ? card.k : null, screen: screen ? screen.at : 0, key: panel === "card" && card ? shown.slice(0, shown.lastIndexOf(" ")) : "" };
  const same = history.state && ["panel", "card", "screen"].every((name) => history.state[name] === view[name]);
  if (!same && !popping) history[history.state ? "pushState" : "replaceState"](view, "");
}
addEventListener("popstate", (event) => {
  if (!event.state || !cards) return;
  const now = current();
  panel = event.state.panel;
  looking = event.state.card && !(now && event.state.card === now.k) ? event.state.card : null;
  if (event.state.key) screens.set(event.state.key, event.state.screen);
  popping = true;
  draw();
  popping = false;
});

// A printed code opens the page at its card, for as long as there is one.
function opened() {
  const key = location.hash.slice(1);
  if (!key) return;
  history.replaceState(history.state, "", base);
  const now = current();
  panel = "card";
  looking = find(key) && !(now && now.k === key) ? key : null;
  if (!find(key)) say(t("code_gone")); else draw();
}
addEventListener("hashchange", () => { if (cards && stand) opened(); });

$("list").addEventListener("click", guarded(() => { looking = null; go(panel === "card" ? "list" : "card"); }));
$("more").addEventListener("click", guarded(() => go("more")));
$("undo").addEventListener("click", guarded(undo));
addEventListener("online", look);
addEventListener("offline", () => lost());
addEventListener("resize", () => draw());
document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
setInterval(() => { if (!document.hidden && (!online || !stand)) look(); }, 1500);
setInterval(() => { if (!document.hidden) look(); }, 15000);
look();
listen();
keepPage();
