/**
 * The step Cable: home runs on the drawing and in tables, each leading to the other; boxes, zones, power and risers.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Panel } from "./steps.js" */

import { drawCable } from "../drawing/cable_runs.js";
import { riserTags } from "../drawing/riser_tags.js";
import { waypointHandles } from "../drawing/waypoint_handles.js";
import { make } from "../drawing/svg.js";
import { find } from "../plan/lookup.js";
import { Cable } from "../server/cable.js";
import { boxes } from "./cable/boxes.js";
import { power } from "./cable/power.js";
import { PullTable } from "./cable/pull_table.js";
import { risers } from "./cable/risers.js";
import { run } from "./cable/run.js";
import { zones } from "./cable/zones.js";
import { h } from "./html.js";
import { practiceForm } from "./practice.js";

/** @type {Panel} */
export const cable = {
  fill(desk, place) {
    const schedule = new Cable(desk.planId, desk.autosave);
    const layer = make("g", { class: "layer cable" });
    const names = desk.drawing.layer("rooms");
    const under = names.previousElementSibling;
    const state = h("p", { class: "quiet", role: "status" });
    const table = new PullTable(desk, schedule);
    const parts = [run, boxes, risers, zones, power].map((part) => part(desk, schedule));
    const files = h("p", { class: "buttons" }, ...[["pulls.csv", "Pulls as CSV"], ["pulls.xlsx", "Schedule as a workbook"]].map(([file, words]) => h("a", { class: "button", href: `/api/plans/${desk.planId}/${file}`, download: "" }, words ?? "")));
    place.append(state, table.totals, ...parts.slice(0, 1), table.element, files, ...parts.slice(1), practiceForm(desk, ["cable", "power", "battery", "zone"]));

    const draw = () => drawLayer(desk, schedule, layer, table.chosen);
    const answered = () => {
      state.textContent = stateWords(schedule);
      state.hidden = !state.textContent;
      draw();
    };
    schedule.listen(answered);
    table.listen(draw);
    desk.selection.listen(draw);
    desk.store.listen((topic) => (topic === "draft" ? tryDraft(desk, schedule) : draw()));
    // While runs are shown, the rooms' names stand over them, not struck through.
    const stand = () => (place.hidden ? under?.after(names) : desk.drawing.layer("devices").before(layer, names));
    let scale = 0;
    desk.view.listen(() => {
      if (Math.abs(Math.log2(desk.view.scale / (scale || 1))) < 0.2) return;
      scale = desk.view.scale;
      draw();
    });
    new MutationObserver(() => {
      schedule.watch(!place.hidden);
      stand();
      draw();
    }).observe(place, { attributeFilter: ["hidden"] });
    stand();
    answered();
  },
};

/** Measure the runs anew while a device is dragged. @param {Desk} desk @param {Cable} schedule */
function tryDraft(desk, schedule) {
  const { draft, plan } = desk.store;
  if (!schedule.watched) return;
  if (!draft) return schedule.end();
  const id = desk.selection.only;
  const found = id ? find(draft, id) : undefined;
  if (found?.family === "devices" && found.thing !== find(plan, found.thing.id)?.thing) schedule.ask(found.level.id, found.thing);
}

/** @param {Cable} schedule */
function stateWords(schedule) {
  if (schedule.trouble) return `The schedule could not be worked out: ${schedule.trouble}`;
  if (!schedule.answer) return "Working out the home runs…";
  return schedule.answer.pulls.length ? "" : "No device needs cable yet: place devices in step Devices.";
}

/** @param {Desk} desk @param {Cable} schedule @param {SVGElement} layer @param {Set<string>} filtered labels */
function drawLayer(desk, schedule, layer, filtered) {
  const { answer } = schedule;
  if (!schedule.watched || !answer) return layer.replaceChildren();
  const { plan, levelId } = desk.store;
  const own = [...desk.selection.ids].flatMap((id) => schedule.pullsOf(id));
  const chosen = own.length ? new Set(own.map((pull) => pull.label)) : filtered;
  layer.replaceChildren(...drawCable(answer, plan, levelId, chosen, desk.view.scale, riserTags(desk, answer)), ...handles(desk, schedule));
}

/** @param {Desk} desk @param {Cable} schedule */
function handles(desk, schedule) {
  const only = desk.selection.only;
  const found = only ? find(desk.store.plan, only) : undefined;
  const pull = schedule.pullsOf(only)[0];
  if (found?.family !== "devices" || found.level.id !== desk.store.levelId || !pull?.route) return [];
  const level = schedule.answer?.bundles.find((bundle) => bundle.level === found.level.id);
  return level ? waypointHandles(pull, found.thing, level.z, desk.view.scale) : [];
}
