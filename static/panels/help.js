/**
 * Help: every key, from the table that the page obeys, and what the marks on the drawing mean.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Key } from "../gestures/keys.js" */

import { symbolOf } from "../drawing/devices.js";
import { make } from "../drawing/svg.js";
import { h } from "./html.js";
import { STATUS_WORDS, mark } from "./status.js";

/** @param {Desk} desk @param {HTMLDialogElement} dialog @param {Key[]} keys */
export function fillHelp(desk, dialog, keys) {
  const groups = [...new Set(keys.map((key) => key.group))];
  dialog.append(
    h("div", { class: "dialog-head" }, h("h2", {}, "Help"), h("button", { type: "button", class: "icon", "aria-label": "Close", onclick: () => dialog.close() }, "×")),
    h("p", {}, "Draw walls corner to corner, place windows and doors on them, then detectors. Lengths may be typed at any time: 12'-6\", 12' 6 1/2\", 12-6, 12.5', 150\", 3.81 m."),
    h("div", { class: "help-columns" }, ...groups.map((group) => h("section", {}, h("h3", {}, group), h("table", { class: "plain" }, h("tbody", {},
      ...keys.filter((key) => key.group === group).map((key) => h("tr", {}, h("th", { scope: "row" }, h("kbd", {}, key.keys)), h("td", {}, key.words)))))))),
    h("h3", {}, "Marks"),
    h("ul", { class: "legend" },
      ...(/** @type {const} */ (["covered", "partial", "uncovered"])).map((status) => h("li", {}, mark(status), ` glass ${STATUS_WORDS[status]}`)),
      h("li", {}, "Heavy, hatched, dashed outline: the stretch of glass that no detector covers"),
      h("li", {}, "Dashed circle: reach in plan; dashed red leader with “over by”: too far")),
    h("h3", {}, "Symbols"),
    h("ul", { class: "legend" }, ...desk.tables.device_kinds.map((kind) => h("li", {}, make("svg", { viewBox: "-12 -12 24 24", class: "picture", "aria-hidden": "true" }, [symbolOf(kind)]), ` ${kind.abbreviation} ${kind.name}`))));
}
