/**
 * A bay in place of a stretch of a wall: three walls that stand out from it, each with a window where it is wide enough.
 * The wall's other openings stay where they are; a bay that would take one away is refused by name.
 */

/** @import { Level, Opening, Plan, Point, Wall } from "./types.js" */

import { between, direction, distance, leftOf, plus, times } from "../geometry/points.js";
import { PREFIX, withLevel } from "./edits.js";
import { OPENING_WORDS, newId } from "./lookup.js";

const [LEAST_FRONT, LEAST_REST, JAMB, LEAST_WINDOW] = [0.5, 0.1, 0.5, 1]; // ft

/** @typedef {{width: number, projection: number, angle: number, windows: boolean, sill: number, head: number}} BayShape ft and degrees between the wall and the bay's sides */

/**
 * The four corners of a bay, from the wall's a on.
 * @param {Wall} wall @param {number} from ft from a @param {BayShape} shape @param {1 | -1} side 1: to the left of a→b
 * @returns {[Point, Point, Point, Point] | string} or why it cannot be
 */
export function bayCorners(wall, from, shape, side) {
  const length = distance(wall.a, wall.b);
  const run = shape.angle >= 89.99 ? 0 : shape.projection / Math.tan((shape.angle * Math.PI) / 180);
  if (shape.width > length + 1e-6) return "it is wider than its wall";
  if (shape.width - 2 * run < LEAST_FRONT) return "its sides meet before its front: less projection, or a steeper angle";
  const out = times(leftOf(direction(wall.a, wall.b)), shape.projection * side);
  const at = (/** @type {number} */ u) => between(wall.a, wall.b, u / length);
  return [at(from), plus(at(from + run), out), plus(at(from + shape.width - run), out), at(from + shape.width)];
}

/**
 * @param {Plan} plan @param {Level} level @param {Wall} wall @param {number} from @param {BayShape} shape @param {1 | -1} side
 * @returns {{plan: Plan, walls: string[]} | string} the plan with the bay's walls, or why it cannot be
 */
export function withBay(plan, level, wall, from, shape, side) {
  const corners = bayCorners(wall, from, shape, side);
  if (typeof corners === "string") return corners;
  const until = from + shape.width;
  const riding = (level.openings ?? []).filter((opening) => opening.wall === wall.id);
  const taken = riding.find((opening) => opening.offset < until - 1e-6 && opening.offset + opening.width > from + 1e-6);
  if (taken) return `${OPENING_WORDS[taken.kind].toLowerCase()} ${taken.id} stands there`;
  /** @type {Set<string>} */
  const ids = new Set();
  const length = distance(wall.a, wall.b);
  const [first, , , last] = corners;
  const before = from > LEAST_REST ? { ...wall, b: first } : null;
  const after = length - until > LEAST_REST ? { ...wall, id: before ? newId(plan, PREFIX.walls, ids) : wall.id, a: last } : null;
  const start = before ? first : wall.a;
  const end = after ? last : wall.b;
  const ring = /** @type {Point[]} */ ([start, corners[1], corners[2], end]);
  const bay = [0, 1, 2].map((i) => ({ ...wall, id: newId(plan, PREFIX.walls, ids), a: /** @type {Point} */ (ring[i]), b: /** @type {Point} */ (ring[i + 1]) }));
  const windows = shape.windows ? bay.flatMap((part) => windowIn(plan, part, shape, ids)) : [];
  return {
    walls: bay.map((part) => part.id),
    plan: withLevel(plan, level.id, (was) => ({
      ...was,
      walls: (was.walls ?? []).flatMap((other) => (other.id === wall.id ? [...(before ? [before] : []), ...bay, ...(after ? [after] : [])] : [other])),
      openings: [...(was.openings ?? []).map((opening) => (opening.wall === wall.id && opening.offset >= until - 1e-6 && after
        ? { ...opening, wall: after.id, offset: Math.max(0, opening.offset - until) } : opening)), ...windows],
    })),
  };
}

/** @param {Plan} plan @param {Wall} wall @param {BayShape} shape @param {Set<string>} ids @returns {Opening[]} */
function windowIn(plan, wall, shape, ids) {
  const width = distance(wall.a, wall.b) - 2 * JAMB;
  return width < LEAST_WINDOW ? [] : [{ id: newId(plan, PREFIX.openings, ids), wall: wall.id, kind: "window", offset: JAMB, width, sill: shape.sill, head: shape.head }];
}
