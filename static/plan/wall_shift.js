/**
 * A wall moved square to itself, as a designer means it: walls that meet it keep their direction and follow with their
 * ends, walls in line with it stay, and a short wall closes the jog between.
 */

/** @import { Level, Plan, Point, Wall } from "./types.js" */

import { cross, direction, distance, dot, leftOf, meeting, minus, nearestOn, plus, times } from "../geometry/points.js";
import { PREFIX, SAME_CORNER, moveCorners } from "./edits.js";
import { newId } from "./lookup.js";

const ON_WALL = 0.02; // ft: an end this near to a wall meets it
const IN_LINE = 1e-3; // sine of the angle below which two walls count as in line
const SHORTEST = 0.05; // ft

/** @param {Wall} one @param {Wall} two */
const inLine = (one, two) => Math.abs(cross(direction(one.a, one.b), direction(two.a, two.b))) < IN_LINE;
/** @param {Wall} wall @param {Point} corner */
const endsAt = (wall, corner) => distance(wall.a, corner) < SAME_CORNER || distance(wall.b, corner) < SAME_CORNER;
/** @param {Wall} wall @param {Point} p */
const passes = (wall, p) => !endsAt(wall, p) && distance(nearestOn(p, wall.a, wall.b), p) < ON_WALL;

/**
 * @param {Plan} plan for ids @param {Level} level @param {Wall} wall @param {number} feet to the left of a→b
 * @returns {Level | null} null where a wall would be left with no length
 */
export function shiftWall(plan, level, wall, feet) {
  if (!feet) return level;
  return shiftRun(plan, level, new Set([wall.id]), times(leftOf(direction(wall.a, wall.b)), feet));
}

/** @param {Plan} plan @param {Level} level @param {Set<string>} ids walls in one line @param {Point} by square to it @returns {Level | null} */
function shiftRun(plan, level, ids, by) {
  const walls = level.walls ?? [];
  const run = walls.filter((wall) => ids.has(wall.id));
  const others = walls.filter((wall) => !ids.has(wall.id));
  const first = run[0];
  if (!first) return level;
  const way = direction(first.a, first.b);
  /** Where a wall's line meets the run's new line. @param {Point} p of that line @param {Wall} other */
  const onNewLine = (p, other) => meeting(plus(first.a, by), way, p, direction(other.a, other.b)) ?? plus(p, by);
  /** @type {Map<Point, Point>} */
  const moved = new Map();
  /** @type {Wall[]} */
  const jogs = [];
  const taken = new Set();
  for (const end of run.flatMap((wall) => [wall.a, wall.b])) {
    const meets = others.filter((other) => endsAt(other, end));
    const crossing = meets.find((other) => !inLine(other, first)) ?? others.find((other) => passes(other, end) && !inLine(other, first));
    const to = crossing ? onNewLine(end, crossing) : plus(end, by);
    moved.set(end, to);
    if (!meets.some((other) => inLine(other, first)) || distance(end, to) < SHORTEST) continue;
    const closed = others.some((other) => !inLine(other, first) && reaches(other, end, to));
    if (!closed && !jogs.some((jog) => endsAt(jog, end))) jogs.push({ ...first, id: newId(plan, PREFIX.walls, taken), a: end, b: to });
  }
  const follow = (/** @type {Wall} */ wall, /** @type {Point} */ end) => {
    if (inLine(wall, first)) return end;
    for (const [from, to] of moved) if (distance(from, end) < SAME_CORNER) return to;
    return run.some((own) => passes(own, end)) ? onNewLine(end, wall) : end;
  };
  const after = walls.map((wall) => {
    if (ids.has(wall.id)) return { ...wall, a: moved.get(wall.a) ?? wall.a, b: moved.get(wall.b) ?? wall.b };
    const [a, b] = [follow(wall, wall.a), follow(wall, wall.b)];
    return a === wall.a && b === wall.b ? wall : { ...wall, a, b };
  });
  const good = after.every((wall, i) => distance(wall.a, wall.b) >= SHORTEST && dot(minus(wall.b, wall.a), minus(/** @type {Wall} */ (walls[i]).b, /** @type {Wall} */ (walls[i]).a)) > 0);
  return good ? { ...level, walls: [...after, ...jogs] } : null;
}

/** Whether a wall that ends at the old corner still passes it on its way to the new one. @param {Wall} wall @param {Point} old @param {Point} to */
function reaches(wall, old, to) {
  const far = distance(wall.a, old) < SAME_CORNER ? wall.b : distance(wall.b, old) < SAME_CORNER ? wall.a : null;
  return far ? dot(minus(old, far), minus(to, old)) > 0 : passes(wall, old) && distance(nearestOn(to, wall.a, wall.b), to) < ON_WALL;
}

/** Whether any other wall meets this one. @param {Level} level @param {Wall} wall */
export const isMet = (level, wall) => (level.walls ?? []).some((other) => other.id !== wall.id
  && ([wall.a, wall.b].some((end) => endsAt(other, end) || passes(other, end)) || [other.a, other.b].some((end) => passes(wall, end))));

/**
 * Give a wall a length; one end stays. What meets the other end goes along square to itself, so that rooms stay square.
 * @param {Plan} plan @param {Level} level @param {Wall} wall @param {number} length ft @param {"a" | "b"} stays
 * @returns {Level | null} null where a wall would be left with no length
 */
export function withLength(plan, level, wall, length, stays) {
  const [still, end] = stays === "a" ? [wall.a, wall.b] : [wall.b, wall.a];
  const by = times(direction(still, end), length - distance(still, end));
  const met = (level.walls ?? []).find((other) => other.id !== wall.id && endsAt(other, end) && !inLine(other, wall));
  if (!met) return moveCorners(level, [end], by);
  const square = leftOf(direction(met.a, met.b));
  return shiftRun(plan, level, runOf(level, met), times(square, dot(by, square)));
}

/** A wall and all that go on in line with it. @param {Level} level @param {Wall} wall */
function runOf(level, wall) {
  const ids = new Set([wall.id]);
  for (const own of ids) {
    const from = /** @type {Wall} */ ((level.walls ?? []).find((other) => other.id === own));
    for (const other of level.walls ?? []) if (inLine(other, wall) && (endsAt(other, from.a) || endsAt(other, from.b))) ids.add(other.id);
  }
  return ids;
}
