/**
 * Walls as the trade draws them: solid bodies cut at their openings, joined with clean mitres; half walls light.
 */

/** @import { Level, Opening, Point, Wall } from "../plan/types.js" */

import { joints, stretchBody } from "../geometry/joints.js";
import { distance } from "../geometry/points.js";
import { make, segment, through } from "./svg.js";

/** @param {Level} level @returns {SVGElement[]} */
export function drawWalls(level) {
  const walls = level.walls ?? [];
  const { arms, patches } = joints(walls);
  const cuts = cutsOf(level.openings ?? []);
  let [full, half] = ["", ""];
  for (const wall of walls) {
    const ends = arms.get(wall.id);
    if (!ends) continue;
    const body = solidStretches(wall, cuts.get(wall.id) ?? []).map(([from, to]) => through(stretchBody(wall, ends, from, to), true)).join("");
    if (wall.height == null) full += body;
    else half += body;
  }
  for (const patch of patches) if (patch.full) full += through(patch.ring, true);
  else half += through(patch.ring, true);
  return [
    // Twice the same path: the lower one's line shows about the outside only, so no seam is seen at a joint.
    make("path", { class: "wall-edge half", d: half }),
    make("path", { class: "half-wall", d: half }),
    make("path", { class: "wall-edge", d: full }),
    make("path", { class: "wall", d: full }),
    ...walls.map((wall) => make("path", { class: "touch", d: segment(wall.a, wall.b), "data-id": wall.id, "data-family": "walls", "stroke-width": wall.thickness ?? 0.375 })),
  ];
}

/** The outline of walls alone, for the level below. @param {Wall[]} walls */
export function drawGhost(walls) {
  const { arms } = joints(walls);
  return make("path", { class: "ghost", d: walls.map((wall) => {
    const ends = arms.get(wall.id);
    return ends ? through(stretchBody(wall, ends, 0, distance(wall.a, wall.b)), true) : "";
  }).join("") });
}

/** @param {Opening[]} openings @returns {Map<string, [number, number][]>} */
function cutsOf(openings) {
  /** @type {Map<string, [number, number][]>} */
  const cuts = new Map();
  for (const opening of openings) {
    const there = cuts.get(opening.wall) ?? [];
    there.push([opening.offset, opening.offset + opening.width]);
    cuts.set(opening.wall, there);
  }
  return cuts;
}

/** @param {Wall} wall @param {[number, number][]} cuts @returns {[number, number][]} */
function solidStretches(wall, cuts) {
  const length = distance(wall.a, wall.b);
  /** @type {[number, number][]} */
  const solid = [];
  let here = 0;
  for (const [from, to] of cuts.slice().sort((one, two) => one[0] - two[0])) {
    if (from > here + 1e-4) solid.push([here, from]);
    here = Math.max(here, to);
  }
  if (here < length - 1e-4) solid.push([here, length]);
  return solid;
}

/** @param {Wall[]} walls @returns {Point[]} every corner once */
export function cornersOf(walls) {
  /** @type {Map<string, Point>} */
  const corners = new Map();
  for (const wall of walls) for (const end of [wall.a, wall.b]) corners.set(`${end[0].toFixed(3)},${end[1].toFixed(3)}`, end);
  return [...corners.values()];
}
