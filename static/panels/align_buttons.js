/**
 * The ways to align what is selected, as buttons of its properties.
 */

/** @import { Found } from "../plan/lookup.js" */
/** @import { Desk } from "../desk.js" */

import { WAYS, align } from "../gestures/align.js";
import { h } from "./html.js";

/** Those that the selection can take; null where none. @param {Desk} desk @param {Found[]} found */
export function alignButtons(desk, found) {
  const openings = found.some((entry) => entry.family === "openings");
  const others = found.filter((entry) => entry.family === "devices" || entry.family === "fixtures").length;
  const movable = others + found.filter((entry) => entry.family === "openings").length;
  const ways = WAYS.filter(({ way }) => {
    if (way === "room" || way === "below") return openings;
    if (way === "off") return others > 1;
    if (way === "across" || way === "along") return movable > 2;
    return movable > 1;
  });
  if (!ways.length) return null;
  return h("section", { class: "align", "aria-label": "Align" }, h("h3", {}, "Align"),
    h("div", { class: "buttons" }, ...ways.map(({ way, sign, words, key }, i) => h("button", {
      type: "button", class: "align-way", "aria-label": words, title: key ? `${words} (${key})` : words, ...(i ? {} : { "data-key": "align" }), onclick: () => align(desk, way),
    }, sign))));
}
