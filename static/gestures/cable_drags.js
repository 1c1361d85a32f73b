/**
 * Drags of the step Cable: a way-point of a home run, and a riser between levels.
 */

/** @import { Device, Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Drag } from "./drags.js" */

import { changeThing } from "../plan/edits.js";
import { find, tagOf, unitsOf } from "../plan/lookup.js";
import { lengthText } from "../plan/measures.js";
import { MOST_WAYPOINTS, noteWith, waypointsOf } from "../plan/waypoints.js";
import { guide, marksOf } from "../drawing/marks.js";
import { snapMarks, snapped } from "./field.js";

/**
 * Move a way-point, or put in a new one: "via2" moves the third, "via+2" puts one in before it.
 * @param {Desk} desk @param {string} id @param {string} what @returns {Drag}
 */
export function dragWaypoint(desk, id, what) {
  const { plan } = desk.store;
  const found = find(plan, id);
  const device = /** @type {Device} */ (found?.thing);
  const before = waypointsOf(device);
  const isNew = what.startsWith("via+");
  const number = Number(what.slice(isNew ? 4 : 3));
  const full = isNew && before.length >= MOST_WAYPOINTS;
  /** @type {Point[] | null} */
  let points = null;
  return {
    move(spot) {
      if (full) return marksOf(desk).say(spot.at, `${MOST_WAYPOINTS} way-points`, "a run has no more: take one out first");
      const to = snapped(desk, spot, null, { without: new Set() });
      points = before.slice();
      points.splice(number, isNew ? 0 : 1, to.at);
      const beside = [points[number - 1] ?? device.at, points[number + 1]].filter((point) => point !== undefined);
      marksOf(desk).show([...snapMarks(to), ...beside.map((point) => guide(point, to.at))]);
      marksOf(desk).say(to.at, `${tagOf(device, desk.tables)} by way of`, placeWords(to.at, desk));
    },
    end() {
      marksOf(desk).clear();
      if (points) setWaypoints(desk, device, points, isNew ? "Lead a run by a way-point" : "Move a way-point");
    },
    cancel: () => marksOf(desk).clear(),
  };
}

/** @param {Desk} desk @param {Device} device @param {Point[]} points @param {string} words */
export function setWaypoints(desk, device, points, words) {
  desk.store.commit(`${words} (${tagOf(device, desk.tables)})`, changeThing(desk.store.plan, device.id, { note: noteWith(device, points) ?? undefined }));
}

/** Move a riser. @param {Desk} desk @param {string} id @returns {Drag} */
export function dragRiser(desk, id) {
  const { plan } = desk.store;
  /** @type {Point | null} */
  let at = null;
  return {
    move(spot) {
      const to = snapped(desk, spot, null, { without: new Set() });
      at = to.at;
      marksOf(desk).show(snapMarks(to));
      marksOf(desk).say(to.at, `riser ${id}`, placeWords(to.at, desk));
    },
    end() {
      marksOf(desk).clear();
      const moved = at;
      if (moved) desk.store.commit(`Move riser ${id}`, { ...plan, risers: (plan.risers ?? []).map((riser) => (riser.id === id ? { ...riser, at: moved } : riser)) });
    },
    cancel: () => marksOf(desk).clear(),
  };
}

/** @param {Point} at @param {Desk} desk */
function placeWords(at, desk) {
  const units = unitsOf(desk.store.plan);
  return `${lengthText(at[0], units, 2)} east, ${lengthText(at[1], units, 2)} north`;
}
