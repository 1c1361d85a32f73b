/**
 * Where a device of a kind belongs near the pointer: motions in inside corners, keypads above a light switch, sirens
 * beside the chime, contacts on their opening, what hangs on a wall on its face; glass breaks anywhere.
 */

/** @import { Device, DeviceKind, Level, Opening, Point, Wall } from "../plan/types.js" */
/** @import { Snapped } from "./snapping.js" */

import { bearing, between, cross, direction, distance, dot, inside, leftOf, minus, nearestOn, plus, times } from "../geometry/points.js";
import { wallOf } from "../plan/lookup.js";
import { nearestWall, unsnapped } from "./snapping.js";

const [NEAR, FAR] = [16, 30]; // px
export const AT_FACE = 1; // ft: what hangs on walls takes to one that is this near, however far the view is zoomed in
const OFF_FACE = 0.08; // ft between a wall's face and a device on it

/** @type {Record<string, string>} the fixture that a kind of device goes to */
const BESIDE = { keypad: "light_switch", siren: "chime" };

/** @typedef {{snapped: Snapped, keys: Partial<Device>}} Place `keys`: what the place says of the device */

/**
 * @param {Point} p @param {DeviceKind} kind @param {Level} level @param {Point[][]} faces of the level
 * @param {number} scale px a foot @returns {Place}
 */
export function placeFor(p, kind, level, faces, scale) {
  const [near, far] = [NEAR / scale, FAR / scale];
  if (kind.kind.endsWith("contact")) return onOpening(p, kind, level, far) ?? free(p);
  const fixture = BESIDE[kind.kind];
  const beside = (level.fixtures ?? []).find((entry) => entry.kind === fixture && entry.at && distance(entry.at, p) < near);
  if (beside?.at) return { snapped: { at: beside.at, kind: "fixture", words: kind.kind === "keypad" ? "above the light switch" : "beside the chime", guides: [] }, keys: {} };
  if (kind.mount === "corner") {
    const corner = inCorner(p, level, faces, near);
    if (corner) return corner;
  }
  if (kind.mount === "ceiling" || kind.mount === "surface") return free(p);
  const face = onFace(p, level, Math.max(near, AT_FACE));
  if (!face) return free(p);
  return kind.faces ? face : { ...face, keys: {} };
}

/** @param {Point} p @returns {Place} */
const free = (p) => ({ snapped: unsnapped(p), keys: {} });

/** @param {Point} p @param {DeviceKind} kind @param {Level} level @param {number} far @returns {Place | null} */
function onOpening(p, kind, level, far) {
  /** @type {{opening: Opening, at: Point, away: number} | null} */
  let best = null;
  for (const opening of level.openings ?? []) {
    if (opening.kind !== (kind.kind === "window_contact" ? "window" : "door") || (kind.kind === "overhead_door_contact") !== (opening.leaf === "overhead")) continue;
    const wall = wallOf(level, opening.wall);
    if (!wall) continue;
    const at = between(wall.a, wall.b, (opening.offset + opening.width / 2) / distance(wall.a, wall.b));
    const away = distance(at, p);
    if (away < Math.max(far, opening.width / 2) && away < (best?.away ?? Infinity)) best = { opening, at, away };
  }
  return best && { snapped: { at: best.at, kind: "opening", words: `guards ${best.opening.id}`, guides: [] }, keys: { serves: [best.opening.id] } };
}

/** @param {Point} p @param {Level} level @param {Point[][]} faces @param {number} near @returns {Place | null} */
function inCorner(p, level, faces, near) {
  for (const ring of faces.filter((face) => inside(p, face))) {
    const corners = distance(/** @type {Point} */ (ring[0]), /** @type {Point} */ (ring.at(-1))) < 1e-6 ? ring.slice(0, -1) : ring;
    for (const [i, corner] of corners.entries()) {
      if (distance(corner, p) > near + 0.5) continue;
      const [to, from] = [direction(corner, /** @type {Point} */ (corners[(i + 1) % corners.length])), direction(corner, /** @type {Point} */ (corners.at(i - 1)))];
      const turn = cross(to, from);
      const both = plus(to, from);
      if (Math.abs(turn) < 0.2 || !inside(plus(corner, times(direction([0, 0], both), 0.8)), ring)) continue;
      const half = thickest(corner, level.walls ?? []) / 2 + OFF_FACE;
      // Off both faces by the same: along the bisector by half / sin(half the angle between them).
      const at = plus(corner, times(both, half / Math.abs(turn)));
      return { snapped: { at, kind: "corner", words: "in the corner", guides: [] }, keys: { facing: (Math.round(bearing(both) * 10) / 10) % 360 } };
    }
  }
  return null;
}

/** @param {Point} corner @param {Wall[]} walls */
function thickest(corner, walls) {
  return Math.max(0.375, ...walls.filter((wall) => distance(nearestOn(corner, wall.a, wall.b), corner) < 0.1).map((wall) => wall.thickness ?? 0.375));
}

/** On the face of the wall that is near, looking off it. @param {Point} p @param {Level} level @param {number} near ft @returns {Place | null} */
export function onFace(p, level, near) {
  const hit = nearestWall(p, level.walls ?? [], near);
  if (!hit) return null;
  const left = leftOf(direction(hit.wall.a, hit.wall.b));
  const out = dot(minus(p, hit.at), left) >= 0 ? left : times(left, -1);
  const at = plus(hit.at, times(out, (hit.wall.thickness ?? 0.375) / 2 + OFF_FACE));
  return { snapped: { at, kind: "wall", words: "on the wall's face", guides: [] }, keys: { facing: (Math.round(bearing(out) * 10) / 10) % 360 } };
}
