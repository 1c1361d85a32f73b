/**
 * What dragging from a spot means: which of the drags a press on a thing, on its handle or on empty ground begins.
 */

/** @import { Desk } from "../desk.js" */
/** @import { Drag } from "./drags.js" */
/** @import { Spot } from "./gesture.js" */

import { find } from "../plan/lookup.js";
import { isMet } from "../plan/wall_shift.js";
import { dragRiser, dragWaypoint } from "./cable_drags.js";
import { dragWall } from "./drag_wall.js";
import { dragCorner, dragDevice, dragOutlineCorner, dragThings, selectBox, slideOpening, turnDevice } from "./drags.js";

/** What dragging from a spot means. @param {Desk} desk @param {Spot} spot @returns {Drag} */
export function dragFrom(desk, spot) {
  if (spot.id && spot.handle === "riser") return dragRiser(desk, spot.id);
  const found = spot.id ? find(desk.store.plan, spot.id) : undefined;
  if (!found) return selectBox(desk, spot);
  if (spot.handle) return pull(desk, spot.handle, spot);
  if (desk.selection.ids.size > 1 && desk.selection.ids.has(found.thing.id)) return dragThings(desk, desk.selection.ids, spot.at);
  desk.selection.set([found.thing.id], desk.selection.pane);
  if (found.family === "devices") return dragDevice(desk, found.thing, spot.at);
  if (found.family === "openings") return slideOpening(desk, found.thing, spot.at);
  if (found.family === "walls" && isMet(desk.store.committedLevel, found.thing)) return dragWall(desk, found.thing, spot.at);
  return dragThings(desk, new Set([found.thing.id]), spot.at);
}

/** @param {Desk} desk @param {string} what @param {Spot} spot @returns {Drag} */
function pull(desk, what, spot) {
  const found = spot.id ? find(desk.store.plan, spot.id) : undefined;
  if (found?.family === "walls") return dragCorner(desk, what === "a" ? found.thing.a : found.thing.b);
  if (found && what.startsWith("via")) return dragWaypoint(desk, found.thing.id, what);
  if (found?.family === "devices") return turnDevice(desk, found.thing);
  return dragOutlineCorner(desk, spot.id ?? "", Number(what));
}
