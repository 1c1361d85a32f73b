/**
 * The home run of the one device selected: its lengths, its tags, its way-points.
 */

/** @import { Pull } from "../../plan/cable_types.js" */
/** @import { Device } from "../../plan/types.js" */
/** @import { Cable } from "../../server/cable.js" */
/** @import { Desk } from "../../desk.js" */

import { setWaypoints } from "../../gestures/cable_drags.js";
import { find, unitsOf } from "../../plan/lookup.js";
import { lengthText } from "../../plan/measures.js";
import { waypointsOf } from "../../plan/waypoints.js";
import { h } from "../html.js";
import { cableLength } from "./words.js";

/** @param {Desk} desk @param {Cable} schedule */
export function run(desk, schedule) {
  const place = h("section", { class: "one-run", "aria-label": "Home run of the selection" });
  const draw = () => {
    const found = desk.selection.only ? find(desk.store.plan, desk.selection.only) : undefined;
    const pull = found?.family === "devices" ? schedule.pullsOf(found.thing.id)[0] : undefined;
    place.hidden = !pull;
    place.replaceChildren(...(pull && found?.family === "devices" ? lines(desk, pull, found.thing) : []));
  };
  schedule.listen(draw);
  desk.selection.listen(draw);
  desk.store.listen((topic) => topic === "plan" && draw());
  draw();
  return place;
}

/** @param {Desk} desk @param {Pull} pull @param {Device} device */
function lines(desk, pull, device) {
  const units = unitsOf(desk.store.plan);
  if (!pull.route) return [h("h3", {}, `Run ${pull.label}`), h("p", { class: "caution" }, "No can can be reached: add a can on this level, or a riser to a level that has one.")];
  const points = waypointsOf(device);
  return [
    h("h3", {}, `Run ${pull.label} to ${pull.can}`),
    h("p", {}, `${pull.cable}, measured ${lengthText(pull.measured_ft ?? 0, units, 1)}, cut ${cableLength(desk, pull.cut_ft)}.`),
    points.length
      ? h("ol", { class: "way-points" }, ...points.map(([x, y], i) => h("li", {}, `${lengthText(x, units, 2)} E, ${lengthText(y, units, 2)} N `,
        h("button", { type: "button", class: "link", onclick: () => setWaypoints(desk, device, points.filter((_, other) => other !== i), "Take out a way-point") }, "take out"))))
      : h("p", { class: "quiet" }, "The shortest way. Drag a + on the drawing to lead it another way."),
  ];
}
