/**
 * Revisions in the step Handover: how the plan stands to what was approved, named revisions, two of them compared with
 * clouds on the drawing, approval, and the way back to any.
 */

/** @import { Desk } from "../desk.js" */

import { drawClouds } from "../drawing/clouds.js";
import { make } from "../drawing/svg.js";
import { History } from "../server/history.js";
import { section } from "./fields.js";
import { h } from "./html.js";
import { comparison } from "./revisions/comparison.js";
import { list } from "./revisions/list.js";
import { markOf } from "./revisions/words.js";

/** @param {Desk} desk @param {HTMLElement} panel the step's place: revisions are watched while it is in sight */
export function revisions(desk, panel) {
  const history = new History(desk.planId, desk.autosave);
  const layer = make("g", { class: "layer clouds" });
  desk.drawing.layer("marks").before(layer);
  const standing = h("p", { class: "how-it-stands", role: "status" });
  const trouble = h("p", { class: "fault", role: "alert" });
  const draw = () => {
    drawStanding(desk, history, standing);
    trouble.textContent = history.trouble ? `What stands here may be old: ${history.trouble}.` : "";
    drawLayer();
  };
  const drawLayer = () => {
    const { shown, pair } = history;
    layer.replaceChildren(...(shown && pair ? drawClouds(shown, desk.store.levelId, markOf(history, pair.to), desk.view.scale) : []));
  };
  history.listen(draw);
  desk.autosave.listen(draw);
  desk.store.listen((topic) => topic === "level" && drawLayer());
  let scale = 0;
  desk.view.listen(() => {
    if (desk.view.scale === scale) return;
    scale = desk.view.scale;
    drawLayer();
  });
  new MutationObserver(() => history.watch(!panel.hidden)).observe(panel, { attributeFilter: ["hidden"] });
  draw();
  const part = section("Revisions", standing, trouble, list(desk, history));
  part.classList.add("revisions");
  return [part, comparison(desk, history)];
}

/** @param {Desk} desk @param {History} history @param {HTMLElement} place */
function drawStanding(desk, history, place) {
  const told = history.standing;
  const current = desk.autosave.isCurrent && told?.revision === desk.autosave.revision;
  const state = !told ? "unknown" : told.approved === null ? "none" : told.changes || !current ? "differs" : "approved";
  const words = !told ? "Looking up the revisions…" : current || told.approved === null ? told.words : `${told.words}; the plan on the page is newer`;
  if (place.dataset.state === state && place.textContent === words) return;
  place.dataset.state = state;
  place.textContent = words;
}
