/**
 * The tour of the first run: three cards in one corner, each marking what it speaks of. It blocks nothing, takes no key
 * but Esc, can be left at any time and called again from help.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Steps } from "./steps.js" */

import { h } from "./html.js";
import { TOUR, keepChoice } from "./kept_choice.js";

/** @typedef {{title: string, words: string, byFinger: string, at: string, step: string}} Stop */

/** @type {Stop[]} */
const STOPS = [
  { title: "Draw the shell", step: "Shell", at: "#panel", words: "R and two corners make a room, W draws walls, N and D set windows and doors. A length can be typed at any time.",
    byFinger: "Take up a tool and slide over the drawing: a room from corner to corner, a wall from end to end, then type its length. Two fingers move the drawing and come closer." },
  { title: "Place and drag detectors", step: "Devices", at: "#drawing", words: "G places a glass-break detector. While it moves, glass that it does not cover turns hatched at once.",
    byFinger: "Take up a kind and touch where it goes; slide a detector to move it. While it moves, glass that it does not cover turns hatched at once." },
  { title: "Read the proof", step: "Proof", at: "#strip", words: "This strip always tells how the glass stands, and each part leads to its thing. / finds anything, ? shows every key.",
    byFinger: "These counts always tell how the glass stands, and each leads to its thing, one after the other. The lens finds anything." },
];

/** @type {(() => void) | null} leaves the tour that is in sight */
let leaveShown = null;

/** @param {Desk} desk @param {Steps} steps @param {boolean} called whether someone asked for it, who then is led into it */
export function tour(desk, steps, called) {
  leaveShown?.();
  const before = steps.current;
  const told = h("div", { "aria-live": "polite" });
  const doing = h("div", { class: "buttons" });
  const card = h("section", { class: "tour", "aria-label": "Tour" }, told, doing);
  /** @param {number} number @param {boolean} lead whether the focus goes to its button */
  const show = async (number, lead) => {
    const stop = /** @type {Stop} */ (STOPS[number]);
    const last = number === STOPS.length - 1;
    const next = h("button", { type: "button", class: "main", onclick: () => (last ? leave() : show(number + 1, true)) }, last ? "Done" : "Next");
    told.replaceChildren(h("p", { class: "quiet" }, `${number + 1} of ${STOPS.length}`), h("h2", {}, stop.title), h("p", {}, matchMedia("(pointer: coarse)").matches ? stop.byFinger : stop.words));
    doing.replaceChildren(next, ...(number ? [h("button", { type: "button", onclick: () => show(number - 1, true) }, "Back")] : []), h("button", { type: "button", class: "link", onclick: leave }, "Leave the tour"));
    point(stop.at);
    if (lead) next.focus({ preventScroll: true });
    if (number || called) await steps.showNamed(stop.step);
  };
  const leave = () => {
    const held = card.contains(document.activeElement);
    card.remove();
    point(null);
    removeEventListener("keydown", onEscape);
    leaveShown = null;
    keepChoice(TOUR, "seen");
    steps.show(before);
    if (held) desk.drawing.board.focus({ preventScroll: true });
  };
  const onEscape = (/** @type {KeyboardEvent} */ event) => event.key === "Escape" && !document.querySelector("dialog[open]") && leave();
  addEventListener("keydown", onEscape);
  leaveShown = leave;
  document.querySelector("main")?.append(card);
  show(0, called);
}

/** Mark what a card speaks of. @param {string | null} at */
function point(at) {
  for (const marked of document.querySelectorAll(".pointed-at")) marked.classList.remove("pointed-at");
  if (at) document.querySelector(at)?.classList.add("pointed-at");
}
