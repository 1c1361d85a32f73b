/**
 * What the pointer may snap to on the level in view, and the snapped place of a spot.
 */

/** @import { Point } from "../plan/types.js" */
/** @import { Desk } from "../desk.js" */
/** @import { Spot } from "./gesture.js" */
/** @import { Snapped } from "./snapping.js" */

import { guide, snapMark } from "../drawing/marks.js";
import { stepFor } from "../drawing/grid.js";
import { unitsOf } from "../plan/lookup.js";
import { snap, unsnapped } from "./snapping.js";

export const SLID = 14; // px from where it set down after which a finger draws a wall or a room in one go

/**
 * @param {Desk} desk @param {Spot} spot @param {Point | null} [from] where the line under way begins
 * @param {{corners?: Point[], without?: Set<string>}} [more] other corners; walls to leave out
 * @returns {Snapped}
 */
export function snapped(desk, spot, from = null, { corners = [], without } = {}) {
  if (spot.free) return unsnapped(spot.at);
  const walls = desk.store.committedLevel.walls ?? [];
  return snap(spot.at, {
    walls: without ? walls.filter((wall) => !without.has(wall.id)) : walls,
    corners: corners.concat((desk.store.committedLevel.fixtures ?? []).flatMap((fixture) => (without?.has(fixture.id) ? [] : fixture.polygon ?? []))),
    scale: desk.view.scale,
    step: gridStep(desk),
  }, from);
}

/** @param {Desk} desk */
export const gridStep = (desk) => stepFor(desk.view.scale, unitsOf(desk.store.plan), 6);

/** The marks of what was snapped to. @param {Snapped} snapped */
export const snapMarks = (snapped) => [...snapped.guides.map(([p, q]) => guide(p, q)), snapMark(snapped.at, snapped.kind)];
