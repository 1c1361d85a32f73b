/**
 * Moving, turning and mirroring of things as one kind of change: where each point goes, and which way a facing then points.
 * Openings ride on their walls: a wall's ends keep their names, so offset and hinge hold for the mirrored wall as well.
 */

/** @import { Fixture, Level, Opening, Point, Thing } from "./types.js" */

import { boxOf, minus, plus } from "../geometry/points.js";
import { wallOf } from "./lookup.js";

/** @typedef {{point: (p: Point) => Point, facing: (degrees: number) => number}} Change */

/** @param {number} feet */
const round = (feet) => Math.round(feet * 1e6) / 1e6;
/** @param {number} degrees from 0 up to 360 */
const circle = (degrees) => round(((degrees % 360) + 360) % 360);

/** @param {Point} by @returns {Change} */
export const shifted = (by) => ({ point: (p) => plus(p, by), facing: (degrees) => degrees });

/** @param {Point} about @param {number} degrees counter-clockwise @returns {Change} */
export function turned(about, degrees) {
  const quarter = Number.isInteger(degrees / 90);
  const radians = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)].map((part) => (quarter ? Math.round(part) : part));
  return {
    point(p) {
      const [x, y] = minus(p, about);
      return [round(about[0] + x * (cos ?? 1) - y * (sin ?? 0)), round(about[1] + x * (sin ?? 0) + y * (cos ?? 1))];
    },
    facing: (facing) => circle(facing + degrees),
  };
}

/** About a line through a point: upright swaps left and right, level swaps up and down. @param {Point} about @param {"upright" | "level"} line @returns {Change} */
export function mirrored(about, line) {
  return line === "upright"
    ? { point: (p) => [round(2 * about[0] - p[0]), p[1]], facing: (facing) => circle(180 - facing) }
    : { point: (p) => [p[0], round(2 * about[1] - p[1])], facing: (facing) => circle(-facing) };
}

/** @template {Thing} T @param {T} thing @param {Change} change @returns {T} */
export function changedThing(thing, change) {
  if ("wall" in thing) return thing;
  if ("a" in thing) return { ...thing, a: change.point(thing.a), b: change.point(thing.b) };
  const polygon = /** @type {Fixture} */ (thing).polygon;
  if (polygon) return { ...thing, polygon: polygon.map(change.point) };
  const { at, facing } = /** @type {{at?: Point | null, facing?: number | null}} */ (thing);
  return { ...thing, ...(at ? { at: change.point(at) } : {}), ...(facing == null ? {} : { facing: change.facing(facing) }) };
}

/** Change the chosen things of a level, and no other. @param {Level} level @param {Set<string>} ids @param {Change} change @returns {Level} */
export function changeThings(level, ids, change) {
  /** @template {Thing} T @param {T[] | undefined} things */
  const all = (things) => things?.map((thing) => (ids.has(thing.id) ? changedThing(thing, change) : thing));
  /** @type {Level} */
  const after = { ...level };
  for (const family of /** @type {const} */ (["walls", "fixtures", "rooms", "devices"])) {
    if (level[family]) Object.assign(after, { [family]: all(/** @type {Thing[]} */ (level[family])) });
  }
  return after;
}

/** Hang doors on their other jamb. @param {Level} level @param {Set<string>} ids @returns {Level} */
export function rehung(level, ids) {
  const hung = (/** @type {Opening} */ opening) => (ids.has(opening.id) && opening.kind === "door" ? { ...opening, hinge: opening.hinge === "b" ? /** @type {const} */ ("a") : /** @type {const} */ ("b") } : opening);
  return { ...level, openings: (level.openings ?? []).map(hung) };
}

/** The middle of the box about some things of a level; null where none has a place. @param {Level} level @param {Set<string>} ids @returns {Point | null} */
export function middleOfThings(level, ids) {
  const points = [
    ...(level.walls ?? []).flatMap((wall) => (ids.has(wall.id) ? [wall.a, wall.b] : [])),
    ...(level.fixtures ?? []).flatMap((fixture) => (ids.has(fixture.id) ? fixture.polygon ?? (fixture.at ? [fixture.at] : []) : [])),
    ...[...(level.rooms ?? []), ...(level.devices ?? [])].flatMap((thing) => (ids.has(thing.id) ? [thing.at] : [])),
  ];
  const box = boxOf(points);
  return box && [(box.left + box.right) / 2, (box.bottom + box.top) / 2];
}

/** Whether every chosen thing is an opening whose wall is not chosen. @param {Level} level @param {Set<string>} ids */
export const onlyOpenings = (level, ids) => (level.openings ?? []).filter((opening) => ids.has(opening.id) && !(wallOf(level, opening.wall) && ids.has(opening.wall))).length === ids.size;
