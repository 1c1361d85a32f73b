/**
 * Zoom, fit, and which kinds of thing are shown.
 */

/** @import { Desk } from "../desk.js" */

import { unitsOf } from "../plan/lookup.js";
import { h } from "./html.js";
import { keepChoice, keptChoice } from "./kept_choice.js";

/** @import { Rulers } from "../drawing/rulers.js" */

const RULERS = "studbay-rulers";
const FAR = 8; // px a foot: from farther off the drawing keeps to walls, glass, devices and names
const NARROW = 860; // px: rulers are off on a narrow window until they are asked for

/** @type {[string, string][]} class that hides, words */
const KINDS = [["rooms", "Room names"], ["fixtures", "Obstructions and points"], ["devices", "Devices"], ["motion", "Floor seen"], ["reach", "Reach"], ["glass", "Glass marks"], ["grid", "Grid"], ["underlay", "Picture underneath"]];

/** The choice of rulers, kept in the browser; they are fetched when first shown. @param {Desk} desk */
function rulers(desk) {
  /** @type {Promise<Rulers> | null} */
  let made = null;
  const choice = h("input", { type: "checkbox", checked: (keptChoice(RULERS) ?? (innerWidth > NARROW ? "yes" : "no")) === "yes" });
  const show = async () => {
    if (!made && !choice.checked) return;
    made ??= import("../drawing/rulers.js").then((part) => new part.Rulers(desk.drawing.board, desk.view, () => unitsOf(desk.store.plan)));
    (await made).show(choice.checked);
  };
  const fetch = () => show().catch(() => {
    made = null; // the drawing does without until they are asked for again
  });
  choice.addEventListener("change", () => {
    keepChoice(RULERS, choice.checked ? "yes" : "no");
    fetch();
  });
  desk.store.listen((topic) => topic === "plan" && fetch());
  setTimeout(fetch);
  return choice;
}

/** A whole house on a phone: small signs, lines of furniture and marks of glass that is covered come back from nearer. @param {Desk} desk */
function thinFarOff(desk) {
  const mark = () => desk.drawing.board.classList.toggle("is-far", desk.view.scale < FAR);
  desk.view.listen(mark);
  mark();
}

/** Escape, or a press beside it, closes a menu, which lies over the drawing. @param {HTMLDetailsElement} menu */
function closing(menu) {
  menu.onkeydown = (event) => {
    if (event.key !== "Escape" || !menu.open) return;
    event.stopPropagation();
    menu.open = false;
    menu.querySelector("summary")?.focus();
  };
  addEventListener("pointerdown", (event) => event.composedPath().includes(menu) || (menu.open = false));
  return menu;
}

/** @param {Desk} desk @param {HTMLElement} place */
export function viewButtons(desk, place) {
  const button = (/** @type {string} */ words, /** @type {string} */ sign, /** @type {() => void} */ act) => h("button", { type: "button", "aria-label": words, title: words, onclick: act }, sign);
  thinFarOff(desk);
  const ghost = h("input", { type: "checkbox", checked: true, onchange: () => {
    desk.drawing.showGhost = ghost.checked;
    desk.drawing.ask();
  } });
  const measured = rulers(desk);
  const sheet = place.parentElement;
  if (sheet && matchMedia("(pointer: coarse)").matches) import("./touch_bar.js").then((part) => part.touchBar(desk, sheet), () => {}); // drawing does without it
  place.append(
    closing(h("details", { class: "shown" }, h("summary", { title: "Show and hide" }, "Show"), h("div", { class: "menu" },
      ...KINDS.map(([name, words]) => h("label", {}, h("input", { type: "checkbox", checked: true, onchange: (/** @type {Event} */ event) => desk.drawing.board.classList.toggle(`hide-${name}`, !(/** @type {HTMLInputElement} */ (event.target).checked)) }), ` ${words}`)),
      h("label", {}, measured, " Rulers"),
      h("label", {}, ghost, " Level below")))),
    button("Zoom out", "−", () => desk.view.zoomMiddle(0.8)),
    button("Zoom in", "+", () => desk.view.zoomMiddle(1.25)),
    button("Fit the level (F)", "Fit", () => desk.drawing.fit()));
}
