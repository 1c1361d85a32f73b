/**
 * The step Proof: findings and panes, the views of how the house is protected, and the practice behind them.
 */

/** @import { Pane } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Panel } from "./steps.js" */

import { leadTo } from "../gestures/actions.js";
import { findings } from "./findings.js";
import { h } from "./html.js";
import { once, tellMissing } from "./late.js";
import { proofViews } from "./protection/views.js";
import { STATUS_WORDS, mark } from "./status.js";
import { compare, copyTools } from "./table_tools.js";

const GRAVITY = { uncovered: 0, partial: 1, covered: 2 };
/** @type {Record<string, (one: Pane, two: Pane) => number>} */
const ORDERS = {
  "the worst first": (one, two) => GRAVITY[one.status] - GRAVITY[two.status],
  "by name": (one, two) => compare(one.id, two.id),
  "the least covered first": (one, two) => (one.best?.fraction ?? 0) - (two.best?.fraction ?? 0),
};
const MOST = 200; // lines of a list at once

/** @type {Panel} */
export const proof = {
  fill(desk, place) {
    const panes = h("div", { class: "panes" });
    const order = h("select", { onchange: () => draw() }, ...Object.keys(ORDERS).map((words) => h("option", {}, words)));
    const sorted = () => desk.proof.panes.slice().sort(ORDERS[order.value]);
    const tools = copyTools("Panes", () => [["Pane", "Level", "State", "Area sq ft", "Best detector", "Covered", "Why"], ...sorted().map((pane) => [
      pane.id, pane.level, STATUS_WORDS[pane.status], pane.area_sqft.toFixed(2), pane.best?.device ?? "", `${((pane.best?.fraction ?? 0) * 100).toFixed(1)} %`, pane.why])]);
    const glass = h("div", {}, h("h3", {}, "Findings"), findings(desk), h("h3", {}, "Panes"), h("label", { class: "list-order" }, "Order", order), panes, tools);
    const practice = h("div");
    const fetchPractice = once(async () => practice.replaceChildren((await import("./practice.js")).wholePractice(desk)));
    const showPractice = () => fetchPractice().catch(() => tellMissing(practice, showPractice));
    proofViews(desk, place,
      { name: "findings", title: "Findings", words: "Findings, and the coverage of glass", element: glass },
      { name: "practice", title: "Practice", words: "The design values behind the proof", element: practice, opened: showPractice });
    const draw = () => panes.replaceChildren(...paneLines(desk, sorted()));
    desk.proof.listen((topic) => topic === "answer" && !desk.proof.tried && draw());
    desk.selection.listen(() => markChosen(desk, panes));
    draw();
  },
};

/** @param {Desk} desk @param {Pane[]} list */
function paneLines(desk, list) {
  if (!list.length) return [h("p", { class: "quiet" }, "No glass yet: place windows in step Shell.")];
  return [h("ul", {}, ...list.slice(0, MOST).map((pane) => h("li", {}, h("button", { type: "button", class: `pane-line ${pane.status}`, "data-pane-line": pane.id, onclick: () => leadTo(desk, pane.opening, pane.id) },
    mark(pane.status), h("b", {}, pane.id), h("span", {}, pane.status === "covered" ? `by ${pane.best?.device ?? ""}` : STATUS_WORDS[pane.status]))))), more(list.length)];
}

/** @param {number} count */
const more = (count) => (count > MOST ? h("p", { class: "quiet" }, `and ${count - MOST} more`) : h("span"));

/** @param {Desk} desk @param {HTMLElement} panes */
function markChosen(desk, panes) {
  for (const line of panes.querySelectorAll("[data-pane-line]")) line.classList.toggle("chosen", line.getAttribute("data-pane-line") === desk.selection.pane);
}
