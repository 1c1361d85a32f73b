/**
 * The chosen pane beside the drawing: its elevation, why it stands as it does, and the move that would mend it.
 */

/** @import { Pane } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */

import { plus } from "../geometry/points.js";
import { changeThing } from "../plan/edits.js";
import { find, unitsOf } from "../plan/lookup.js";
import { drawElevation } from "./elevation.js";
import { h } from "./html.js";
import { STATUS_WORDS, mark } from "./status.js";

/** @param {Desk} desk @param {HTMLElement} place */
export function showChosenPane(desk, place) {
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
