/**
 * Zoom, fit, and which kinds of thing are shown.
 */

/** @import { Desk } from "../desk.js" */

import { h } from "./html.js";

/** @type {[string, string][]} class that hides, words */
const KINDS = [["rooms", "Room names"], ["fixtures", "Obstructions and points"], ["devices", "Devices"], ["motion", "Floor seen"], ["reach", "Reach"], ["glass", "Glass marks"], ["grid", "Grid"]];

/** @param {Desk} desk @param {HTMLElement} place */
export function viewButtons(desk, place) {
  const button = (/** @type {string} */ words, /** @type {string} */ sign, /** @type {() => void} */ act) => h("button", { type: "button", "aria-label": words, title: words, onclick: act }, sign);
  const ghost = h("input", { type: "checkbox", checked: true, onchange: () => {
    desk.drawing.showGhost = ghost.checked;
    desk.drawing.ask();
  } });
  place.append(
    h("details", { class: "shown" }, h("summary", { title: "Show and hide" }, "Show"), h("div", { class: "menu" },
      ...KINDS.map(([name, words]) => h("label", {}, h("input", { type: "checkbox", checked: true, onchange: (/** @type {Event} */ event) => desk.drawing.svg.classList.toggle(`hide-${name}`, !(/** @type {HTMLInputElement} */ (event.target).checked)) }), ` ${words}`)),
      h("label", {}, ghost, " Level below"))),
    button("Zoom out", "−", () => desk.view.zoomMiddle(0.8)),
    button("Zoom in", "+", () => desk.view.zoomMiddle(1.25)),
    button("Fit the level (F)", "Fit", () => desk.drawing.fit()));
}
