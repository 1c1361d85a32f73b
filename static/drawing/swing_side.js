/**
 * To which side of its wall a door swings, which the plan file does not say: into the room that people enter by it.
 * Out of closets, away from halls, else into the smaller room; indoors where only one side is a room.
 */

/** @import { Level, Opening, Point, RoomAnswer, Wall } from "../plan/types.js" */

import { thicknessOf } from "../geometry/joints.js";
import { direction, inside, leftOf, plus, times } from "../geometry/points.js";

const LEAVES = /closet|pantry|storage|linen|wardrobe/; // rooms that a door swings out of
const PASSED = /hall|entry|foyer|corridor|great|living|family|kitchen|dining|stair|landing|mud/; // rooms it swings away from

/**
 * @param {Level} level @param {RoomAnswer[]} answers @param {{id: string, faces: Point[][]}[]} levels every closed face
 * @returns {(opening: Opening, wall: Wall) => 1 | -1}
 */
export function sidesOf(level, answers, levels) {
  const rooms = answers.filter((room) => room.level === level.id);
  const faces = levels.find((entry) => entry.id === level.id)?.faces ?? [];
  return (opening, wall) => {
    const d = direction(wall.a, wall.b);
    const middle = plus(wall.a, times(d, opening.offset + opening.width / 2));
    const step = times(leftOf(d), thicknessOf(wall) / 2 + 0.4);
    const [left, right] = [standingAt(plus(middle, step), rooms, faces), standingAt(plus(middle, times(step, -1)), rooms, faces)];
    return left >= right ? 1 : -1;
  };
}

/** How willingly a door swings to a place: the larger the more. @param {Point} p @param {RoomAnswer[]} rooms @param {Point[][]} faces */
function standingAt(p, rooms, faces) {
  const room = rooms.find((entry) => entry.outline?.some((ring) => inside(p, ring)));
  if (!room) return faces.some((ring) => inside(p, ring)) ? 1 : 0;
  const use = `${room.use ?? ""} ${room.name}`.toLowerCase();
  if (LEAVES.test(use)) return 2;
  return PASSED.test(use) ? 3 : 4 + 1 / (1 + room.area_sqft);
}
