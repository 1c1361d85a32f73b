/**
 * Help: every key, from the table that the page obeys; what the marks on the drawing mean; every rule with its source.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Key } from "../gestures/keys.js" */
/** @import { Rule } from "../server/api.js" */

import { symbolOf } from "../drawing/devices.js";
import { make } from "../drawing/svg.js";
import { getRules } from "../server/api.js";
import { h } from "./html.js";
import { SEVERITY_WORDS, STATUS_WORDS, mark } from "./status.js";

export class Help {
  /** @param {Desk} desk @param {HTMLDialogElement} dialog @param {Key[]} keys @param {() => void} tour */
  constructor(desk, dialog, keys, tour) {
    this.dialog = dialog;
    this.rules = h("div", { class: "help-rules" });
    const showTour = () => {
      dialog.close();
      tour();
    };
    dialog.append(
      h("div", { class: "dialog-head" }, h("h2", {}, "Help"), h("button", { type: "button", class: "icon", "aria-label": "Close", onclick: () => dialog.close() }, "×")),
      h("p", {}, "Draw walls corner to corner, place windows and doors on them, then detectors. Lengths may be typed at any time: 12'-6\", 12' 6 1/2\", 12-6, 12.5', 150\", 3.81 m."),
      h("p", { class: "buttons" }, h("button", { type: "button", onclick: showTour }, "Show the tour"), h("a", { class: "button", href: "/help" }, "Help in full: design values, commands, cautions")),
      h("div", { class: "help-columns" }, ...groupsOf(keys)),
      h("h3", {}, "Marks"),
      h("ul", { class: "legend" },
        ...(/** @type {const} */ (["covered", "partial", "uncovered"])).map((status) => h("li", {}, mark(status), ` glass ${STATUS_WORDS[status]}`)),
        h("li", {}, "Heavy, hatched, dashed outline: the stretch of glass that no detector covers"),
        h("li", {}, "Dashed circle: reach in plan; dashed red leader with “over by”: too far")),
      h("h3", {}, "Symbols"),
      h("ul", { class: "legend" }, ...desk.tables.device_kinds.map((kind) => h("li", {}, make("svg", { viewBox: "-12 -12 24 24", class: "picture", "aria-hidden": "true" }, [symbolOf(kind)]), ` ${kind.abbreviation} ${kind.name}`))),
      h("h3", {}, "Rules"), this.rules);
  }

  open() {
    if (!this.dialog.open) this.dialog.showModal();
    if (!this.rules.children.length) this.#fetchRules();
  }

  async #fetchRules() {
    this.rules.replaceChildren(h("p", { class: "quiet" }, "Fetching the rules…"));
    try {
      const rules = await getRules();
      this.rules.replaceChildren(h("p", { class: "quiet" }, `${rules.length} rules; what each asks, what mends it, and who says so.`), h("ul", { class: "rules" }, ...rules.map(ruleLine)));
    } catch {
      this.rules.replaceChildren(h("p", {}, "The server does not answer: the rules are not here. ", h("button", { type: "button", onclick: () => this.#fetchRules() }, "Try again")));
    }
  }
}

/** @param {Key[]} keys */
function groupsOf(keys) {
  const groups = [...new Set(keys.map((key) => key.group))];
  return groups.map((group) => h("section", {}, h("h3", {}, group), h("table", { class: "plain" }, h("tbody", {},
    ...keys.filter((key) => key.group === group).map((key) => h("tr", {}, h("th", { scope: "row" }, h("kbd", {}, key.keys)), h("td", {}, key.words)))))));
}

/** @param {Rule} rule */
const ruleLine = (rule) => h("li", {}, mark(rule.severity), h("span", {}, h("b", {}, rule.name), ` · ${SEVERITY_WORDS[rule.severity]}. ${rule.words} `, h("i", {}, rule.mend), h("small", {}, rule.source)));
