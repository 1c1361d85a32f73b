/**
 * The step Proof: the elevation of the chosen pane, the list of panes and of findings, and the practice behind them.
 */

/** @import { Finding, Pane } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Panel } from "./steps.js" */

import { changeThing } from "../plan/edits.js";
import { find, unitsOf } from "../plan/lookup.js";
import { plus } from "../geometry/points.js";
import { leadTo } from "../gestures/actions.js";
import { drawElevation } from "./elevation.js";
import { h } from "./html.js";
import { practiceForm } from "./practice.js";
import { SEVERITY_WORDS, STATUS_WORDS, mark } from "./status.js";

const ORDER = { must: 0, should: 1, note: 2, uncovered: 0, partial: 1, covered: 2 };
const MOST = 200; // lines of a list at once

/** @type {Panel} */
export const proof = {
  name: "Proof",
  words: "Coverage of glass and floor, and the findings",
  fill(desk, place) {
    const findings = h("div", { class: "findings" });
    const panes = h("div", { class: "panes" });
    place.append(
      h("h3", {}, "Findings"), findings,
      h("h3", {}, "Panes"), panes,
      practiceForm(desk, ["glass", "motion", "doors"]));
    const draw = () => {
      findings.replaceChildren(...findingLines(desk));
      panes.replaceChildren(...paneLines(desk));
    };
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
function findingLines(desk) {
  const list = (desk.proof.answer?.findings ?? []).slice().sort((one, two) => ORDER[one.severity] - ORDER[two.severity]);
  if (!desk.proof.answer) return [h("p", { class: "quiet" }, "Working…")];
  if (!list.length) return [h("p", {}, mark("covered"), " Nothing to mend.")];
  return [h("ul", {}, ...list.slice(0, MOST).map((finding) => h("li", {}, findingLine(desk, finding)))), more(list.length)];
}

/** @param {Desk} desk @param {Finding} finding */
function findingLine(desk, finding) {
  const first = finding.things[0];
  return h("button", { type: "button", class: `finding ${finding.severity}`, onclick: () => first && leadTo(desk, first) },
    mark(finding.severity), h("span", {}, h("b", {}, `${SEVERITY_WORDS[finding.severity]}: `), finding.message, h("small", {}, finding.source)));
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
