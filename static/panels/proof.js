/**
 * The step Proof: findings and panes, the views of how the house is protected, and the practice behind them; and the
 * elevation of the chosen pane.
 */

/** @import { Pane } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Panel } from "./steps.js" */

import { changeThing } from "../plan/edits.js";
import { find, unitsOf } from "../plan/lookup.js";
import { plus } from "../geometry/points.js";
import { leadTo } from "../gestures/actions.js";
import { drawElevation } from "./elevation.js";
import { findings } from "./findings.js";
import { h } from "./html.js";
import { wholePractice } from "./practice.js";
import { proofViews } from "./protection/views.js";
import { STATUS_WORDS, mark } from "./status.js";

const ORDER = { uncovered: 0, partial: 1, covered: 2 };
const MOST = 200; // lines of a list at once

/** @type {Panel} */
export const proof = {
  name: "Proof",
  words: "Coverage of glass and floor, the findings, and how the house is protected",
  fill(desk, place) {
    const panes = h("div", { class: "panes" });
    const glass = h("div", {}, h("h3", {}, "Findings"), findings(desk), h("h3", {}, "Panes"), panes);
    proofViews(desk, place,
      { name: "findings", title: "Findings", words: "Findings, and the coverage of glass", element: glass },
      { name: "practice", title: "Practice", words: "The design values behind the proof", element: wholePractice(desk) });
    const draw = () => panes.replaceChildren(...paneLines(desk));
    desk.proof.listen((topic) => topic === "answer" && !desk.proof.tried && draw());
    desk.selection.listen(() => markChosen(desk, panes));
    draw();
  },
};

/** The elevation of the chosen pane, wherever the page shows it. @param {Desk} desk @param {HTMLElement} place */
export function showElevation(desk, place) {
  const draw = () => {
    const pane = desk.proof.panes.find((entry) => entry.id === desk.selection.pane);
    place.hidden = !pane;
    if (!pane) return place.replaceChildren();
    const ceiling = desk.store.plan.levels.find((level) => level.id === pane.level)?.ceiling ?? 9;
    place.replaceChildren(
      h("h2", {}, mark(pane.status), ` Pane ${pane.id}: ${STATUS_WORDS[pane.status]}`),
      siblings(desk, pane),
      drawElevation(pane, ceiling, unitsOf(desk.store.plan)),
      h("p", { class: "why" }, pane.why),
      ...mending(desk, pane));
  };
  desk.selection.listen(draw);
  desk.proof.listen((topic) => topic === "answer" && draw());
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
}

/** The other panes of the same opening. @param {Desk} desk @param {Pane} pane */
function siblings(desk, pane) {
  const all = desk.proof.panes.filter((entry) => entry.opening === pane.opening);
  if (all.length < 2) return h("span");
  return h("div", { class: "siblings", role: "group", "aria-label": "Panes of this opening" }, ...all.map((entry) =>
    h("button", { type: "button", "aria-pressed": String(entry.id === pane.id), onclick: () => desk.selection.set([entry.opening], entry.id) }, mark(entry.status), ` ${entry.id.split("/").at(-1)}`)));
}

/** @param {Desk} desk @param {Pane} pane */
function mending(desk, pane) {
  const { mend } = pane;
  if (!mend) return [];
  const act = () => {
    const found = find(desk.store.plan, mend.device);
    if (found?.family !== "devices") return;
    desk.store.commit(`Move ${mend.device} as told`, changeThing(desk.store.plan, mend.device, { at: plus(found.thing.at, mend.move) }));
    desk.say(`${mend.device} moved: ${mend.words}`);
  };
  return [h("p", { class: "mend" }, mend.words, " ", find(desk.store.plan, mend.device) ? h("button", { type: "button", onclick: act }, "Move it there") : null)];
}

/** @param {Desk} desk */
function paneLines(desk) {
  const list = desk.proof.panes.slice().sort((one, two) => ORDER[one.status] - ORDER[two.status]);
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
